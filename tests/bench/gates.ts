import { suggest, repairAdvice, type Suggestion } from '../../src/lib/flow/advice.ts';
import { powerSuits, stepState } from '../../src/lib/flow/compile.ts';
import { normalOf, outcomesOf, stepTable } from '../../src/lib/flow/evidence.ts';
import { emptyLibrary } from '../../src/lib/flow/library.ts';
import { resolveFlow, type ResolvedFlow } from '../../src/lib/flow/resolve.ts';
import { Flow, Step, Suspect } from '../../src/lib/flow/schema.ts';
import type { Instrument } from '../../src/lib/flow/terms.ts';
import { trace, type Trace } from '../../src/lib/flow/trace.ts';
import {
	contextOf,
	evidenceOf,
	send,
	situationOf,
	startRun,
	stateOf,
	stepPower,
	takeStep,
	type Run
} from '../../src/lib/job/run.ts';
import { Plan } from '../../src/lib/receiver/plan.ts';
import { informationGain } from '../../src/lib/suspects/index.ts';
import { between, drawn, oneOf, seeded, worlds, type Random } from './random.ts';
import type { Row } from './row.ts';

/**
 * Whole jobs through the real machine on synthetic flows with safety gates, needs and instruments. Every step that is
 * advised is judged here by rules written apart from the advice.
 */

const SUSPECTS = 10;
const STEPS = 14;
const source = 'from memory';
const INSTRUMENTS: readonly Instrument[] = ['meter', 'oscilloscope', 'generator'];
const WORDS = ['always', 'almost always', 'usually', 'half the time'] as const;

const stage = { section: 'output', title: 'A stage', parts: [] };

const plan = Plan.parse({
	id: 'synthetic',
	title: 'A set of one stage',
	about: 'For the bench.',
	source,
	traits: { chassis: 'isolated', heaters: 'parallel' },
	bands: { am: { title: 'AM' } },
	valves: {},
	stages: { stage },
	lines: {},
	points: {},
	paths: { am: ['stage'] }
});

const suspectAt = (next: Random) =>
	Suspect.parse({
		part: 'part',
		failure: 'bad',
		at: 'stage',
		common: oneOf(next, ['very common', 'common', 'occasional', 'rare']),
		shows: { distorted: 'usually' },
		repair: { do: 'Change it.', minutes: between(next, 8, 40) },
		proof: 'Measure it.',
		source
	});

function stepAt(next: Random, place: number): unknown {
	const power = oneOf(next, ['unplugged', 'limiter', 'live'] as const);
	const shown = Array.from({ length: 3 }, () => `s${Math.floor(next() * SUSPECTS)}`);
	const needs = place > 2 && next() < 0.2 ? [`t${Math.floor(next() * place)}`] : [];
	const instrument = next() < 0.5 ? [{ needs: [oneOf(next, INSTRUMENTS)], trust: 'full' }] : [];
	const poorer = instrument.length === 0 || next() < 0.5 ? [{ needs: [], trust: 'rough' }] : [];
	return {
		kind: 'observe',
		title: 'A check',
		text: 'Do it.',
		why: 'It tells.',
		minutes: between(next, 1, 8),
		power,
		...(power !== 'unplugged' && next() < 0.2 ? { prepare: 'unplugged' } : {}),
		outcomes: { good: { label: 'Good' }, bad: { label: 'Bad' } },
		normal: 'good',
		expect: Object.fromEntries(shown.map((suspect) => [suspect, { bad: oneOf(next, WORDS) }])),
		ways: [...instrument, ...poorer],
		needs,
		source
	};
}

function syntheticFlow(next: Random): ResolvedFlow {
	const suspects = Object.fromEntries(
		Array.from({ length: SUSPECTS }, (_, place) => [`s${place}`, suspectAt(next)])
	);
	const steps = Object.fromEntries(
		Array.from({ length: STEPS }, (_, place) => [`t${place}`, Step.parse(stepAt(next, place))])
	);
	const flow = Flow.parse({
		id: 'synthetic',
		title: 'Synthetic',
		about: 'For the bench.',
		symptom: { am: 'distorted' },
		suspects: Object.fromEntries(Object.entries(suspects).map(([id, { common }]) => [id, common])),
		uses: Object.keys(steps),
		source
	});
	return resolveFlow({ ...emptyLibrary(), suspects, steps }, flow, plan);
}

