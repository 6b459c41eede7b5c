import { describe, expect, test } from 'vitest';
import {
	bandOf,
	bandProblems,
	membership,
	parseWhen,
	printEdge,
	type Band
} from '../../../src/lib/flow/when.ts';

const read = (text: string): Band => {
	const result = parseWhen(text);
	if (!result.ok) throw new Error(result.message);
	return result.band;
};
const row = (...texts: string[]): Band[] => texts.map(read);

/** The grid of an output valve, and the cathode of one in percent of the sheet. */
const GRID = row('> 0.5 V', '0.1 .. 0.5 V', '-0.1 .. 0.1 V', '< -0.1 V');
const SHEET = row(
	'< 50 % of expected',
	'50 .. 80 % of expected',
	'80 .. 120 % of expected',
	'> 120 % of expected'
);
const LEAK = row('> 5 mA', '<= 5 mA');
const ROWS = { GRID, SHEET, LEAK };

describe('a range of readings', () => {
	test.each([
		['> 0.5 V', 0.5, Infinity, 'V'],
		['>= 0.5 V', 0.5, Infinity, 'V'],
		['< -0.1 V', -Infinity, -0.1, 'V'],
		['<0.5V', -Infinity, 0.5, 'V'],
		['0.1 .. 0.5 V', 0.1, 0.5, 'V'],
		['0.1..0.5 V', 0.1, 0.5, 'V'],
		['-0.1 .. 0.1 V', -0.1, 0.1, 'V'],
		['-25 .. -3 V', -25, -3, 'V'],
		['100 mV .. 2 V', 0.1, 2, 'V'],
		['4k7 .. 10k', 4700, 10000, 'ohm'],
		['20 .. 40 Mohm', 20e6, 40e6, 'ohm'],
		['> 1500 V', 1500, Infinity, 'V'],
		['470 .. 480 kHz', 470e3, 480e3, 'Hz']
	])('"%s" goes from %d to %d %s', (text, from, to, unit) => {
		expect(read(text)).toMatchObject({ from, to, unit, relative: false });
	});

	test.each([
		['> 120 % of expected', 1.2, Infinity],
		['< 10 %', -Infinity, 0.1],
		['80 .. 120 % of expected', 0.8, 1.2],
		['80 % .. 120 % of expected', 0.8, 1.2],
		['80 % of expected .. 120 % of expected', 0.8, 1.2]
	])('"%s" is a share of what is expected', (text, from, to) => {
		expect(read(text)).toMatchObject({ from, to, relative: true });
	});

	test('a "<=" keeps its own end, a "<" leaves it to the next band', () => {
		expect(read('<= 5 mA')).toMatchObject({ to: 0.005, closed: true });
		expect(read('< 5 mA').closed).toBe(false);
		expect(read('1 .. 5 mA').closed).toBe(false);
	});

	test.each([
		'',
		'>',
		'> V',
		'5 V',
		'= 5 V',
		'about 7 V',
		'0.5 V ..',
		'.. 3 V',
		'2 .. 1 V',
		'1 .. 1 V',
		'-0.1 .. -0.5 V',
		'1 .. 2 .. 3 V',
		'1 V .. 2 mA',
		'50 V .. 120 %',
		'> 1.2.3 % of expected',
		'> - %',
		'> 3 V of expected',
		'> 5 banana'
	])('"%s" is refused with an example', (text) => {
		const result = parseWhen(text);
		expect(result.ok).toBe(false);
		expect(result.ok ? '' : result.message).toContain(`"${text}" is not a range of readings. Write`);
	});

	test('every example of the refusal can be read', () => {
		const refused = parseWhen('');
		const examples = refused.ok
			? []
			: [...refused.message.matchAll(/ {2}"(.*?)"/g)].map(([, text = '']) => text);
		expect(examples).toHaveLength(4);
		expect(examples.filter((text) => !parseWhen(text).ok)).toEqual([]);
	});

	test.each([
		['< -0.1 V', '-0.1 V'],
		['< 1500 V', '1500 V'],
		['< 4k7', '4.7 kΩ'],
		['< 12.5 % of expected', '12.5 % of expected']
	])('the end of "%s" is printed so that it reads back', (text, printed) => {
		const band = read(text);
		expect(printEdge(band.to, band)).toBe(printed);
		expect(read(`< ${printed}`).to).toBe(band.to);
	});
});

