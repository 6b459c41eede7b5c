import { parseReading, expectedAt, judgeReading, type ServiceVolts } from '../flow/reading.ts';
import { calculateAtStep } from '../flow/calculate.ts';
import type { Known } from '../flow/fill.ts';
import { repairAdvice, suggest, suspectsOfRepair, type Suggestion } from '../flow/advice.ts';
import { isPathStep, labelOf, stepTable } from '../flow/evidence.ts';
import { doubtsOf } from '../flow/doubt.ts';
import { clearedNames, nameOf } from '../flow/explain.ts';
import { whereIs } from '../flow/where.ts';
import { whySuggested } from '../flow/why.ts';
import type { Library } from '../flow/library.ts';
import { flowFits, resolveFlow, type ResolvedFlow } from '../flow/resolve.ts';
import { cleared, standings, trace, type Trace } from '../flow/trace.ts';
import { parseQuantity } from '../quantity/index.ts';
import { SECTIONS } from '../receiver/index.ts';
import { standingNumber, standingWord, type RepairAdvice } from '../suspects/index.ts';
import type { Case, Given } from './case.ts';
import {
	contextOf,
	evidenceOf,
	powerTo,
	send,
	situationOf,
	startRun,
	stateOf,
	stepPower,
	takeStep,
	type Run
} from './run.ts';

/** Something in a case that cannot be played: the keys that lead to it, what is wrong, what to do. */
export interface PlayProblem {
	path: (string | number)[];
	message: string;
	remedy: string;
}

/** A case on its way through the program. */
export interface Play {
	case: Case;
	service: ServiceVolts;
	run: Run;
}

export type PlayResult = { ok: true; play: Play } | { ok: false; problem: PlayProblem };

const problem = (path: PlayProblem['path'], message: string, remedy: string): PlayResult => ({
	ok: false,
	problem: { path, message, remedy }
});

const names = (ids: Iterable<string>) => `Known: ${[...ids].sort().join(', ')}.`;

function serviceOf(played: Case, resolved: ResolvedFlow): ServiceVolts | PlayProblem {
	const service: Record<string, number> = {};
	for (const [point, text] of Object.entries(played.set.service)) {
		const path = ['set', 'service', point];
		if (!resolved.plan.points[point])
			return {
				path,
				message: `The plan has no test point "${point}".`,
				remedy: names(Object.keys(resolved.plan.points))
			};
		const parsed = parseQuantity(text, 'V');
		if (!parsed.ok) return { path, message: `"${text}" cannot be read as volts.`, remedy: parsed.hint };
		service[point] = parsed.value;
	}
	return service;
}

/** Open a case: its flow on its plan, before the first answer. */
export function openCase(library: Library, played: Case): PlayResult {
	if (played.flow === undefined)
		return problem(
			['flow'],
			'This case names no flow.',
			'Name one; "npm run -s flow -- play" says which fit what is heard and noticed.'
		);
	const flow = library.flows[played.flow];
	if (!flow)
		return problem(['flow'], `There is no flow "${played.flow}".`, names(Object.keys(library.flows)));
	const listed = library.plans[played.plan];
	if (!listed)
		return problem(
			['plan'],
			`There is no receiver plan "${played.plan}".`,
			names(Object.keys(library.plans))
		);
	const plan = { ...listed, traits: { ...listed.traits, ...played.set.traits } };
	if (!flowFits(flow, plan))
		return problem(
			['plan'],
			`The flow "${flow.id}" does not fit the plan "${plan.id}".`,
			'Choose a plan with the bands and traits that the flow asks for.'
		);
	const resolved = resolveFlow(library, flow, plan);
	const service = serviceOf(played, resolved);
	if ('message' in service) return { ok: false, problem: service as PlayProblem };
	const run = startRun(resolved, { playing: played.set.playing }, service as ServiceVolts);
	return { ok: true, play: { case: played, service: service as ServiceVolts, run } };
}

type StepAnswer = Extract<Given, { step: string }>;

