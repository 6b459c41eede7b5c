import { beforeAll, describe, expect, test } from 'vitest';
import { DATA } from '../../../src/lib/job/event-schema.ts';
import { heaterSum } from '../../../src/lib/job/heater-chain.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import { reportOf } from '../../../src/lib/job/report.ts';
import { clashGate, keptSo, putRight } from '../../../src/lib/job/set-clash.ts';
import { emptySetData, withServiceVolts, type SetData } from '../../../src/lib/job/set-data.ts';
import { clashesOfJob, planOfJob } from '../../../src/lib/job/set-in-force.ts';
import { loadReckoning } from '../../../src/lib/job/set-reckoning.ts';
import { evidenceIn, traceIn } from '../../../src/lib/job/shared-evidence.ts';
import { takeSnapshot, type Snapshot } from '../../../src/lib/job/snapshot.ts';
import { plainState, type JobState } from '../../../src/lib/job/state.ts';
import { proposalsFor, surveyOf } from '../../../src/lib/job/survey.ts';
import type { Plan } from '../../../src/lib/receiver/index.ts';
import { shippedLibrary } from '../../library.ts';
import { digest, intake, Log } from './log.ts';

const library = shippedLibrary();
const plan = library.plans['am-fm-shared'] as Plan;
const FLOW = 'ht-low';
/** Takes the screen of the IF valve among its steps. */
const SCREENS = 'weak-on-am-fine-on-fm';
let kept: Snapshot;
let screens: Snapshot;

beforeAll(async () => {
	await loadReckoning();
	kept = await takeSnapshot(library, library.flows[FLOW]!, plan, digest);
	screens = await takeSnapshot(library, library.flows[SCREENS]!, plan, digest);
});

const data = (more: Partial<SetData> = {}): SetData => ({ ...emptySetData(), ...more });
const valve = (id: string, listed: string, fitted?: string) => ({
	id,
	role: plan.valves[id]?.title ?? id,
	listed,
	planned: plan.valves[id]?.type ?? listed,
	...(fitted ? { fitted } : {})
});

/** A job on full mains, with a flow open unless none is wanted. */
function onMains(more: object = {}, flow: string | undefined = FLOW): Log {
	const log = new Log();
	log.add('started', {});
	log.add('intake', intake({ plan: plan.id, symptom: {}, ...more }));
	if (flow)
		log.add('flow-opened', { flow, plan: plan.id, hash: flow === SCREENS ? screens.hash : kept.hash });
	log.add('power', { to: 'live' });
	return log;
}
const play = (log: Log): JobState => replay(log.events, { snapshots: shelf(), today: library });
const shelf = () => ({ [kept.hash]: kept.library, [screens.hash]: screens.library });
const read = (log: Log, point: string, value: number, power: 'live' | 'limiter' = 'live', out?: true) =>
	log.add('read', {
		point,
		reading: { typed: String(value), value, unit: 'V', point, power },
		...(out ? { out } : {})
	});

describe('the set as it is described', () => {
	test('the latest data hold, and taking them back brings the earlier ones', () => {
		const log = onMains();
		log.add('set-described', data({ volts: { 'if.screen': 90 } }));
		const second = log.add('set-described', data({ volts: { 'if.screen': 70 } }));
		expect(play(log).service['if.screen']).toMatchObject({ value: 70, basis: 'sheet' });
		log.undo(second);
		expect(play(log).service['if.screen']).toMatchObject({ value: 90 });
	});

	test('a job without such data is judged by the volts of its intake, as ever', () => {
		const log = onMains({ service: { 'if.screen': 88 } });
		expect(play(log).service).toEqual({ 'if.screen': 88 });
	});

	test('the sheet is brought to the mains of today and to the own meter', () => {
		const log = onMains({ mains: 231, meter: 10e6 });
		const sheet = { meter: 200e3, mains: 220 };
		const parts = { 'if.screen-source': { typed: '73k', value: 73e3 } };
		log.add('set-described', data({ volts: { 'if.screen': 88 }, sheet, parts }));
		const expected = play(log).service['if.screen'] as { value: number };
		expect(expected.value).toBeCloseTo(119.25 * 1.05, 0);
	});

	test('another valve in the plan brings its own typical volts, marked from valve data', () => {
		const log = onMains();
		log.add('set-described', data({ valves: [valve('output', 'EL95')] }));
		const state = play(log);
		expect(state.service['output.cathode']).toMatchObject({ basis: 'valve-data' });
		expect(planOfJob(library, state)?.valves['output']?.type).toBe('EL95');
	});

	test('marks on a diagram put volts in and take them out', () => {
		const marked = withServiceVolts(emptySetData(), 'if.anode', 240);
		expect(marked.volts).toEqual({ 'if.anode': 240 });
		expect(withServiceVolts(marked, 'if.anode', undefined).volts).toEqual({});
	});

	test('the log plays the same in whatever order it is handed over', () => {
		const log = onMains();
		log.add('set-described', data({ valves: [valve('output', 'EL95')], volts: { 'ht.smoothed': 240 } }));
		read(log, 'ht.smoothed', 200);
		read(log, 'output.cathode', 8);
		const turned = replay([...log.events].reverse(), {
			snapshots: { [kept.hash]: kept.library },
			today: library
		});
		expect(plainState(turned)).toEqual(plainState(play(log)));
	});
});

