import { describe, expect, test } from 'vitest';
import { readTable } from '../../../../src/lib/job/sheet-table/read.ts';
import type { Plan } from '../../../../src/lib/receiver/index.ts';
import { planWith } from '../../../../src/lib/receiver/survey.ts';
import { shippedLibrary } from '../../../library.ts';

const { plans } = shippedLibrary();
const plan = plans['am-fm-shared'] as Plan;
const read = (text: string, own: Plan = plan) => readTable(text, own);

const EIGHT = {
	'mixer.anode': 240,
	'mixer.screen': 92,
	'if.anode': 200,
	'if.screen': 95,
	'if.cathode': 1.9,
	'output.anode': 245,
	'output.screen': 250,
	'output.cathode': 7.3
};
const THREE = { 'if.anode': 200, 'if.screen': 85, 'if.cathode': 2.1 };

describe('a table with a row for each valve', () => {
	const columns = 'valve\ta\tg2\tk\nECH81\t240\t92\t-\nEF89\t200\t95\t1.9\nEL84\t245\t250\t7.3\n';

	test.each([
		['tabs', columns],
		['semicolons', columns.replaceAll('\t', ';')],
		['commas', columns.replaceAll('\t', ',')],
		['commas and room', columns.replaceAll('\t', ', ')],
		['room', columns.replaceAll('\t', '   ')],
		['one blank', columns.replaceAll('\t', ' ')],
		['strokes', columns.replaceAll('\t', ' / ')],
		[
			'drawn lines',
			columns.replace(/^.+$/gm, '| $& |').replaceAll('\t', ' | ').replace('\n', '\n|---|---|---|---|\n')
		],
		['quotes', columns.replace(/[^\t\n]+/g, '"$&"').replaceAll('\t', ',')]
	])('is read with %s between the columns', (_, text) => {
		expect(read(text)).toMatchObject({ volts: EIGHT, aside: [], notes: [] });
	});

	test('heads in words, V numbers, types and duties in front', () => {
		const text = `Valve            Anode   Screen   Cathode
V2 ECH81 Mixer     240       92       -
V3 EF89 IF amp     200       95      1.9
V5 EL84 Output     245      250      7.3`;
		expect(read(text)).toMatchObject({ volts: EIGHT, aside: [] });
	});

	test('columns of milliamps are left out and that is told', () => {
		const text = `Valve;Anode Voltage (V);Anode Current (mA);Screen Voltage (V);Screen Current (mA);Cath. (V)
EF89;200;9;85;3;2,1`;
		const { volts, aside, notes } = read(text);
		expect(volts).toEqual(THREE);
		expect(aside).toEqual([]);
		expect(notes.join()).toContain('columns of current');
	});

	test('the same copied with single blanks', () => {
		const text = `Valve Anode Voltage (V) Anode Current (mA) Screen Voltage (V) Screen Current (mA) Cathode (V)
V3 EF89 200 9 85 3 2.1`;
		expect(read(text)).toMatchObject({ volts: THREE, aside: [] });
	});

	test('units on a line of their own: V mA V mA V', () => {
		const text = `Valve    Anode        Screen        Cathode
          V    mA       V    mA       V
EF89     200   9.0     85    3.0     2.1`;
		expect(read(text)).toMatchObject({ volts: THREE, aside: [] });
	});

	test('symbols as continental sheets print them, with decimal commas', () => {
		expect(read('Röhre\tUa\tUg2\tUk\tIa\nEF89\t200\t85\t2,1\t9')).toMatchObject({ volts: THREE, aside: [] });
		expect(read('Type Va Vg2 Vk\nEF89 200,0 85,0 2,1')).toMatchObject({ volts: THREE, aside: [] });
	});

	test('a cell left blank is told by where the others stand', () => {
		const text = `Valve     Anode    Screen    Cathode
EF89       200                  2.1
EABC80      90`;
		expect(read(text)).toMatchObject({
			volts: { 'if.anode': 200, 'if.cathode': 2.1, 'af.anode': 90 },
			aside: []
		});
	});

	test('where blanks do not tell it, nothing is guessed', () => {
		const { volts, aside } = read('valve a g2 k\nEF89 200 2.1\nEL84 245 250 7.3');
		expect(volts).toEqual({ 'output.anode': 245, 'output.screen': 250, 'output.cathode': 7.3 });
		expect(aside).toEqual([
			{
				line: 'EF89 200 2.1',
				at: 2,
				why: '2 figures stand under 3 heads: put a dash where nothing was read.'
			}
		]);
	});

	test('the oscillator of a mixer in a line of its own, and the rectifier’s cathode as the reservoir', () => {
		const text = `Valve\tAnode\tScreen\tCathode
V2 ECH81\t240\t92\t-
Osc.\t110\t-\t-
V6 EZ80\t-\t-\t270`;
		expect(read(text)).toMatchObject({
			volts: { 'mixer.anode': 240, 'mixer.screen': 92, 'oscillator.anode': 110, 'ht.reservoir': 270 },
			aside: []
		});
	});

	test('a set with the same type twice takes the lines in turn', () => {
		const two = plans['am-fm-extra-if'] as Plan;
		const types = Object.values(two.valves).map(({ type }) => type);
		const [twice] = types.filter((type, index) => types.indexOf(type) !== index);
		const { volts, aside } = read(`valve;a;g2\n${twice};201;81\n${twice};202;82`, two);
		expect(aside).toEqual([]);
		expect(Object.values(volts)).toEqual([201, 81, 202, 82]);
		expect(new Set(Object.keys(volts).map((id) => id.split('.')[0])).size).toBe(2);
	});
});