describe('the bands of one step', () => {
	test.each(Object.entries(ROWS))('%s leaves no gap and no overlap, in any order', (_, bands) => {
		expect(bandProblems(bands)).toEqual([]);
		expect(bandProblems([...bands].reverse())).toEqual([]);
	});

	test.each([
		[['> 0.5 V', '-0.1 .. 0.5 V'], 'gap', -Infinity, -0.1],
		[['< 0.5 V', '0.5 .. 1 V'], 'gap', 1, Infinity],
		[['< 0.1 V', '> 0.5 V'], 'gap', 0.1, 0.5],
		[['< 0.6 V', '> 0.5 V'], 'overlap', 0.5, 0.6],
		[['< 10 V', '1 .. 2 V', '> 10 V'], 'overlap', 1, 2]
	])('%s: a %s from %d to %d', (texts, kind, from, to) => {
		expect(bandProblems(row(...(texts as string[])))).toMatchObject([{ kind, from, to }]);
	});

	test('a step without ranges is answered in words and has no problem', () => {
		expect(bandProblems([])).toEqual([]);
	});
});

describe('the band that a reading falls in', () => {
	test.each([
		[-0.11, 3],
		[-0.1, 2],
		[0, 2],
		[0.0999, 2],
		[0.1, 1],
		[0.499, 1],
		[0.5, 0],
		[80, 0]
	])('a grid at %d V is outcome %d', (volts, band) => {
		expect(bandOf(volts, GRID)).toBe(band);
	});

	test('5 mA is "<= 5 mA", whichever outcome is written first', () => {
		expect(bandOf(0.005, LEAK)).toBe(1);
		expect(bandOf(0.005, [...LEAK].reverse())).toBe(0);
		expect(bandOf(0.00501, LEAK)).toBe(0);
	});

	test('the last band takes its own end', () => {
		const bands = row('0 .. 1 V', '1 .. 2 V');
		expect([0, 1, 2].map((volts) => bandOf(volts, bands))).toEqual([0, 1, 1]);
	});

	test('a reading that no band takes has none', () => {
		expect(bandOf(5, row('< 1 V', '1 .. 2 V'))).toBe(-1);
	});
});

describe('how much a reading belongs to each band', () => {
	/** Readings strewn over both signs from a thousandth to a thousand, the same in every run. */
	const anywhere = Array.from({ length: 2000 }, (_, i) => {
		const size = 10 ** (((i * 0.6180339887) % 1) * 6 - 3);
		return i % 2 ? size : -size;
	});

	test.each(Object.entries(ROWS))('%s: shares are never negative and sum to one', (_, bands) => {
		for (const reading of anywhere) {
			const shares = membership(reading, bands);
			expect(Math.min(...shares)).toBeGreaterThanOrEqual(0);
			expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
		}
	});

	test.each([
		[0.5, 0, 1],
		[0.1, 1, 2],
		[-0.1, 2, 3]
	])('at %d V the two bands share alike', (edge, one, other) => {
		const shares = membership(edge, GRID);
		expect(shares[one]).toBeCloseTo(0.5, 12);
		expect(shares[other]).toBeCloseTo(0.5, 12);
	});

	test('a tenth of the edge away the reading belongs to one band alone', () => {
		expect(membership(0.451, row('< 0.5 V', '> 0.5 V'))).not.toEqual([1, 0]);
		expect(membership(0.449, row('< 0.5 V', '> 0.5 V'))).toEqual([1, 0]);
		expect(membership(0.551, row('< 0.5 V', '> 0.5 V'))).toEqual([0, 1]);
	});

	test('a narrow neighbour narrows the fade, so that three bands never share', () => {
		const bands = row('< 100 V', '100 .. 101 V', '> 101 V');
		expect(membership(100.5, bands)).toEqual([0, 1, 0]);
		for (let volts = 99; volts < 102; volts += 0.01)
			expect(membership(volts, bands).filter((share) => share > 0).length).toBeLessThanOrEqual(2);
	});

	test('an edge at nought fades over a tenth of its narrower neighbour', () => {
		const bands = row('< 0 V', '0 .. 2 V', '> 2 V');
		expect(membership(0, bands)).toEqual([0.5, 0.5, 0]);
		expect(membership(0.1, bands)[0]).toBeGreaterThan(0);
		expect(membership(0.21, bands)).toEqual([0, 1, 0]);
	});

	test.each(Object.entries(ROWS))('%s: a higher reading never belongs more to a lower band', (_, bands) => {
		const order = bands.map((band, index) => ({ band, index })).sort((a, b) => a.band.from - b.band.from);
		/** Share of all bands from this one upwards. */
		const upwards = (value: number, from: number) => {
			const shares = membership(value, bands);
			return order.slice(from).reduce((sum, { index }) => sum + (shares[index] ?? 0), 0);
		};
		const readings = [...anywhere].sort((a, b) => a - b);
		for (let from = 1; from < order.length; from++)
			for (const [i, reading] of readings.slice(1).entries())
				expect(upwards(reading, from)).toBeGreaterThanOrEqual(upwards(readings[i] ?? 0, from) - 1e-12);
	});

	test('the band that a reading falls in has the largest share', () => {
		for (const reading of anywhere) {
			const shares = membership(reading, GRID);
			expect(shares[bandOf(reading, GRID)]).toBeCloseTo(Math.max(...shares), 9);
		}
	});
});
