import { describe, expect, test } from 'vitest';
import type { Picture } from '../../../../src/lib/calculations/index.ts';
import { calculations } from '../../../../src/lib/calculations/registry.ts';
import { picturesOf } from '../../../../src/lib/calculations/run.ts';
import { isLog } from '../../../../src/lib/ui/chart/axis.ts';
import { layoutOf } from '../../../../src/lib/ui/chart/layout.ts';
import { tableOf } from '../../../../src/lib/ui/chart/table.ts';

/** Leakage falls from 4.5 mA to 0.12 mA in an hour (retronics.no, 28 Feb 2023), with a limit of 1.1 mA. */
const leakage: Picture = {
	title: 'Leakage against time',
	x: { label: 'Time', unit: 'min' },
	y: { label: 'Leakage', unit: 'mA' },
	curves: [
		{
			label: 'measured',
			style: 'dots',
			points: [
				[20, 4.5e-3],
				[900, 1e-3],
				[3600, 0.12e-3]
			]
		},
		{
			label: 'fit',
			style: 'dashed',
			points: Array.from({ length: 60 }, (_, i) => {
				const t = 20 * 180 ** (i / 59);
				return [t, 4.5e-3 * (t / 20) ** -0.7] as const;
			})
		}
	],
	marks: [{ label: 'limit', y: 1.1e-3 }],
	bands: [{ axis: 'y', from: 0, to: 1.1e-3, label: 'may stay' }]
};

/** A capacitor that does not come back: all is told in the upper third. */
const stalled = picturesOf(calculations['reform-progress'], {
	limit_mA: 1.1,
	V_applied: 350,
	V_working: 350,
	series_min_mA: [
		[10, 3.1],
		[30, 2.6],
		[60, 2.45],
		[90, 2.4],
		[120, 2.38]
	]
})[0]!;

const filter: Picture = {
	title: 'Ripple along the filter',
	x: {
		label: 'Place',
		unit: 'number',
		ticks: [
			{ at: 0, label: 'reservoir' },
			{ at: 1, label: 'after the first resistor' },
			{ at: 2, label: 'screen feed' }
		]
	},
	y: { label: 'Ripple', unit: 'V' },
	curves: [
		{
			label: 'ripple',
			style: 'solid',
			points: [
				[0, 10],
				[1, 1],
				[2, 0.05]
			]
		}
	]
};

const inside = (value: number, from: number, to: number) => value >= from - 0.01 && value <= to + 0.01;

describe('axes', () => {
	test.each([
		['a decade', { low: 1, high: 10 }, true],
		['less than a decade', { low: 540, high: 1600 }, false],
		['from zero', { low: 0, high: 100 }, false],
		['below zero', { low: -60, high: 0 }, false]
	])('%s', (_, { low, high }, log) => {
		expect(isLog({ label: 'x', unit: 'number' }, low, high)).toBe(log);
	});

	test('a scale that is asked for is kept, save a logarithm of zero', () => {
		expect(isLog({ label: 'x', unit: 'V', scale: 'linear' }, 1, 1000)).toBe(false);
		expect(isLog({ label: 'x', unit: 'V', scale: 'log' }, 2, 3)).toBe(true);
		expect(isLog({ label: 'x', unit: 'V', scale: 'log' }, 0, 3)).toBe(false);
	});

	test('the figures are in the unit of the axis, which stands in its title', () => {
		const { x, y } = layoutOf(leakage, 600);
		expect([x.title, y.title]).toEqual(['Time, min', 'Leakage, mA']);
		expect(x.ticks.map(({ label }) => label)).toEqual(expect.arrayContaining(['1', '10', '100']));
		expect(y.ticks.map(({ label }) => label)).toEqual(expect.arrayContaining(['0.1', '1', '5']));
	});

	test('stages of a filter are named instead of counted', () => {
		expect(layoutOf(filter, 600).x.ticks.map(({ label }) => label)).toEqual([
			'reservoir',
			'after the first resistor',
			'screen feed'
		]);
	});
});

describe.each([320, 328, 600, 1200])('on %d pixels', (width) => {
	test.each([leakage, filter])('$title stays within its frame', (picture) => {
		const { plot, curves, labels, bands, height } = layoutOf(picture, width);
		const [right, bottom] = [plot.left + plot.width, plot.top + plot.height];
		const points = curves.flatMap(({ path, dots }) => [
			...dots,
			...(path.match(/-?[\d.]+,-?[\d.]+/g) ?? []).map((pair) => pair.split(',').map(Number))
		]);
		expect(points.length).toBeGreaterThan(2);
		for (const [x = NaN, y = NaN] of points) {
			expect(inside(x, plot.left, right) && inside(y, plot.top, bottom)).toBe(true);
		}
		for (const box of [...labels, ...bands]) {
			expect(box.left).toBeGreaterThanOrEqual(0);
			expect(box.left + box.width).toBeLessThanOrEqual(width + 0.01);
			expect(box.top + box.height).toBeLessThanOrEqual(height);
		}
	});

	test.each([
		[leakage, ['fit', 'limit', 'may stay', 'measured']],
		[stalled, ['fit', 'if it goes on so', 'limit', 'readings']]
	])('no word stands on another', (picture, words) => {
		const { labels } = layoutOf(picture, width);
		expect(labels.map(({ text }) => text).sort()).toEqual(words);
		for (const [i, a] of labels.entries())
			for (const b of labels.slice(i + 1)) {
				const apart =
					a.left + a.width <= b.left ||
					b.left + b.width <= a.left ||
					a.top + a.height <= b.top ||
					b.top + b.height <= a.top;
				expect(apart, `${a.text} and ${b.text}`).toBe(true);
			}
	});
});

