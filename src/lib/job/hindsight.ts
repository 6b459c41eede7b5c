import { answerText, nameOf } from '../flow/explain.ts';
import { repairKey } from '../flow/resolve.ts';
import { trace, type Evidence, type Trace, type TraceAnswer } from '../flow/trace.ts';
import type { StepPower } from '../flow/terms.ts';
import { POWER_SWITCHING, standingNumber, standingWord } from '../suspects/index.ts';
import { stepPower } from './run.ts';
import { evidenceFor, proofsIn, type Proof } from './shared-evidence.ts';
import { allRuns, type FlowRun, type Guess, type JobState } from './state.ts';

/**
 * Looking back on a cured complaint: which answers decided it, and the shortest way that would have done. Only answers
 * that were given are weighed; what a step that nobody took would have shown is not known.
 */

/** An answer that moved the true cause. */
export interface Deciding {
	step: string;
	/** What was found, as the start of a sentence. */
	found: string;
	/** By how much it changed the odds of the cause against all others; above 1 it spoke for it. */
	factor: number;
	/** Standing of the cause's repair before and after it, in words and number. */
	before: string;
	after: string;
}

export interface Hindsight {
	flow: string;
	title: string;
	/** The part that cured. */
	cause: string;
	/** The restorer's own suspicion, where he wrote one down, and whether it was the cause. */
	guess?: { text: string; answersBefore: number; right: boolean };
	deciding: Deciding[];
	/** Answers in all, and the reckoned minutes of their steps with the changes of power. */
	answers: number;
	minutes: number;
	/** Where all answers together had put the cause's repair, 0 to 1. */
	reached: number;
	/** The fewest of the given answers that would have done, in their order; none where the answers had not pointed there. */
	shortest?: { steps: string[]; minutes: number };
	/** Parts changed on the way that did not cure. */
	wrongParts: string[];
}

/** An answer is told as deciding from this factor on: `clearly` of `explain.ts`. */
const DECIDES = 3;
const MOST_DECIDING = 3;
/** The stop rule's share for one repair: more certainty was never asked for. Reasoning reference 4.6. */
const SURE = 0.95;
/** Up to so many telling answers every choice of them is tried; of more, one after the other is left out. */
const EXACT_UP_TO = 10;

/** Share of the cause's repair, all suspects that it mends together. */
function shareOf(now: Trace, repair: string): number {
	return now.resolved.suspects.reduce(
		(sum, placed, index) => sum + (repairKey(placed) === repair ? (now.now[index] ?? 0) : 0),
		0
	);
}

/** Whether no other repair has a larger share. */
function leads(now: Trace, repair: string): boolean {
	const sums = new Map<string, number>();
	now.resolved.suspects.forEach((placed, index) => {
		const key = repairKey(placed);
		sums.set(key, (sums.get(key) ?? 0) + (now.now[index] ?? 0));
	});
	return Math.max(...sums.values()) === sums.get(repair);
}

const odds = (share: number) => Math.min(1 - 1e-9, share) / (1 - Math.min(1 - 1e-9, share));
const shown = (share: number) => `${standingWord(share)} (${standingNumber(share)})`;

type Weigh = (answers: readonly TraceAnswer[]) => Trace;

/** What each answer did to the cause, in the order in which they were given; the largest rise first. */
function decidingAnswers(weigh: Weigh, answers: readonly TraceAnswer[], repair: string): Deciding[] {
	let before = weigh([]);
	const all = answers.flatMap((answer, index): Deciding[] => {
		const after = weigh(answers.slice(0, index + 1));
		const weighed = after.answers.find((one) => one.answer.step === answer.step);
		const [was, is] = [shareOf(before, repair), shareOf(after, repair)];
		before = after;
		if (!weighed) return [];
		const { step } = answer;
		const factor = odds(is) / odds(was);
		return [{ step, found: answerText(weighed), factor, before: shown(was), after: shown(is) }];
	});
	return all
		.filter(({ factor }) => factor >= DECIDES)
		.sort((a, b) => b.factor - a.factor || a.step.localeCompare(b.step))
		.slice(0, MOST_DECIDING);
}

/** Every choice of some of these places, the smallest first. */
function* choices(places: readonly number[]): Generator<number[]> {
	const sized = Array.from({ length: 2 ** places.length }, (_, mask) =>
		places.filter((_, bit) => mask & (1 << bit))
	);
	yield* sized.sort((a, b) => a.length - b.length);
}

/**
 * The fewest answers that put the cause where all of them had put it (at most at the stop rule's 95 %), before every
 * other repair. Exact up to ten answers; of more, those that can be spared are left out one by one, the latest first.
 */
