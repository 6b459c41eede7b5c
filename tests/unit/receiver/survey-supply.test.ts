import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../src/lib/receiver/index.ts';
import {
	type Bench,
	expectedVolts,
	planWith,
	stagesSay,
	surveyPoints,
	verdictOf,
	type SurveyRow
} from '../../../src/lib/receiver/survey.ts';
import { typicalCurrent } from '../../../src/lib/receiver/survey-supply.ts';
import { shippedLibrary } from '../../library.ts';

const { plans } = shippedLibrary();
const amFm = plans['am-fm-shared'] as Plan;
const acDc = planWith(plans['am-acdc-five'] as Plan, {
	mixer: 'UCH81',
	if: 'UF89',
	detector: 'UABC80',
	output: 'UL84',
	rectifier: 'UY85'
});

const SHEET = { 'ht.reservoir': 270, 'ht.smoothed': 250 };
const R12 = { 'ht.smoothing-resistor': { value: 1200, name: 'R12' } };
/** An EZ80 by its sheet: 250 V RMS, 50 uF. */
const KNOWN: Bench = { parts: R12, supply: { winding: 250, reservoir: 50e-6, current: 0.07 } };

/** What the check says of reservoir and smoothed line. */
function supplyAt(
	reservoir: number,
	smoothed: number,
	bench: Bench = { parts: {} },
	plan = amFm,
	sheet: Record<string, number> = SHEET
) {
	const read: Record<string, number> = { 'ht.reservoir': reservoir, 'ht.smoothed': smoothed };
	const { mains } = bench.supply ?? {};
	const expected = expectedVolts(plan, { volts: sheet, parts: {} }, mains === undefined ? {} : { mains });
	const rows = surveyPoints(plan).map((point): SurveyRow => {
		const [own, reading] = [expected[point.id], read[point.id]];
		const verdict = reading === undefined ? undefined : verdictOf(reading, own);
		return { point, expected: own, now: own, reading, out: false, verdict, alarm: undefined };
	});
	return stagesSay(plan, rows, bench).find(({ stage }) => stage === 'ht');
}

describe('the current of a set by its valves', () => {
	test.each(Object.values(plans))('$title: between 5 and 120 mA, the output anode the most of it', (plan) => {
		const drawn = typicalCurrent(plan, 250);
		expect(drawn?.whole).toBeGreaterThan(0.005);
		expect(drawn?.whole).toBeLessThan(0.12);
		expect(drawn?.outputAnode).toBeGreaterThan((drawn?.whole ?? 0) / 2);
	});

	test('ECH81, EF89, EABC80 and EL84 draw what their sheets add up to', () => {
		// EL84 48 + 5.5, EF89 9 + 3, ECH81 3 + 6.2 and 4.5, EABC80 about 1 mA at 250 V.
		expect((typicalCurrent(amFm, 250)?.whole ?? 0) * 1e3).toBeCloseTo(79, -1);
	});

	test('less HT draws less', () => {
		expect(typicalCurrent(amFm, 200)?.whole).toBeLessThan(typicalCurrent(amFm, 250)?.whole ?? 0);
	});
});