describe('a reading of the survey', () => {
	test('answers the step that measures there, in the flow that is open', () => {
		const log = onMains();
		read(log, 'ht.reservoir', 150);
		const state = play(log);
		const answers = evidenceIn(state, state.flows[FLOW]!).answers;
		expect(answers).toContainEqual(expect.objectContaining({ step: 'v-ht', outcome: 'low', reading: 150 }));
		const before = traceIn(play(onMains()), FLOW)!;
		const after = traceIn(state, FLOW)!;
		expect(after.now).not.toEqual(before.now);
	});

	test('can be taken back', () => {
		const log = onMains();
		log.undo(read(log, 'ht.reservoir', 150));
		const state = play(log);
		expect(state.readings).toEqual([]);
		expect(evidenceIn(state, state.flows[FLOW]!).answers).toEqual([]);
	});

	test('on the limiter it counts in no band for full mains', () => {
		const log = onMains({ playing: false });
		log.add('power', { to: 'off' });
		log.add('power', { to: 'limiter' });
		read(log, 'ht.reservoir', 90, 'limiter');
		const state = play(log);
		expect(state.readings).toEqual([]);
		expect(state.warnings.map(({ kind }) => kind)).toContain('refused');
		expect(evidenceIn(state, state.flows[FLOW]!).answers).toEqual([]);
	});

	test('with the valve out of its holder it answers no step', () => {
		const log = onMains();
		read(log, 'output.cathode', 0, 'live', true);
		const state = play(log);
		expect(evidenceIn(state, state.flows[FLOW]!).answers).toEqual([]);
	});

	test('with a station in a high screen of the IF valve is set aside and answers no step; a low one does', () => {
		const screenAt = (value: number, tuned?: 'station' | 'gram') => {
			const log = onMains({}, SCREENS);
			log.add('set-described', data({ volts: { 'ht.smoothed': 250, 'if.screen': 95 } }));
			const reading = {
				typed: String(value),
				value,
				unit: 'V' as const,
				point: 'if.screen',
				power: 'live' as const
			};
			log.add('read', { point: 'if.screen', reading, ...(tuned ? { tuned } : {}) });
			const state = play(log);
			const row = surveyOf(library, state)?.rows.find(({ point }) => point.id === 'if.screen');
			const answers = evidenceIn(state, state.flows[SCREENS]!).answers;
			return [row?.verdict, answers.some(({ step }) => step === 'v-if-screen')];
		};
		expect(screenAt(150)).toEqual(['high', true]);
		expect(screenAt(150, 'station')).toEqual(['set-aside', false]);
		expect(screenAt(40, 'station')).toEqual(['low', true]);
		expect(screenAt(0, 'gram')).toEqual(['set-aside', false]);
	});

	test('from a file it comes with its tuning, and with no other word for it', () => {
		const reading = { typed: '90', value: 90, unit: 'V', point: 'if.screen', power: 'live' };
		const read = { point: 'if.screen', reading };
		expect(DATA.read.safeParse({ ...read, tuned: 'gram' }).success).toBe(true);
		expect(DATA.read.safeParse(read).success).toBe(true);
		expect(DATA.read.safeParse({ ...read, tuned: 'mars' }).success).toBe(false);
	});

	test('what it was tuned to is told in the report', () => {
		const log = onMains();
		const reading = {
			typed: '90',
			value: 90,
			unit: 'V' as const,
			point: 'if.screen',
			power: 'live' as const
		};
		log.add('read', { point: 'if.screen', reading, tuned: 'station' });
		const section = reportOf(play(log)).sections.find(({ id }) => id === 'survey');
		expect(section?.lines).toMatchObject([{ reading: '90 V', meaning: 'Read with a station in.' }]);
	});

	test('a step behind the supply is judged by the HT that stood then', () => {
		const screenAt = (ht?: { point: string; value: number }) => {
			const log = onMains({}, SCREENS);
			log.add('set-described', data({ volts: { 'ht.smoothed': 250, 'if.screen': 100 } }));
			const reading = {
				typed: '70',
				value: 70,
				unit: 'V' as const,
				point: 'if.screen',
				power: 'live' as const
			};
			log.add('read', { point: 'if.screen', reading: ht ? { ...reading, ht } : reading });
			const state = play(log);
			const found = evidenceIn(state, state.flows[SCREENS]!).answers.find(
				({ step }) => step === 'v-if-screen'
			);
			return found?.outcome;
		};
		expect(screenAt()).toBe('reduced');
		expect(screenAt({ point: 'ht.smoothed', value: 180 })).toBe('as-expected');
	});

	test('volts that rest on valve data move the suspects less than those of a sheet', () => {
		const shift = (volts: Record<string, number>) => {
			const log = onMains({}, SCREENS);
			log.add('set-described', data({ volts }));
			const before = traceIn(play(log), SCREENS)!.now;
			read(log, 'if.screen', 20);
			const after = traceIn(play(log), SCREENS)!.now;
			return after.reduce((sum, share, index) => sum + Math.abs(share - (before[index] ?? 0)), 0);
		};
		expect(shift({})).toBeGreaterThan(0);
		expect(shift({})).toBeLessThan(shift({ 'if.screen': 97 }));
	});

	test('without a flow it puts forward the flows that the readings speak for', () => {
		const log = onMains({}, 'none');
		const bare = new Log();
		for (const { kind, data: given } of log.events)
			if (kind !== 'flow-opened') bare.add(kind as never, given as never);
		read(bare, 'ht.reservoir', 180);
		read(bare, 'ht.smoothed', 165);
		const state = play(bare);
		const survey = surveyOf(library, state)!;
		expect(proposalsFor(library, state, survey)[0]?.flow.id).toBe('ht-low');
	});

	test('stands in the report with what is expected there', () => {
		const log = onMains();
		log.add('set-described', data({ volts: { 'ht.reservoir': 270 } }));
		read(log, 'ht.reservoir', 150);
		const section = reportOf(play(log)).sections.find(({ id }) => id === 'survey');
		expect(section?.lines).toMatchObject([{ reading: '150 V', expected: expect.stringContaining('270 V') }]);
	});
});

