import { describe, expect, test } from 'vitest';
import { whereIs } from '../../../src/lib/flow/where.ts';
import { runCalculation } from '../../../src/lib/calculations/index.ts';
import { movedByTuning, type Plan } from '../../../src/lib/receiver/index.ts';
import {
	expectedVolts,
	falseAlarm,
	impossibleIn,
	nearestPlan,
	patternOf,
	planWith,
	questionReading,
	stagesSay,
	surveyPoints,
	toHt,
	typesIn,
	verdictOf,
	workedOut,
	type SheetFacts,
	type SurveyRow
} from '../../../src/lib/receiver/survey.ts';
import { pinOf } from '../../../src/lib/valves/index.ts';
import { shippedLibrary } from '../../library.ts';

const { plans } = shippedLibrary();
const plan = plans['am-fm-shared'] as Plan;
const sheet = (volts: Record<string, number>, more: Partial<SheetFacts> = {}): SheetFacts => ({
	volts,
	parts: {},
	...more
});

const SHEET = {
	'ht.reservoir': 270,
	'ht.smoothed': 250,
	'output.screen': 250,
	'output.anode': 245,
	'if.anode': 200,
	'if.screen': 95,
	'mixer.anode': 240
};

/** Rows as a survey of the given readings has them. */
function rowsOf(
	read: Record<string, number>,
	volts: Record<string, number> = SHEET,
	out: string[] = []
): SurveyRow[] {
	const expected = expectedVolts(plan, sheet(volts), {});
	const smoothed = read['ht.smoothed'];
	const ht =
		smoothed === undefined
			? undefined
			: { point: 'ht.smoothed', value: smoothed, expected: expected['ht.smoothed']?.value ?? 0 };
	return surveyPoints(plan).map((point) => {
		const own = expected[point.id];
		const now = own && toHt(plan, point.id, own, ht);
		const reading = read[point.id];
		return {
			point,
			expected: own,
			now,
			reading,
			out: out.includes(point.id),
			verdict: reading === undefined ? undefined : verdictOf(reading, now),
			alarm: reading === undefined ? undefined : falseAlarm(reading, now)
		};
	});
}
const rowAt = (rows: SurveyRow[], id: string) => rows.find(({ point }) => point.id === id) as SurveyRow;

describe('the order of a survey', () => {
	test('the supply comes first, and each base is gone round once, pin after pin', () => {
		for (const one of Object.values(plans)) {
			const points = surveyPoints(one);
			expect(points[0]?.id).toBe('ht.reservoir');
			expect(points[1]?.id).toBe('ht.smoothed');
			const valves = points.flatMap(({ valve, supply }) => (valve && !supply ? [valve] : []));
			const runs = valves.filter((valve, index) => valve !== valves[index - 1]);
			expect(runs, one.id).toEqual([...new Set(valves)]);
			for (const valve of new Set(valves)) {
				const pins = points
					.filter((point) => point.valve === valve && !point.supply)
					.flatMap(({ electrode = '', system }) => {
						const found = pinOf(one.valves[valve]?.type ?? '', electrode, system);
						return found.named ? [found.pin] : [];
					});
				expect(pins, `${one.id} ${valve}`).toEqual([...pins].sort((a, b) => a - b));
			}
		}
	});

	test('every point is asked once', () => {
		for (const one of Object.values(plans)) {
			const ids = surveyPoints(one).map(({ id }) => id);
			expect(new Set(ids).size).toBe(ids.length);
		}
	});
});