function fewest(weigh: Weigh, answers: readonly TraceAnswer[], repair: string): TraceAnswer[] | undefined {
	const all = weigh(answers);
	const level = Math.min(SURE, shareOf(all, repair)) - 1e-9;
	const does = (some: readonly TraceAnswer[]) => {
		const now = weigh(some);
		return leads(now, repair) && shareOf(now, repair) >= level;
	};
	if (!does(answers)) return undefined;
	if (answers.length > EXACT_UP_TO) return sparing(answers, does);
	for (const chosen of choices(answers.map((_, index) => index))) {
		const some = answers.filter((_, index) => chosen.includes(index));
		if (does(some)) return some;
	}
	return [...answers];
}

const sparing = (answers: readonly TraceAnswer[], does: (some: readonly TraceAnswer[]) => boolean) =>
	answers.reduceRight<TraceAnswer[]>(
		(kept, answer) => {
			const without = kept.filter((one) => one !== answer);
			return does(without) ? without : kept;
		},
		[...answers]
	);

/** Reckoned minutes of these steps one after the other, with the changes of power between them. */
function minutesOf({ resolved }: FlowRun['run'], steps: readonly string[], from: StepPower): number {
	let power = from;
	return steps.reduce((sum, id) => {
		const step = resolved.steps[id];
		if (!step) return sum;
		const ready = step.prepare ?? power;
		const switching = POWER_SWITCHING[power][ready] + POWER_SWITCHING[ready][step.power];
		power = step.power;
		return sum + switching + step.minutes;
	}, 0);
}

function guessOf(state: JobState, flow: FlowRun, repair: string): Hindsight['guess'] | undefined {
	const guess = state.guesses.find((one) => one.flow === flow.flow);
	if (!guess) return undefined;
	const placed = flow.run.resolved.suspects.find(({ id }) => id === guess.suspect);
	const answersBefore = flow.done.filter(
		({ event, order }) => event.kind === 'answered' && order < guess.order
	).length;
	return {
		text: wordsOf(guess, placed && nameOf(placed)),
		answersBefore,
		right: placed !== undefined && repairKey(placed) === repair
	};
}

const wordsOf = ({ text }: Guess, name: string | undefined) => [name, text].filter(Boolean).join('; ');

function hindsightOf(state: JobState, flow: FlowRun, proof: Proof): Hindsight | undefined {
	const { resolved } = flow.run;
	const placed = resolved.suspects.find(({ id }) => id === proof.suspect);
	if (!placed) return undefined;
	const repair = repairKey(placed);
	const known: Evidence = evidenceFor(state, resolved, { self: flow, upTo: proof.order - 1 });
	// Answers that a second fault has made void say nothing of this one.
	const counting = new Set(trace(resolved, known).answers.map(({ answer }) => answer.step));
	const answers = known.answers.filter(({ step }) => counting.has(step));
	const gone = known.mended.map((mended) => ({ ...mended, after: 0 }));
	const weigh: Weigh = (some) => trace(resolved, { ...known, answers: some, mended: gone });
	const from: StepPower = state.intake?.playing ? 'live' : stepPower('off');
	const few = fewest(weigh, answers, repair);
	const guess = guessOf(state, flow, repair);
	const wrong = proofsIn(state).filter(
		({ flow: of, order, symptom }) => of === flow.flow && order < proof.order && symptom !== 'cured'
	);
	return {
		flow: flow.flow,
		title: resolved.flow.title,
		cause: nameOf(placed),
		...(guess ? { guess } : {}),
		reached: shareOf(weigh(answers), repair),
		deciding: decidingAnswers(weigh, answers, repair),
		answers: answers.length,
		minutes: minutesOf(
			flow.run,
			answers.map(({ step }) => step),
			from
		),
		...(few
			? {
					shortest: {
						steps: few.map(({ step }) => resolved.steps[step]?.title ?? step),
						minutes: minutesOf(
							flow.run,
							few.map(({ step }) => step),
							from
						)
					}
				}
			: {}),
		wrongParts: wrong.flatMap(({ suspect }) => {
			const out = resolved.suspects.find(({ id }) => id === suspect);
			return out ? [nameOf(out)] : [];
		})
	};
}

/** A look back on every complaint that stands cured, or was cured before the trace went on; the latest last. */
export function hindsights(state: JobState): Hindsight[] {
	const runs = allRuns(state);
	return proofsIn(state)
		.filter(({ symptom }) => symptom === 'cured')
		.flatMap((proof) => {
			const flow = runs.find(
				(run) => run.flow === proof.flow && run.done.some(({ order }) => order === proof.order)
			);
			return flow ? (hindsightOf(state, flow, proof) ?? []) : [];
		});
}