describe('the supply of a set', () => {
	const supply = { winding: 250, reservoir: 50e-6, current: 0.07 };
	const volts = { 'ht.reservoir': 270, 'ht.smoothed': 250 };
	const said = (log: Log) => surveyOf(library, play(log))?.stages.find(({ stage }) => stage === 'ht');

	test('is checked as soon as reservoir and smoothed line are read; its winding stands at the mains of today', () => {
		const log = onMains({ mains: 231 });
		log.add('set-described', data({ supply, volts, sheet: { mains: 220 } }));
		read(log, 'ht.reservoir', 285);
		expect(said(log)).toBeUndefined();
		read(log, 'ht.smoothed', 263);
		// 250 V at 220 V are 262.5 V at 231 V.
		expect(said(log)?.basis).toContain('263 V AC on each half of the winding');
		expect(said(log)?.finding.verdict).toBe('sound');
	});

	test('a ripple that the check asked for is kept under the supply and heard', () => {
		const log = onMains();
		log.add('set-described', data({ supply, volts }));
		read(log, 'ht.reservoir', 215);
		read(log, 'ht.smoothed', 196);
		const before = said(log)?.finding.explanations[0];
		expect(before?.same.length).toBeGreaterThan(0);
		read(log, 'ht.ripple', 40);
		expect(said(log)?.finding.explanations[0]).toMatchObject({ fault: 'reservoir-dry', same: [] });
		expect(surveyOf(library, play(log))?.closer.map(({ point }) => point.id)).toContain('ht.ripple');
	});

	test('a current that is asked for is read in amperes', () => {
		const log = onMains();
		log.add('set-described', data({ supply, volts }));
		read(log, 'ht.reservoir', 240);
		read(log, 'ht.smoothed', 221);
		const point = 'ht.direct-current';
		log.add('read', {
			point,
			reading: { typed: '45 mA', value: 0.045, unit: 'A', point, power: 'live' }
		});
		const row = surveyOf(library, play(log))?.closer.find((one) => one.point.id === point);
		expect(row).toMatchObject({ reading: 0.045, point: { unit: 'A' } });
	});

	test('from a file its figures come within what a set can have, and a measured part with its mark', () => {
		const good = data({
			supply,
			parts: { 'output.cathode-resistor': { typed: '330', value: 330, measured: true } }
		});
		expect(DATA['set-described'].safeParse(good).success).toBe(true);
		for (const wrong of [{ winding: 25e3 }, { reservoir: 50 }, { current: -1 }, { volts: 250 }])
			expect(DATA['set-described'].safeParse({ ...good, supply: wrong }).success).toBe(false);
	});

	test('a part that was measured and not read is held against what the kind of set has there', () => {
		const cathodeAt = (part: object) => {
			const log = onMains();
			log.add(
				'set-described',
				data({ parts: { 'output.cathode-resistor': { typed: '330', value: 330, ...part } } })
			);
			for (const [point, value] of Object.entries({
				'ht.smoothed': 255,
				'output.grid': 0,
				'output.anode': 243,
				'output.screen': 255,
				'output.cathode': 10.2
			}))
				read(log, point, value);
			return surveyOf(library, play(log))?.stages.find(({ stage }) => stage === 'output')?.finding;
		};
		expect(cathodeAt({ measured: true })?.explanations[0]?.fault).toBe('cathode-resistor-high');
		expect(cathodeAt({})?.verdict).toBe('sound');
	});
});