test('more leakage is higher up, later is further right', () => {
	const [first, , last] = layoutOf(leakage, 600).curves[0]?.dots ?? [];
	expect(first?.[0]).toBeLessThan(last?.[0] ?? 0);
	expect(first?.[1]).toBeLessThan(last?.[1] ?? 0);
});

test('a flat curve is drawn in the middle', () => {
	const flat: Picture = { ...leakage, marks: [], bands: [], curves: [] };
	const points = [
		[60, 1e-3],
		[120, 1e-3]
	] as const;
	const { plot, curves } = layoutOf({ ...flat, curves: [{ label: 'a', style: 'dots', points }] }, 600);
	const y = curves[0]?.dots[0]?.[1] ?? 0;
	expect(inside(y, plot.top + plot.height / 4, plot.top + (3 * plot.height) / 4)).toBe(true);
});

describe('the table beside the picture', () => {
	test('has every measured point, and a smooth curve at a dozen places', () => {
		const { heads, rows } = tableOf(leakage);
		expect(heads).toEqual(['Time, min', 'measured, mA', 'fit, mA']);
		expect(rows.length).toBeLessThan(18);
		expect(rows.find(([at]) => at === '15')?.slice(0, 2)).toEqual(['15', '1']);
		expect(rows.find(([at]) => at === '60')).toEqual(['60', '0.12', expect.stringMatching(/^0\.1\d+$/)]);
	});

	test('a crossing of zero is told as nought', () => {
		const points = [
			[1, -5],
			[2, 1e-9],
			[3, 5]
		] as const;
		const crossing: Picture = { ...filter, curves: [{ label: 'error', style: 'solid', points }] };
		expect(tableOf({ ...crossing, x: { label: 'x', unit: 'number' } }).rows[1]).toEqual(['2', '0']);
	});

	test('tells lines and stretches in words', () => {
		expect(tableOf(leakage).notes).toEqual(['limit: Leakage 1.1 mA', 'may stay: Leakage 0 mA to 1.1 mA']);
	});

	test('names the stages', () => {
		expect(tableOf(filter).rows).toEqual([
			['reservoir', '10'],
			['after the first resistor', '1'],
			['screen feed', '0.05']
		]);
	});

	test('a marked point stands in it with its value', () => {
		const marked: Picture = { ...filter, marks: [{ label: 'heard', x: 1, y: 1 }] };
		expect(tableOf(marked).rows[1]).toEqual([{ text: 'after the first resistor', note: 'heard (1 V)' }, '1']);
	});
});

describe('bars, for parts that stand apart', () => {
	const heat = (values: readonly number[], width: number) => {
		const ticks = values.map((_, at) => ({ at, label: `to node ${at + 1}` }));
		const points = values.map((value, at) => [at, value] as const);
		return layoutOf(
			{
				title: 'Heat in each resistor',
				x: { label: 'Resistor', unit: 'number', scale: 'linear', ticks },
				y: { label: 'Heat', unit: 'W' },
				curves: [
					{ label: 'expected', style: 'hollow bars', points },
					{ label: 'measured', style: 'full bars', points }
				]
			},
			width
		);
	};

	test.each([280, 600])(
		'stand in the frame, apart from each other, each as high as its value, %i px wide',
		(width) => {
			const { plot, curves } = heat([3, 1.5, 2], width);
			const [expected = [], measured = []] = curves.map(({ bars }) => bars);
			expect(expected).toHaveLength(3);
			for (const { left, top, width: across, height } of [...expected, ...measured]) {
				expect(inside(left, plot.left, plot.left + plot.width - across)).toBe(true);
				expect(inside(top, plot.top, plot.top + plot.height - height)).toBe(true);
			}
			expect((expected[1]?.height ?? 0) * 2).toBeCloseTo(expected[0]?.height ?? 0, 1);
			const inOrder = expected.flatMap((bar, i) => [bar, measured[i]]);
			for (const [i, bar] of inOrder.slice(1).entries())
				expect(bar?.left).toBeGreaterThanOrEqual((inOrder[i]?.left ?? 0) + (inOrder[i]?.width ?? 0) - 0.01);
		}
	);

	test('a decade and more is drawn in decades, and the least bar is still seen', () => {
		const { y, curves } = heat([2, 0.02, 1e-9], 360);
		expect(y.log).toBe(true);
		expect(Math.min(...(curves[0]?.bars ?? []).map(({ height }) => height))).toBeGreaterThanOrEqual(2);
	});
});

test('figures along the foot of a picture stand clear of each other on a phone', () => {
	const points = [
		[1e-6, 1],
		[0.1, 20]
	] as const;
	const { x } = layoutOf(
		{
			title: 'AVC against signal',
			x: { label: 'Signal', unit: 'uV', scale: 'log' },
			y: { label: 'AVC', unit: 'V', scale: 'linear' },
			curves: [{ label: 'AVC', style: 'solid', points }]
		},
		328
	);
	const widths = x.ticks.map(({ at, label }) => ({ at, half: (label.length * 7) / 2 }));
	for (const [i, { at, half }] of widths.slice(1).entries())
		expect(at - half).toBeGreaterThan((widths[i]?.at ?? 0) + (widths[i]?.half ?? 0));
});

test('a line across at the least value keeps clear of the frame', () => {
	const reached: Picture = { ...leakage, marks: [{ label: 'limit', y: 0.1e-3 }], bands: [] };
	const { plot, marks } = layoutOf(reached, 360);
	const y = Number(marks[0]?.path?.match(/,([\d.]+)H/)?.[1]);
	expect(y).toBeLessThan(plot.top + plot.height - 3);
});