describe('what should be there', () => {
	test('88 V on a meter of 200 kohm from 73 kohm are 119 V on one of 10 Mohm, as the sum for it says', () => {
		const facts = sheet({ 'if.screen': 88 }, { meter: 200e3, parts: { 'if.screen-source': 73e3 } });
		const found = expectedVolts(plan, facts, { meter: 10e6 })['if.screen'];
		expect(found?.value).toBeGreaterThan(118);
		expect(found?.value).toBeLessThan(120);
		const answer = runCalculation('meter-loading', {
			V_read: 88,
			R_source_ohm: 73e3,
			R_meter_ohm: 200e3,
			R_mine_ohm: 10e6
		});
		expect(answer.ok && answer.outputs['V_mine']).toBeCloseTo(found?.value ?? 0, 1);
	});

	test('a reading that looks high beside the sheet and is right on this meter is named a false alarm', () => {
		const facts = sheet({ 'if.screen': 88 }, { meter: 200e3, parts: { 'if.screen-source': 73e3 } });
		const found = expectedVolts(plan, facts, { meter: 10e6 })['if.screen'];
		expect(falseAlarm(118, found)).toContain('No fault');
		expect(falseAlarm(90, found)).toBeUndefined();
	});

	test('HT of 200 V for 250 V: an anode of 200 V is expected at 160 V and 160 V reads as expected', () => {
		const rows = rowsOf({ 'ht.smoothed': 200, 'if.anode': 160 });
		const anode = rowAt(rows, 'if.anode');
		expect(anode.now?.value).toBeCloseTo(160);
		expect(anode.verdict).toBe('as-expected');
		expect(anode.alarm).toBeUndefined();
		expect(patternOf(plan, rows, { smoothing: 'R12' })).toMatch(/beyond R12 is low in one ratio, 80 %/);
	});

	test('230 V mains for a sheet made at 220 V raise everything alike', () => {
		const found = expectedVolts(plan, sheet(SHEET, { mains: 220 }), { mains: 230 });
		expect(found['ht.reservoir']?.value).toBeCloseTo((270 * 230) / 220);
		expect(found['if.anode']?.steps.join()).toContain('220 V mains to 230 V');
	});

	test('a set without a sheet gets a range at nearly every place, marked from where it is', () => {
		for (const one of Object.values(plans)) {
			const found = expectedVolts(one, sheet({}), {});
			const points = surveyPoints(one).filter(({ electrode }) => electrode !== 'g1' && electrode !== 'g');
			const known = points.filter(({ id }) => found[id] !== undefined);
			expect(known.length / points.length, one.id).toBeGreaterThan(0.75);
			for (const { id } of known) {
				const { from, to, value, basis } = found[id] as NonNullable<(typeof found)[string]>;
				expect(basis).not.toBe('sheet');
				expect(from).toBeLessThanOrEqual(value);
				expect(to).toBeGreaterThanOrEqual(value);
				expect(to - from, `${one.id} ${id}`).toBeGreaterThan(0.15 * value);
			}
		}
	});
});

describe('the pattern of the readings', () => {
	const low = Object.fromEntries(Object.entries(SHEET).map(([id, volts]) => [id, volts * 0.8]));

	test('a right reservoir and all beyond the smoothing low in one ratio point between the two', () => {
		const rows = rowsOf({ ...low, 'ht.reservoir': 270 });
		expect(patternOf(plan, rows, { smoothing: 'R12' })).toContain('look between R12 and the reservoir');
	});

	test('a reservoir low in the same ratio points at the rectifier and before', () => {
		const rows = rowsOf({ ...low, 'ht.reservoir': 216 });
		expect(patternOf(plan, rows, { smoothing: 'R12' })).toContain('the rectifier');
	});

	test('one reading that is off by itself does not hide what the others have in common', () => {
		const rows = rowsOf({ ...low, 'ht.reservoir': 270, 'if.screen': 20 });
		expect(patternOf(plan, rows, { smoothing: 'R12' })).toContain('look between R12 and the reservoir');
	});

	test('one stage that differs is named, the others are cleared for DC', () => {
		const rows = rowsOf({ ...SHEET, 'if.screen': 20 });
		expect(patternOf(plan, rows, { smoothing: 'R12' })).toContain(
			'Only one place differs: IF amplifier valve'
		);
	});

	test('all right is said so, and nothing is said of nothing', () => {
		expect(patternOf(plan, rowsOf(SHEET), { smoothing: 'R12' })).toMatch(/All 7 readings are as expected/);
		expect(patternOf(plan, rowsOf({}), { smoothing: 'R12' })).toBeUndefined();
	});
});

