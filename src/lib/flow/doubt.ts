import { findConflict, POWER_SWITCHING } from '../suspects/index.ts';
import { answerText, nameOf } from './explain.ts';
import type { StepPower } from './terms.ts';
import { NOT_LISTED, standings, type Trace, type WeighedAnswer } from './trace.ts';

/** Answers that do not fit, and suspects that explain nothing: said in words, with the answer to take again. */

export interface Doubt {
	kind: 'conflict' | 'nobody-fits' | 'outside';
	sentence: string;
	/** The answer to take again first; where there is none, nothing was answered. */
	repeat?: { step: string; title: string; minutes: number };
}

/** An answer that a suspect shows less often than this counts as not explained by it. Our own choice. */
const SELDOM = 0.1;
/** Suspects below this share are "nearly cleared": nobody asks whether they fit. See `standingWord`. */
const IN_QUESTION = 0.05;
/** Answers whose removal helps nearly as much as the best one's: the cheapest of them is repeated. Our own choice. */
const NEARLY = 2;
/** With more than this on "something not listed" the fault may lie outside. Reasoning reference 4.6. */
const OUTSIDE = 0.5;

/** A chance between 0 and 1 in the words of a sentence. */
function chanceWords(chance: number): string {
	if (chance < 0.01) return 'under 1 in 100';
	return chance < 0.05 ? 'under 1 in 20' : `about 1 in ${Math.max(2, Math.round(1 / chance))}`;
}

/** Minutes to take the step once more, with the change of power that it asks for. */
const minutesAgain = ({ step }: WeighedAnswer, power: StepPower): number =>
	step.minutes + POWER_SWITCHING[power][step.power];

/** Of the answers that fit nearly as badly as the worst, the one that is quickest to take again. */
function cheapest(answers: readonly WeighedAnswer[], chances: readonly number[], power: StepPower) {
	const least = Math.min(...chances);
	const worst = answers
		.map((weighed, index) => ({ weighed, chance: chances[index] ?? 1 }))
		.filter(({ chance }) => chance <= least * NEARLY);
	return worst.sort(
		(a, b) => minutesAgain(a.weighed, power) - minutesAgain(b.weighed, power) || a.chance - b.chance
	)[0];
}

/** The step of an answer, to be taken again. */
const again = (weighed: WeighedAnswer, power: StepPower): NonNullable<Doubt['repeat']> => ({
	step: weighed.answer.step,
	title: weighed.step.title,
	minutes: minutesAgain(weighed, power)
});

/** The weights that the answers met: those of a part that was mended are gone. */
const priorOf = ({ entry, now }: Trace) => entry.map((weight, index) => (now[index] === 0 ? 0 : weight));

function conflict(trace: Trace, power: StepPower): Doubt | undefined {
	if (trace.answers.length < 2) return undefined;
	const rows = trace.answers.map(({ likelihood }) => likelihood);
	const { warn, likelihoods } = findConflict(priorOf(trace), rows);
	const worst = warn ? cheapest(trace.answers, likelihoods, power) : undefined;
	if (!worst) return undefined;
	return {
		kind: 'conflict',
		sentence: `The answers do not fit well together. From all the others, this one was to be expected in ${chanceWords(worst.chance)}: ${answerText(worst.weighed)}. Take it again before you trust the list.`,
		repeat: again(worst.weighed, power)
	};
}

/** Nobody who is still in question explains every answer. */
function nobodyFits(trace: Trace, power: StepPower): Doubt | undefined {
	const open = standings(trace).filter(
		({ id, probability }) => id !== NOT_LISTED && probability >= IN_QUESTION
	);
	const first = open[0];
	if (!first || trace.answers.length < 3) return undefined;
	const seldom = open.map(({ id }) => {
		const index = trace.ids.indexOf(id);
		return trace.answers.filter(({ likelihood }) => (likelihood[index] ?? 0) < SELDOM);
	});
	const [odd] = seldom[0] ?? [];
	if (!odd || seldom.some((answers) => answers.length === 0)) return undefined;
	return {
		kind: 'nobody-fits',
		sentence: `Nobody on the list explains all that was found. Even the first, ${nameOf(first.placed)}, seldom shows this: ${answerText(odd)}. Take that answer again; if it stands, think of two faults.`,
		repeat: again(odd, power)
	};
}

/** The list as a whole has become unlikely, or nobody is left on it. */
function outside(trace: Trace, power: StepPower): Doubt | undefined {
	const share = trace.now[trace.ids.indexOf(NOT_LISTED)] ?? 0;
	const named = trace.now.reduce((sum, p) => sum + p, 0) - share;
	if (named > 0 && share <= OUTSIDE) return undefined;
	const rows = trace.answers.map(({ likelihood }) => likelihood);
	const worst = cheapest(trace.answers, findConflict(priorOf(trace), rows).likelihoods, power);
	const head =
		named > 0
			? 'Something that is not listed here is by now likelier than the whole list.'
			: 'Every suspect on the list is cleared or has been changed.';
	return {
		kind: 'outside',
		sentence: `${head} Look at what was fitted or wired by others, and say again what each band does: another complaint may fit better.${worst ? ` Or take the answer again that fits least: ${answerText(worst.weighed)}.` : ''}`,
		...(worst ? { repeat: again(worst.weighed, power) } : {})
	};
}

/**
 * What speaks against taking the list as it stands, the weightiest first; empty where nothing does.
 *
 * Warned above 2 bits of conflict, or where an answer had under 1 chance in 20 by the others (reasoning reference 4.8).
 *
 * @param power state that the set is in, for the minutes of taking an answer again
 */
export function doubtsOf(trace: Trace, power: StepPower): Doubt[] {
	const odd = conflict(trace, power) ?? nobodyFits(trace, power);
	return [outside(trace, power), odd].filter((doubt) => doubt !== undefined);
}