function answerStep(play: Play, given: StepAnswer, path: PlayProblem['path']): PlayResult {
	const { resolved } = play.run;
	const step = resolved.steps[given.step];
	if (!step)
		return problem(
			[...path, 'step'],
			`This flow has no step "${given.step}" on this set.`,
			names(Object.keys(resolved.steps))
		);
	const taken = takeStep(play.run, given.step);
	const done = (run: Run | undefined): PlayResult =>
		run
			? { ok: true, play: { ...play, run } }
			: problem(
					path,
					`The step "${given.step}" does not take this answer in the state "${stateOf(taken)}".`,
					'Check the outcome against the step.'
				);
	if ('cannot-tell' in given) return done(send(taken, { type: 'CANNOT_TELL', reason: given['cannot-tell'] }));
	if ('outcome' in given) {
		const known = isPathStep(step) ? stepTable(resolved, step).outcomes : Object.keys(step.outcomes);
		if (!known.includes(given.outcome))
			return problem(
				[...path, 'outcome'],
				`The step "${given.step}" has no outcome "${given.outcome}".`,
				names(known)
			);
		return done(send(taken, { type: 'ANSWER', outcome: given.outcome }));
	}
	if ('calculate' in given) return answerSum(play, taken, given, path);
	return answerReading(play, taken, given, path);
}

/** What a step's sum can be filled from: the plan, the set's own volts, the readings so far. */
function knownOf({ run, service }: Play): Known {
	const readings = contextOf(run).answers.flatMap(({ step, reading }) =>
		reading === undefined ? [] : [[step, reading]]
	);
	return {
		plan: run.resolved.plan,
		service,
		readings: Object.fromEntries(readings) as Record<string, number>
	};
}

function answerSum(
	play: Play,
	taken: Run,
	given: Extract<StepAnswer, { calculate: unknown }>,
	path: PlayProblem['path']
): PlayResult {
	const step = taken.resolved.steps[given.step];
	const sum = step && calculateAtStep(given.step, step, knownOf(play), given.calculate);
	if (!sum)
		return problem([...path, 'calculate'], `The step "${given.step}" has no sum.`, 'Give its outcome.');
	if (!sum.answer.ok) {
		const [first] = sum.answer.problems;
		return problem(
			[...path, 'calculate', first?.key ?? ''],
			first?.message ?? '',
			'Mend the value, or give the outcome.'
		);
	}
	if (sum.outcome === undefined)
		return problem(
			[...path, 'calculate'],
			`The verdict "${sum.answer.verdict ?? 'none'}" stands for no outcome of "${given.step}".`,
			'Give the outcome yourself.'
		);
	const run = send(taken, { type: 'ANSWER', outcome: sum.outcome });
	return run
		? { ok: true, play: { ...play, run } }
		: problem(path, `The step "${given.step}" could not be taken.`, 'Check its power state.');
}

function answerReading(
	play: Play,
	taken: Run,
	given: Extract<StepAnswer, { reading: string }>,
	path: PlayProblem['path']
): PlayResult {
	const step = taken.resolved.steps[given.step];
	if (step?.kind !== 'measure')
		return problem(
			[...path, 'reading'],
			`Nothing is measured at the step "${given.step}".`,
			'Give its outcome instead.'
		);
	const parsed = parseReading(step, given.reading);
	if (!parsed.ok)
		return problem(
			[...path, 'reading'],
			`"${given.reading}" cannot be read as ${step.measure}.`,
			parsed.hint
		);
	const judged = judgeReading(step, parsed.value, expectedAt(taken.resolved.plan, step.at, play.service));
	if (!judged)
		return problem(
			[...path, 'reading'],
			`Nobody knows what to expect at "${step.at}" of this set.`,
			'Give the outcome in words, or the service volts under  set: service:'
		);
	const run = send(taken, {
		type: 'ANSWER',
		outcome: judged.outcome,
		typed: given.reading,
		reading: parsed.value
	});
	return run
		? { ok: true, play: { ...play, run } }
		: problem(
				path,
				`The step "${given.step}" could not be taken.`,
				'Check its power state and what it needs.'
			);
}

function repairPart(
	play: Play,
	given: Extract<Given, { repair: string }>,
	path: PlayProblem['path']
): PlayResult {
	const suspects = play.run.resolved.suspects.map(({ id }) => id);
	if (!suspects.includes(given.repair))
		return problem([...path, 'repair'], `"${given.repair}" is not a suspect of this trace.`, names(suspects));
	let run = send(play.run, { type: 'SUSPECT', suspect: given.repair });
	run = run && send(run, { type: 'REPAIR' });
	run = run && send(powerTo(run, 'unplugged'), { type: 'CHANGED' });
	run =
		run && send(powerTo(run, 'live'), { type: 'PROVE', symptom: given.symptom, partWas: given['part-was'] });
	return run
		? { ok: true, play: { ...play, run } }
		: problem(path, 'The repair could not be played here.', 'Give it after an answer, not within a step.');
}