describe('currents beside the readings', () => {
	const part = (value: number, watts?: number) => ({ value, ...(watts ? { watts } : {}) });
	const work = (read: Record<string, number>, parts: Record<string, { value: number; watts?: number }>) =>
		workedOut(plan, rowsOf(read), parts);

	test('17.5 V over 224 ohm are 78.1 mA', () => {
		const [current] = work(
			{ 'ht.reservoir': 267.5, 'ht.smoothed': 250 },
			{ 'ht.smoothing-resistor': part(224) }
		);
		expect(current?.value).toBeCloseTo(0.0781, 4);
		expect(current?.limitOf).toBe('EZ80');
	});

	test('40 mA in 1.2 kohm are 1.92 W, over a part of 1 W', () => {
		const lines = work(
			{ 'ht.reservoir': 298, 'ht.smoothed': 250 },
			{ 'ht.smoothing-resistor': part(1200, 1) }
		);
		const heat = lines.find(({ unit }) => unit === 'W');
		expect(heat?.value).toBeCloseTo(1.92);
		expect(heat?.over).toBe(true);
	});

	test('an EL84 with 12.5 V at 135 ohm runs over its anode dissipation', () => {
		const lines = work(
			{ 'ht.smoothed': 250, 'output.cathode': 12.5, 'output.anode': 240, 'output.screen': 250 },
			{ 'output.cathode-resistor': part(135) }
		);
		expect(lines.find(({ what }) => what === 'Cathode current')).toMatchObject({
			over: true,
			limitOf: 'EL84'
		});
		expect(lines.find(({ what }) => what === 'Anode dissipation')?.over).toBe(true);
	});
});

describe('a stage put together', () => {
	const output = { 'ht.smoothed': 250, 'output.anode': 240, 'output.screen': 248, 'output.grid': 0 };
	const parts = { 'output.cathode-resistor': { value: 135 }, 'output.anode-resistor': { value: 200 } };

	test('a sound output stage is said to be sound, one with its cathode at 4 V is not', () => {
		const [sound] = stagesSay(plan, rowsOf({ ...output, 'output.cathode': 7.2 }), { parts, meter: 10e6 });
		expect(sound?.finding.verdict).toBe('sound');
		const [tired] = stagesSay(plan, rowsOf({ ...output, 'output.cathode': 4 }), { parts, meter: 10e6 });
		expect(tired?.finding.verdict).not.toBe('sound');
		expect(tired?.finding.statement.length).toBeGreaterThan(20);
	});

	test('a cathode resistor that the ohmmeter has shown at 70 ohm is told by its size', () => {
		const rows = rowsOf({ ...output, 'output.cathode': 4.4 });
		const measured = { ...parts, 'output.cathode-resistor': { value: 135, measured: 70, name: 'R14' } };
		const [stage] = stagesSay(plan, rows, { parts: measured, meter: 10e6 });
		expect(stage?.finding.explanations[0]?.fault).toBe('cathode-resistor-low');
		expect(stage?.finding.explanations[0]?.value?.high).toBeLessThan(73);
	});

	test('a cathode resistor of which only the measured value is known is held against the sheet', () => {
		const read = { ...SHEET, 'output.grid': 0, 'output.cathode': 7.3 };
		const rows = rowsOf({ ...read, 'output.cathode': 10.9, 'output.anode': 247 }, read);
		const own = {
			'output.cathode-resistor': { value: 330, measured: 330, marked: false as const, name: 'R14' }
		};
		const finding = stagesSay(plan, rows, { parts: own, meter: 10e6 }).find(
			({ stage }) => stage === 'output'
		)?.finding;
		// 7.3 V by the sheet and the 53.5 mA of an EL84 want about 136 ohm.
		expect(finding?.explanations[0]).toMatchObject({ fault: 'cathode-resistor-high' });
		expect(finding?.explanations[0]?.value?.low).toBeGreaterThan(320);
		expect(finding?.explanations[0]?.value?.high).toBeLessThan(340);
	});

	test('a value as marked may be a fifth off, a measured one may not', () => {
		const rows = rowsOf({ ...output, 'output.cathode': 8.3, 'output.anode': 239 });
		const at = (part: { value: number; measured?: number }) =>
			stagesSay(plan, rows, { parts: { ...parts, 'output.cathode-resistor': part }, meter: 10e6 })[0]
				?.finding;
		const score = (finding: ReturnType<typeof at>) =>
			finding?.explanations.find(({ fault }) => fault === 'cathode-resistor-high')?.score ?? 0;
		expect(at({ value: 135 })?.verdict).toBe('sound');
		expect(score(at({ value: 135, measured: 136 }))).toBeLessThan(score(at({ value: 135 })));
	});

	test('a raised grid asks for the capacitor to be lifted; its reading is kept under the stage and heard', () => {
		const rows = rowsOf({ ...output, 'output.cathode': 10.4, 'output.grid': 3.5, 'af.anode': 80 });
		const [stage] = stagesSay(plan, rows, { parts, meter: 10e6 });
		expect(stage?.finding.lookNext?.reading).toBe('coupling-end');
		expect(stage?.closer.map(({ point }) => point)).toEqual(['output.coupling-end']);
		const [told] = stagesSay(plan, rows, { parts, meter: 10e6, extra: { 'output.coupling-end': 44 } });
		// 80 V divided between the leak and the 10 Mohm of the meter.
		expect(told?.finding.explanations[0]?.fault).toBe('coupling-leak');
		expect(Math.abs((told?.finding.explanations[0]?.value?.amount ?? 0) / 8.2e6 - 1)).toBeLessThan(0.1);
	});

	test('readings as the sheet has them are no fault, though an IF anode is fed through more than its winding', () => {
		const read = { ...SHEET, 'mixer.screen': 92, 'if.cathode': 1.9, 'output.cathode': 7.3, 'output.grid': 0 };
		const says = stagesSay(plan, rowsOf(read, read), { parts: {}, meter: 10e6 });
		expect(says.map(({ stage }) => stage)).toEqual(['ht', 'output', 'if-valve', 'mixer']);
		for (const { stage, finding } of says) expect(finding.verdict, stage).toBe('sound');
	});

	test('a screen at 40 V where the sheet has 95 V is a fault of its feed or its capacitor, not of the anode', () => {
		const read = { ...SHEET, 'if.cathode': 1.9 };
		const rows = rowsOf({ ...read, 'if.screen': 40, 'if.anode': 225, 'if.cathode': 0.7 }, read);
		const finding = stagesSay(plan, rows, { parts: {}, meter: 10e6 }).find(
			({ stage }) => stage === 'if-valve'
		)?.finding;
		expect(finding?.verdict).toBe('fault');
		expect(finding?.statement).toMatch(/screen/i);
	});

	test('HT and one electrode say nothing as a stage', () => {
		expect(stagesSay(plan, rowsOf({ 'ht.smoothed': 250, 'output.anode': 240 }), { parts })).toEqual([]);
	});
});