describe('valves before power', () => {
	const described = (fitted?: string) => {
		const log = onMains({ playing: false });
		log.add('set-described', data({ valves: [valve('if', 'EF89', fitted)] }));
		return log;
	};

	test('an EF86 where the EF89 belongs shuts the way to the limiter and to full mains', () => {
		const clashes = clashesOfJob(library, play(described('EF86')));
		expect(clashes).toHaveLength(1);
		expect(clashGate(clashes, 'limiter')).toContain('EF86 is fitted where EF89 belongs');
		expect(clashGate(clashes, 'live')).toBeDefined();
		expect(clashGate(clashes, 'unplugged')).toBeUndefined();
	});

	test('the right valve opens it, and so does a reason that is kept with the set', () => {
		const wrong = play(described('EF86')).described.at(-1)!.data;
		for (const settled of [putRight(wrong, 'if'), keptSo(wrong, 'if', 'holder rewired')]) {
			const log = described('EF86');
			log.add('set-described', settled);
			expect(clashesOfJob(library, play(log))).toEqual([]);
		}
		expect(keptSo(wrong, 'if', 'holder rewired').differs).toEqual([
			{ what: 'if: EF86 in place of EF89', why: 'holder rewired' }
		]);
	});

	test('nobody looked: nothing is said', () => {
		expect(clashesOfJob(library, play(described()))).toEqual([]);
	});
});

describe('heaters added up', () => {
	const acdc = library.plans['am-acdc-five'] as Plan;
	const told = (types: Record<string, string>) =>
		data({
			valves: Object.entries(types).map(([id, listed]) => ({ id, role: id, listed })),
			parts: { 'heaters.dropper': { typed: '1230', value: 1230 } }
		});
	const U = { mixer: 'UCH42', if: 'UF41', detector: 'UBC41', output: 'UL41', rectifier: 'UY41' };

	test('117 V of U valves on 240 V with 1230 ohm get their current', () => {
		const sum = heaterSum(acdc, told(U), 240);
		expect(sum.wrong).toBe(false);
		expect(sum.says.join()).toMatch(/add up to 116.6/);
	});

	test('the same chain on 117 V without its mains changed is under-run', () => {
		expect(heaterSum(acdc, told(U), 160).wrong).toBe(true);
	});

	test('a valve of another current in the chain is named', () => {
		const sum = heaterSum(acdc, told({ ...U, if: 'EF41' }), 240);
		expect(sum.wrong).toBe(true);
		expect(sum.says.join()).toContain('EF41 takes 0.2 A');
	});
});