/** Give the program one answer of the case. `path` is where it stands in the file. */
export const give = (play: Play, given: Given, path: PlayProblem['path']): PlayResult =>
	'repair' in given ? repairPart(play, given, path) : answerStep(play, given, path);

/** Play all answers as they are given. */
export function playAll(library: Library, played: Case): PlayResult {
	let result = openCase(library, played);
	for (const [index, given] of played.answers.entries()) {
		if (!result.ok) return result;
		result = give(result.play, given, ['answers', index]);
	}
	return result;
}

/** Where a play stands: the reasoning over its answers, and what it would do next. */
export interface View {
	trace: Trace;
	suggestions: Suggestion[];
	repair: RepairAdvice;
}

export function viewOf({ case: played, run, service }: Play): View {
	const { instruments, history } = played.set;
	const now = trace(run.resolved, { ...evidenceOf(run, instruments, service), history });
	// A step whose answer a second fault has made void is asked again.
	const counted = new Set(now.answers.map(({ answer }) => answer.step));
	const reopened = contextOf(run)
		.answers.map(({ step }) => step)
		.filter((step) => !counted.has(step));
	const suggestions = suggest(now, situationOf(run, instruments, reopened));
	return { trace: now, suggestions, repair: repairAdvice(now, suggestions, stepPower(contextOf(run).power)) };
}

const percentOf = (p: number) => Math.round(p * 1000) / 10;

function describeSum(play: Play, { id, step }: Suggestion) {
	const sum = calculateAtStep(id, step, knownOf(play));
	if (!sum || !step.calculation) return null;
	const { filled, answer } = sum;
	const open = answer.ok ? [] : answer.problems.map(({ message }) => message);
	return { id: step.calculation.id, given: filled.given, from: filled.from, open };
}

function describeStep(play: Play, { trace, suggestions }: View) {
	const first = suggestions[0];
	if (!first) return null;
	const { step, id, minutes } = first;
	const table = stepTable(trace.resolved, step, step.ways[first.way]?.trust ?? 'full');
	const where = 'at' in step && step.at ? whereIs(trace.resolved.plan, step.at) : undefined;
	return {
		id,
		title: step.title,
		text: step.text.trim(),
		place: where ? [where.title, where.pin ?? where.advice].filter(Boolean).join(': ') : null,
		power: step.power,
		minutes,
		calculation: describeSum(play, first),
		outcomes: table.outcomes.map((outcome) => ({ id: outcome, label: labelOf(step, outcome) })),
		why: `${step.why.trim()} ${whySuggested(trace, first)}`
	};
}

function describeRepair({ trace, repair }: View) {
	if (!repair.stop) return null;
	const suspect = repair.repair === undefined ? undefined : suspectsOfRepair(trace, repair.repair)[0];
	return {
		because: repair.because,
		suspect: suspect?.id ?? null,
		do:
			suspect?.placed?.suspect.repair.do.trim() ??
			'Look outside this list: nothing named here explains what was found.',
		proof: suspect?.placed?.suspect.proof.trim() ?? null
	};
}

/** The report of `flow play`: one plain object. */
export function report(play: Play) {
	const view = viewOf(play);
	return {
		case: play.case.id,
		state: stateOf(play.run),
		power: contextOf(play.run).power,
		standings: standings(view.trace)
			.slice(0, 12)
			.map(({ id, placed, section, probability }) => ({
				id,
				part: nameOf(placed),
				section: section ? SECTIONS[section] : null,
				percent: percentOf(probability),
				number: standingNumber(probability),
				word: standingWord(probability)
			})),
		cleared: clearedNames(cleared(view.trace)),
		step: describeStep(play, view),
		runnersUp: view.suggestions.slice(1, 3).map(({ id, step, minutes, bits }) => ({
			id,
			title: step.title,
			minutes,
			bits: Math.round(bits * 1000) / 1000
		})),
		conflicts: doubtsOf(view.trace, stepPower(contextOf(play.run).power)).map(({ sentence }) => sentence),
		repair: describeRepair(view)
	};
}