describe('readings that cannot stand as they are', () => {
	const at = (value: number) => ({
		value,
		from: value * 0.8,
		to: value * 1.2,
		basis: 'sheet' as const,
		steps: []
	});

	test('a lost decimal is asked about: 2.5 for 250', () => {
		expect(questionReading(2.5, at(250))).toMatchObject({ instead: 250 });
		expect(questionReading(2450, at(245))).toMatchObject({ instead: 245 });
	});

	test('a wrong sign is asked about', () => {
		expect(questionReading(-245, at(245))).toMatchObject({ instead: 245 });
		expect(questionReading(-245, at(245))?.says).toContain('leads');
	});

	test('a low reading is a reading', () => {
		expect(questionReading(100, at(250))).toBeUndefined();
		expect(questionReading(0, at(250))).toBeUndefined();
		expect(questionReading(250, at(250))).toBeUndefined();
	});

	test('a screen above HT, a smoothed HT above the reservoir, cathode volts with the valve out: each gets a sentence', () => {
		expect(impossibleIn(rowsOf({ 'ht.smoothed': 250, 'if.screen': 300 })).join()).toContain(
			'stands above HT'
		);
		expect(impossibleIn(rowsOf({ 'ht.smoothed': 280, 'ht.reservoir': 250 })).join()).toContain(
			'above the reservoir'
		);
		const out = rowsOf({ 'if.cathode': 4 }, SHEET, ['if.cathode']);
		expect(impossibleIn(out).join()).toContain('with the valve out');
		expect(impossibleIn(rowsOf({ 'ht.smoothed': 250, 'if.anode': -200 })).join()).toContain('leads');
		expect(impossibleIn(rowsOf(SHEET))).toEqual([]);
	});
});

