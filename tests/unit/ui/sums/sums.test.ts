import { describe, expect, test } from 'vitest';
import {
	type Calculation,
	calculations,
	runCalculation,
	verdictTitle
} from '../../../../src/lib/calculations/index.ts';
import { resultsOf } from '../../../../src/lib/ui/sums/figures.ts';
import { groups } from '../../../../src/lib/ui/sums/groups.ts';
import { problemWords, toneOf } from '../../../../src/lib/ui/sums/wording.ts';

const all = Object.values<Calculation>(calculations);

test('every sum stands in the groups once', () => {
	const ids = groups.flatMap(({ sums }) => sums.map(({ id }) => id));
	expect(ids.sort()).toEqual(all.map(({ id }) => id).sort());
});

describe('problems name the field as the page does', () => {
	test.each([
		[
			'resistor-drop',
			{ R_ohm: 1500, V: 5000 },
			'“Volts across it” is 5,000 V. This sum holds from 0 V to 1,000 V: check the figure and its unit (V).'
		],
		[
			'grid-leakage',
			{ V_feed: 90, V_grid: 95, R_grid_ohm: 1e6 },
			'“Volts measured on the grid” is not below “DC volts at the far plate of the capacitor”. A leak cannot do that: measure both points again.'
		],
		[
			'dial-frequencies',
			{ f_signal_kHz: 600, IF_kHz: 455, side: 'below' },
			'With the oscillator below, this sum needs a signal above twice the IF. Use “side of the signal on which the oscillator runs” "above".'
		]
	])('%s with %j', (id, given, words) => {
		const refusal = runCalculation(id, given);
		const problems = refusal.ok ? [] : refusal.problems;
		const calculation = all.find((one) => one.id === id);
		expect(problems.map((problem) => calculation && problemWords(calculation, problem))).toEqual([words]);
	});
});

describe('verdicts in words', () => {
	test('a loading error that has to be corrected is not called correct', () => {
		expect(verdictTitle(calculations['meter-loading'], 'correct')).toBe('Correct the reading first');
	});

	test('the best verdict of every sum is fine, and never a danger', () => {
		for (const sum of all) {
			const tones = (sum.verdicts ?? []).map(({ verdict }) => [verdict, toneOf(sum, verdict)]);
			expect(tones.map(([, tone]) => tone === 'fine')).toEqual(tones.map((_, i) => i === 0));
		}
	});
});

function resultsFor(calculation: Calculation, given: Record<string, unknown>, count = 1) {
	const answer = runCalculation(calculation.id, given);
	if (!answer.ok) throw new Error(answer.problems[0]?.message);
	return resultsOf(calculation, answer, count);
}

describe('results on the page', () => {
	test('65 V across 1.5 kohm: 43.3 mA first, then 2.82 W', () => {
		const { figures } = resultsFor(calculations['resistor-drop'], { R_ohm: 1500, V: 65 });
		expect(figures.map(({ number, unit }) => `${number} ${unit}`)).toEqual(['43.3 mA', '2.82 W']);
	});

	test('what the verdict rests on comes first', () => {
		const { figures } = resultsFor(calculations['resistor-drop'], { R_ohm: 1500, V: 65, P_rated_W: 4 });
		expect(figures[0]).toMatchObject({ key: 'load_pct', number: '70.4', unit: '%' });
	});

	test('with the set on 1,000 kHz and an IF of 470 the oscillator stands at 1,470 kHz', () => {
		const { figures } = resultsFor(calculations['dial-frequencies'], { f_signal_kHz: 1000, IF_kHz: 470 });
		expect(figures.find(({ key }) => key === 'f_osc_kHz')).toMatchObject({ number: '1,470', unit: 'kHz' });
	});

	test('what was typed is not told again as a result', () => {
		const given = { V_feed: 85, R_leak_ohm: 20e6, R_grid_ohm: 1e6 };
		const keys = resultsFor(calculations['grid-leakage'], given).figures.map(({ key }) => key);
		expect(keys).toEqual(['V_grid', 'I_leak_A']);
	});

	test('three ranges of a meter make a table of three rows, the range first', () => {
		const given = {
			V_supply: 50,
			R_top_ohm: 45e3,
			R_bottom_ohm: 5e3,
			range_V: [5, 10, 30],
			ohm_per_volt: 20000
		};
		const [table] = resultsFor(calculations['meter-loading'], given, 3).tables;
		expect(table?.heads[0]).toBe('Full scale of the range used');
		expect(table?.rows.map(([range]) => range)).toEqual(['5 V', '10 V', '30 V']);
		expect(table?.rows[0]).toContain('4.78 V');
	});

	test('alignment is a table after its warnings', () => {
		const { tables, lists } = resultsFor(calculations['alignment-order'], { band: 'AM' });
		expect(lists[0]?.lines.at(-1)).toContain('Cores come last');
		expect(tables[0]?.rows[0]).toContain('last IF can');
	});
});