interface Found {
	jobs: number;
	asked: number;
	redundant: number;
	gates: number;
	faint: number;
}

/** Whether a step may be taken at all: its needs are settled, the bench has what its way needs, the machine lets it in. */
function isLawful(
	run: Run,
	{ id, step, way }: Suggestion,
	bench: readonly Instrument[],
	taken: Run
): boolean {
	const { answers, unavailable, power } = contextOf(run);
	const settled = [...answers, ...unavailable].map((one) => one.step);
	const needsMet = step.needs.every((need) => settled.includes(need) || !run.resolved.steps[need]);
	const has = step.ways[way]?.needs.every((one) => bench.includes(one)) ?? false;
	const opened = send(run, { type: 'TAKE', step: id });
	const slipsThrough = opened && stateOf(opened) === stepState(id) && !powerSuits(step, power);
	const powered = stateOf(taken) === stepState(id) && powerSuits(step, contextOf(taken).power);
	return needsMet && has && !slipsThrough && powered;
}

/** Plain reckoning of what the step tells, apart from the search. */
const bitsOf = (now: Trace, { step, way }: Suggestion) =>
	informationGain(now.now, stepTable(now.resolved, step, step.ways[way]?.trust ?? 'full').table);

const LEAST_BITS = 0.02;
const ROUNDING = 1e-9;

function playOne(resolved: ResolvedFlow, next: Random, found: Found): void {
	const bench = INSTRUMENTS.filter(() => next() < 0.6);
	const fault = drawn(
		next,
		resolved.suspects.map(({ weight }) => weight)
	);
	let run = startRun(resolved, { playing: false });
	found.jobs++;
	for (;;) {
		const now = trace(resolved, evidenceOf(run, bench));
		const suggestions = suggest(now, situationOf(run, bench));
		const [first] = suggestions;
		if (!first || repairAdvice(now, suggestions, stepPower(contextOf(run).power)).stop) return;
		const taken = takeStep(run, first.id);
		const { answers, unavailable } = contextOf(run);
		found.asked++;
		found.redundant += Number([...answers, ...unavailable].some(({ step }) => step === first.id));
		found.gates += Number(!isLawful(run, first, bench, taken));
		found.faint += Number(suggestions.some((one) => bitsOf(now, one) < LEAST_BITS - ROUNDING));
		const after = answered(taken, first, fault, next);
		if (!after) return;
		run = after;
	}
}

/** One answer in twenty is "cannot tell"; the others follow the table. */
function answered(run: Run, { step, way }: Suggestion, fault: number, next: Random): Run | undefined {
	if (next() < 0.05) return send(run, { type: 'CANNOT_TELL', reason: 'out of reach' });
	const { table } = stepTable(run.resolved, step, step.ways[way]?.trust ?? 'full');
	const outcome = outcomesOf(step)[drawn(next, table[fault] ?? [])] ?? normalOf(step);
	return send(run, { type: 'ANSWER', outcome });
}

export function gateRows(short: boolean): Row[] {
	const jobs = short ? 200 : 10_000;
	const found: Found = { jobs: 0, asked: 0, redundant: 0, gates: 0, faint: 0 };
	const flows = worlds(Math.ceil(jobs / 50), 11, syntheticFlow);
	flows.forEach((resolved, set) => {
		for (let job = 0; job < 50; job++) playOne(resolved, seeded(11e6 + set * 50 + job), found);
	});
	const row = (what: string, count: number): Row => ({
		id: 'G11',
		what,
		figure: String(count),
		interval: `${found.asked} steps asked in ${found.jobs} jobs`,
		goal: 'none',
		// A bench that asked nothing has proved nothing.
		met: count === 0 && found.asked > found.jobs,
		certain: true
	});
	return [
		row('checks asked twice', found.redundant),
		row('steps offered that a gate, a need or the bench forbids', found.gates),
		row('times that a step under 0.02 bit was offered', found.faint)
	];
}