describe('how the set was tuned', () => {
	const place = (stage: string, electrode: string) => ({ stage, electrode });

	test('with a station in a high screen and a low cathode of an AVC stage are no fault', () => {
		expect(movedByTuning(plan, place('if-valve', 'g2'), 'station', 'high')).toContain('AVC');
		expect(movedByTuning(plan, place('if-valve', 'k'), 'station', 'low')).toContain('AVC');
		expect(movedByTuning(plan, place('mixer', 'a'), 'station', 'high')).toContain('between stations');
	});

	test('AVC lowers no screen, and moves no output valve', () => {
		expect(movedByTuning(plan, place('if-valve', 'g2'), 'station', 'low')).toBeUndefined();
		expect(movedByTuning(plan, place('output', 'a'), 'station', 'high')).toBeUndefined();
		expect(movedByTuning(plan, place('if-valve', 'g2'), undefined, 'high')).toBeUndefined();
	});

	test('at gram the radio stages may be without HT, the audio stages are not', () => {
		expect(movedByTuning(plan, place('mixer', 'a'), 'gram', 'low')).toContain('gram');
		expect(movedByTuning(plan, place('af', 'a'), 'gram', 'low')).toBeUndefined();
		expect(movedByTuning(plan, place('mixer', 'a'), 'gram', 'high')).toBeUndefined();
	});

	test('a stage read on a station is not put together: its currents are not those of the published point', () => {
		const read = { ...SHEET, 'if.cathode': 1.9 };
		const rows = rowsOf(read, read);
		const tuned = rows.map((row) => ({ ...row, tuned: 'station' as const }));
		expect(stagesSay(plan, rows, { parts: {}, meter: 10e6 }).map(({ stage }) => stage)).toContain('if-valve');
		expect(stagesSay(plan, tuned, { parts: {}, meter: 10e6 }).map(({ stage }) => stage)).not.toContain(
			'if-valve'
		);
	});
});

describe('bias from HT negative', () => {
	const back = plans['am-transformer-back-bias'] as Plan;

	test('HT negative is a place of the survey after the smoothing, expected at the bias of the output valve', () => {
		const ids = surveyPoints(back).map(({ id }) => id);
		expect(ids.slice(0, 3)).toEqual(['ht.reservoir', 'ht.smoothed', 'ht.negative']);
		expect(surveyPoints(plan).map(({ id }) => id)).not.toContain('ht.negative');
		const found = expectedVolts(back, sheet({}), {})['ht.negative'];
		// EL41 at 250 V: 36 mA and 5.2 mA at 170 ohm by its data, which are 7 V.
		expect(found?.value).toBeGreaterThan(-9);
		expect(found?.value).toBeLessThan(-5);
		expect(verdictOf(-7, found)).toBe('as-expected');
		expect(verdictOf(-14, found)).toBe('high');
		expect(verdictOf(-2, found)).toBe('low');
		expect(verdictOf(0, found)).toBe('absent');
		expect(questionReading(7, found)).toMatchObject({
			instead: -7,
			says: expect.stringContaining('chassis')
		});
	});

	test('the output cathode stands on the chassis, its grid rests at the bias', () => {
		const found = expectedVolts(back, sheet({}), {});
		expect(found['output.cathode']).toMatchObject({ value: 0, basis: 'valve-data' });
		expect(found['output.grid']?.value).toBeCloseTo(found['ht.negative']?.value ?? 0);
	});

	test('7.2 V over 120 ohm are the 60 mA of the whole set', () => {
		const points = surveyPoints(back);
		const rows = points.map((point): SurveyRow => ({
			point,
			expected: undefined,
			now: undefined,
			reading: point.id === 'ht.negative' ? -7.2 : undefined,
			out: false,
			verdict: undefined,
			alarm: undefined
		}));
		const [whole] = workedOut(back, rows, { 'ht.negative-resistor': { value: 120 } });
		expect(whole).toMatchObject({ point: 'ht.negative', what: 'Current of the whole set', limitOf: 'EZ40' });
		expect(whole?.value).toBeCloseTo(0.06);
	});
});

describe('a set that rectifies the mains by half a wave', () => {
	const acdc = planWith(plans['am-acdc-five'] as Plan, { output: 'UL41', rectifier: 'UY41' });

	test('its HT goes by the mains it stands on', () => {
		const found = expectedVolts(acdc, sheet({}), { mains: 220 });
		expect(found['ht.reservoir']?.value).toBeCloseTo(231, 0);
		expect(found['ht.smoothed']?.steps.join()).toContain('half-wave rectifier on 220 V');
		expect(found['output.screen']?.value).toBeGreaterThan(
			expectedVolts(acdc, sheet({}), { mains: 200 })['output.screen']?.value ?? 999
		);
	});

	test('valves for 110 V on 230 V mains stand behind something that drops the rest', () => {
		const small = plans['am-acdc-five'] as Plan;
		const found = expectedVolts(small, sheet({}), { mains: 230 })['ht.smoothed'];
		expect(found?.value).toBeLessThan(130);
		expect(expectedVolts(small, sheet({}), { mains: 117 })['ht.smoothed']?.value).toBeCloseTo(105, 0);
	});
});