describe('a supply in the survey', () => {
	test('the volts of its sheet show no fault, and what they rest on is told', () => {
		const says = supplyAt(272, 248, { parts: R12 });
		expect(says?.title).toBe('Supply, EZ80');
		expect(says?.finding.verdict).toBe('sound');
		// 20 V over 1.2 kohm.
		expect(says?.basis).toContain('17 mA through the smoothing (by the drop of the sheet)');
		expect(says?.basis).toContain('typical, from valve data');
		expect(says?.finding.statement).toContain('would not show a reservoir that has dried out in part');
	});

	test('a figure of the set takes the place of the typical one', () => {
		expect(supplyAt(272, 248, KNOWN)?.basis).toContain(
			'(by its sheet), 250 V AC on each half of the winding'
		);
	});

	test('more before the smoothing and less behind it: the resistor by its name has risen', () => {
		const [first] = supplyAt(285, 205, KNOWN)?.finding.explanations ?? [];
		expect(first).toMatchObject({ fault: 'smoothing-high', suspects: ['smo-open'] });
	});

	test('a smoothing resistor of which only the measured 3.3 kohm are known has risen: the sheet leaves it less', () => {
		const parts = {
			'ht.smoothing-resistor': { value: 3300, measured: 3300, marked: false as const, name: 'R12' }
		};
		const [first] = supplyAt(285, 205, { ...KNOWN, parts })?.finding.explanations ?? [];
		expect(first?.fault).toBe('smoothing-high');
		expect(first?.value?.low).toBeGreaterThan(3200);
		expect(first?.value?.high).toBeLessThan(3400);
	});

	test('read with the switch at gram, when the radio stages may be off the line, nothing is said', () => {
		const rows = surveyPoints(amFm).map((point): SurveyRow => {
			const own = expectedVolts(amFm, { volts: SHEET, parts: {} }, {})[point.id];
			const reading = point.supply ? 272 : undefined;
			return {
				point,
				expected: own,
				now: own,
				reading,
				out: false,
				tuned: 'gram',
				verdict: undefined,
				alarm: undefined
			};
		});
		expect(stagesSay(amFm, rows, KNOWN)).toEqual([]);
	});

	test('both low: the ripple parts the causes, has its place, and a dry reservoir is named by it', () => {
		const low = supplyAt(215, 200, { ...KNOWN, extra: { 'ht.ripple': 40 } });
		expect(low?.finding.explanations[0]).toMatchObject({ fault: 'reservoir-dry' });
		expect(low?.closer.map(({ point }) => point)).toContain('ht.ripple');
		expect(low?.closer[0]?.how).toContain('AC range');
	});

	test('no volts behind the smoothing: a short, and it is measured unplugged', () => {
		const dead = supplyAt(200, 2, KNOWN)?.finding;
		expect(dead?.explanations[0]?.fault).toBe('smoothed-short');
		expect(dead?.lookNext?.reading).toBeUndefined();
		expect(dead?.lookNext?.words).toMatch(/^Unplug the set, prove it dead/);
		expect(supplyAt(1, 0, KNOWN)?.finding.lookNext?.words).toMatch(/^Unplug the set, prove it dead/);
	});

	test('without figures of the set, low volts are not called sound: the figures that would tell are asked for', () => {
		const mains = { parts: {}, supply: { mains: 230 } };
		const says = supplyAt(165, 140, mains, acDc, {});
		expect(says?.finding.statement).toContain('too little is known of this supply');
		expect(supplyAt(235, 205, mains, acDc, {})?.finding.statement).toContain('show no fault');
	});

	test('a type without a published output is reckoned as a usual one, and that is told', () => {
		const says = supplyAt(235, 205, { parts: {}, supply: { mains: 230 } }, acDc, {});
		expect(says?.basis).toContain('230 V AC of the mains');
		expect(says?.basis).toContain('the data give no output of the UY85');
	});

	test('a metal rectifier, and a battery, are not checked as a valve', () => {
		const selenium = planWith(amFm, {}, { rectifier: 'selenium' });
		expect(supplyAt(272, 248, { parts: R12 }, selenium)).toBeUndefined();
		expect(supplyAt(90, 88, { parts: {} }, plans['battery'] as Plan, {})).toBeUndefined();
	});

	test('with one of the two readings only, nothing is said', () => {
		const rows = surveyPoints(amFm).map((point): SurveyRow => ({
			point,
			expected: undefined,
			now: undefined,
			reading: point.id === 'ht.reservoir' ? 270 : undefined,
			out: false,
			verdict: undefined,
			alarm: undefined
		}));
		expect(stagesSay(amFm, rows, { parts: R12 })).toEqual([]);
	});
});