describe('other shapes of a table', () => {
	test('all readings of a valve in one line', () => {
		for (const line of [
			'V3 a 200 V g2 85 V k 2.1 V',
			'EF89: a=200, g2=85, k=2.1',
			'V3 (EF89): Va = 200 V, Vg2 = 85 V, Vk = 2,1 V',
			'EF89 anode 200 screen grid 85 cathode 2.1 volts',
			'EF89: 200 V on the anode, 85 V on the screen, 2.1 V on the cathode'
		])
			expect(read(line), line).toMatchObject({ volts: THREE, aside: [] });
	});

	test('V and a number alone go by the order of the list, and that is told', () => {
		const { volts, notes } = read('V3 a 200 g2 85');
		expect(volts).toEqual({ 'if.anode': 200, 'if.screen': 85 });
		expect(notes).toEqual(['V3 is taken as the EF89 (IF pentode), by the order of the list above.']);
	});

	test('one reading a line, the supply by its name, units and decimal commas', () => {
		const text = 'Reservoir 270 V\nHT 250\n6BQ5 anode 245V\nEL84 k 7,3\nAudio anode 90 V DC\n';
		expect(read(text)).toMatchObject({
			volts: {
				'ht.reservoir': 270,
				'ht.smoothed': 250,
				'output.anode': 245,
				'output.cathode': 7.3,
				'af.anode': 90
			},
			aside: []
		});
	});

	test('a valve over lines of its electrodes', () => {
		expect(read('V3 EF89\n anode 200\n screen 85\n cathode 2.1')).toMatchObject({ volts: THREE, aside: [] });
	});

	test('valves as heads, electrodes as rows', () => {
		const text = '\tECH81\tEF89\tEL84\nAnode\t240\t200\t245\nScreen\t92\t95\t250\nCathode\t-\t1.9\t7.3';
		expect(read(text)).toMatchObject({ volts: EIGHT, aside: [] });
	});

	test('screens of a heptode, marks of footnotes, signs for about', () => {
		expect(read('valve;a;g2+g4;k\n6AJ8;240*;~92;—')).toMatchObject({
			volts: { 'mixer.anode': 240, 'mixer.screen': 92 },
			aside: []
		});
	});

	test('the meter and the mains of the sheet are read with it', () => {
		const { sheet, volts } = read(
			'Measured with a 20 kΩ/V meter, 400 V range\nMains 220 V a.c.\nvalve a g2 k\nEF89 200 85 2.1'
		);
		expect(sheet).toEqual({ ohmsPerVolt: 20e3, range: 400, mains: 220 });
		expect(volts).toEqual(THREE);
		expect(read('1,000 ohms per volt').sheet).toEqual({ ohmsPerVolt: 1000 });
		expect(read('Meter resistance 500 kΩ').sheet).toEqual({ meter: 500e3 });
	});

	test('the bias of a set with a resistor in HT negative', () => {
		const back = plans['am-transformer-back-bias'] as Plan;
		expect(read('HT 250\nHT negative -7.2 V', back).volts).toEqual({
			'ht.smoothed': 250,
			'ht.negative': -7.2
		});
	});

	test('an audio triode told as a triode, a valve that the job has put into the plan', () => {
		expect(read('EABC80 triode anode 90').volts).toEqual({ 'af.anode': 90 });
		expect(read('EL95 a 230', planWith(plan, { output: 'EL95' })).volts).toEqual({ 'output.anode': 230 });
	});
});

describe('what is not understood', () => {
	test('unknown valves and cells are kept aside with line and cure, the rest is taken', () => {
		const { volts, aside } = read('valve;a;g2\nEF89;200;95\nEM34;240;\nEL84;2x5;250');
		expect(volts).toEqual({ 'if.anode': 200, 'if.screen': 95, 'output.screen': 250 });
		expect(aside.map(({ at }) => at)).toEqual([3, 4]);
		expect(aside[0]?.why).toMatch(/^“EM34” is not among the valves.*correct the type there/);
		expect(aside[1]?.why).toContain('Correct it, or put a dash');
	});

	test.each([
		['AC', 'EF89 anode 6.3 V AC', /AC: the survey takes DC only/],
		['a current', 'EF89 anode 9 mA', /is a current/],
		['a resistance', 'EF89 anode 47 kΩ', /is a resistance/],
		['two figures, AM and FM', 'EF89 anode 200/185', /two figures/],
		['a place that the survey leaves out', 'EF89 g1 -2', /no such place/],
		['no heads', 'EF89 200 85 2.1', /Which electrode\?/],
		['no valve', 'the quick brown fox', /is no valve or point of this set/],
		['a second figure for one place', 'EL84 a 245\nEL84 a 240', /further up already: 245 V/]
	])('%s is told with what to do', (_, text, why) => {
		const { aside } = read(text);
		expect(aside).toHaveLength(1);
		expect(aside[0]?.why).toMatch(why);
		expect(aside[0]?.at).toBe(text.split('\n').length);
	});

	test('nonsense takes nothing and is listed whole', () => {
		const { volts, aside } = read('the quick brown fox\n<script>1</script>');
		expect(volts).toEqual({});
		expect(aside.map(({ line }) => line)).toEqual(['the quick brown fox', '<script>1</script>']);
	});

	test('an EF85 in the place of the EF89 is no EF89, whatever its number', () => {
		const { volts, aside } = read('valve a g2\nV3 EF85 200 85');
		expect(volts).toEqual({});
		expect(aside[0]?.why).toContain('EF85');
	});
});