describe('a set without a diagram', () => {
	const nearest = (text: string, answers = {}) => nearestPlan(Object.values(plans), typesIn(text), answers);

	test.each([
		['ECC85, ECH81, EF89, EABC80, EL84, EZ80', { supply: 'transformer', fm: 'yes' }, 'am-fm-shared'],
		['ECC85 ECH81 EF89 EF89 EABC80 EL84 EZ80', { supply: 'transformer', fm: 'yes' }, 'am-fm-extra-if'],
		['UCH42 UF41 UBC41 UL41 UY41', { supply: 'ac-dc', fm: 'no' }, 'am-acdc-five'],
		['ECH42 EF41 EBC41 EL41 AZ41', { supply: 'transformer', fm: 'no' }, 'am-transformer'],
		[
			'ECH42 EF41 EBC41 EL41 AZ41',
			{ supply: 'transformer', fm: 'no', bias: 'back' },
			'am-transformer-back-bias'
		],
		['DK91 DF91 DAF91 DL92', { supply: 'battery' }, 'battery']
	])('%s is taken as %s', (line, answers, id) => {
		const found = nearest(line, answers);
		expect(found?.plan.id).toBe(id);
		expect(found?.left).toEqual([]);
		expect(found?.empty).toEqual([]);
	});

	test('a valve without a place is told, and so is what was taken for granted', () => {
		const found = nearest('ECC85 ECH81 EBF89 EABC80 EL84 EM84 EZ80', { supply: 'transformer', fm: 'yes' });
		expect(found?.left).toEqual(['EM84']);
		expect(found?.valves['if']).toBe('EBF89');
		expect(found?.assumed.join()).toContain('cathode resistor');
	});

	test('the plan names the systems of the valves that are in it', () => {
		const own = planWith(plan, { mixer: 'ECH42' });
		expect(own.points['mixer.anode']?.system).toBe('hexode');
		expect(own.points['oscillator.anode']?.system).toBe('triode');
		expect(plan.points['mixer.anode']?.system).toBe('heptode');
	});
});

describe('another mixer in the place of the plan’s', () => {
	const pinAt = (own: Plan, id: string) => whereIs(own, id)?.pin;

	test('a triode-heptode for a pentagrid: signal at g1 of the heptode, oscillation at the grid of the triode', () => {
		const own = planWith(plans['am-acdc-five'] as Plan, { mixer: 'UCH81' });
		expect(pinAt(own, 'mixer.grid-signal')).toMatch(/^UCH81, pin 2\b/);
		expect(pinAt(own, 'oscillator.grid')).toMatch(/^UCH81, pin 9\b/);
		expect(pinAt(own, 'mixer.anode')).toMatch(/^UCH81, pin 6\b/);
		expect(pinAt(own, 'mixer.screen')).toMatch(/^UCH81, pin 1\b/);
	});

	test('a pentagrid for a triode-hexode: signal at g3, oscillation at g1, and no anode of an oscillator', () => {
		const own = planWith(plan, { mixer: '6BE6' });
		expect(pinAt(own, 'mixer.grid-signal')).toMatch(/^6BE6, pin 7\b/);
		expect(pinAt(own, 'oscillator.grid')).toMatch(/^6BE6, pin 1\b/);
		expect(pinAt(own, 'mixer.screen')).toMatch(/^6BE6, pin 6\b/);
		expect(pinAt(own, 'oscillator.anode')).toBeUndefined();
		expect(whereIs(own, 'oscillator.anode')?.advice).toContain('no such electrode');
		expect(surveyPoints(own).map(({ id }) => id)).not.toContain('oscillator.anode');
	});

	test('a double-diode-pentode for an IF pentode: the anode of the pentode, not of a diode', () => {
		expect(pinAt(planWith(plan, { if: 'EBF89' }), 'if.anode')).toMatch(/^EBF89, pin 6\b/);
	});
});

describe('a valve without figures of its own', () => {
	test('is expected as its sister, and that is told', () => {
		const own = planWith(plans['am-acdc-five'] as Plan, { if: 'UF41', output: 'UL41' });
		const found = expectedVolts(own, sheet({}), {}, ['if', 'output']);
		expect(found['if.screen']?.steps.join()).toContain('EF41, the sister of the UF41,');
		expect(found['if.screen']?.value).toBeGreaterThan(40);
	});
});
