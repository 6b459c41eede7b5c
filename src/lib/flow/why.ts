import { LEAST_BITS, standingNumber, standingWord } from '../suspects/index.ts';
import type { Suggestion } from './advice.ts';
import { labelOf, outcomesOf, stepTable } from './evidence.ts';
import { clearedNames, inShort, lower, nameOf } from './explain.ts';
import type { Step } from './schema.ts';
import type { StepPower } from './terms.ts';
import { cleared, NOT_LISTED, standings, type Standing, type Trace } from './trace.ts';

/** Why a step is asked: whom it parts, what each of its answers would do, and why it stands before the next. */

/** A share of what is left, in words; our own choice. */
export function shareWords(share: number): string {
	if (share < 0.08) return 'hardly anything';
	if (share < 0.29) return 'about a quarter';
	if (share < 0.42) return 'about a third';
	if (share < 0.59) return 'about half';
	if (share < 0.71) return 'about two thirds';
	if (share < 0.88) return 'about three quarters';
	return 'nearly all';
}

/** Where the parts lie that would show at a path step. */
const WHERE: Partial<Record<Step['kind'], string>> = {
	inject: 'lies between this point and the loudspeaker',
	trace: 'lies before this point',
	listen: 'lies on the way of this band'
};

/** The share of one group beside another, in whole percent that add up to 100. */
const splitOf = (one: number, other: number) => {
	const share = Math.min(99, Math.max(1, Math.round((100 * one) / (one + other))));
	return `${share} to ${100 - share}`;
};

const share = (some: readonly Standing[]) => some.reduce((sum, { probability }) => sum + probability, 0);
const firstUpper = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** What a suggested step parts, in one sentence with the shares as they stand. */
export function whySuggested(trace: Trace, { step, way, probabilities }: Suggestion): string {
	const { table, outcomes, normal } = stepTable(trace.resolved, step, step.ways[way]?.trust ?? 'full');
	const ranked = standings(trace).filter(({ id, probability }) => id !== NOT_LISTED && probability > 0.005);
	const readsNormal = (s: Standing) =>
		(table[trace.ids.indexOf(s.id)]?.[outcomes.indexOf(normal)] ?? 0) >= 0.5;
	const shows = ranked.filter((s) => !readsNormal(s));
	const hides = ranked.filter(readsNormal);
	const [first, other] = [shows[0], hides[0]];
	if (!first || !other) {
		const likeliest = Math.round(Math.max(...probabilities) * 100);
		return `It tells how far the leading suspects agree: its likeliest answer is expected in ${likeliest} %.`;
	}
	const [shown, hidden] = [share(shows), share(hides)];
	const named = (s: Standing, some: readonly Standing[]) =>
		`"${lower(nameOf(s.placed))}"${some.length > 1 ? ' and others' : ''}`;
	const where = WHERE[step.kind];
	const head = where
		? `${firstUpper(shareWords(shown / (shown + hidden)))} of what is left ${where}`
		: `It splits the suspects ${splitOf(shown, hidden)}`;
	return `${head}: ${named(first, shows)} would show here, ${named(other, hides)} would not.`;
}

/** What one answer would do. */
export interface AnswerEffect {
	outcome: string;
	label: string;
	/** 0 to 1, as the suspects stand. */
	chance: number;
	/** Who rises and who is nearly cleared, in a sentence or two. */
	then: string;
}

/** Answers that are expected less often are not spoken of. Our own choice. */
const SELDOM = 0.02;
/** The share below which a suspect is called nearly cleared; see `standingWord`. */
const NEARLY_CLEARED = 0.05;

/** Odds have to rise by this factor to be spoken of. Our own choice. */
const RISES = 1.5;
const odds = (share: number) => share / Math.max(1e-9, 1 - share);

/** Who rises most, in a sentence; empty where nobody rises by half his odds. */
function rises(trace: Trace, after: Trace): string {
	const before = new Map(standings(trace).map(({ id, probability }) => [id, probability]));
	const [first] = standings(after)
		.map((standing) => ({ standing, was: before.get(standing.id) ?? 0 }))
		.filter(
			({ standing, was }) =>
				standing.probability >= NEARLY_CLEARED && odds(standing.probability) >= odds(was) * RISES
		)
		.sort((a, b) => b.standing.probability - b.was - (a.standing.probability - a.was));
	if (!first) return '';
	const now = first.standing.probability;
	const [word, wordBefore] = [standingWord(now), standingWord(first.was)];
	const place = word === wordBefore ? `up to ${standingNumber(now)}` : `${word}, ${standingNumber(now)}`;
	return `${nameOf(first.standing.placed)}: ${place}.`;
}

/** Who falls: whole sections and stages first, else single suspects that were in question. */
function falls(trace: Trace, after: Trace): string {
	const known = new Set(clearedNames(cleared(trace)));
	const groups = clearedNames(cleared(after)).filter((name) => !known.has(name));
	if (groups.length) return `Clears: ${inShort(groups)}.`;
	const single = standings(trace)
		.filter(
			({ id, probability }) =>
				id !== NOT_LISTED &&
				probability >= NEARLY_CLEARED &&
				(after.now[trace.ids.indexOf(id)] ?? 0) < NEARLY_CLEARED
		)
		.map(({ placed }) => lower(nameOf(placed)));
	return single.length ? `Nearly clears: ${inShort(single)}.` : '';
}

/** What each answer of a suggested step would do, the likeliest first; what is hardly ever seen is left out. */
export function answerEffects(trace: Trace, { step, probabilities, posteriors }: Suggestion): AnswerEffect[] {
	return outcomesOf(step)
		.map((outcome, index): AnswerEffect => {
			const chance = probabilities[index] ?? 0;
			const after = chance < SELDOM ? trace : { ...trace, now: posteriors[index] ?? trace.now };
			const then = [rises(trace, after), falls(trace, after)].filter(Boolean).join(' ');
			return { outcome, label: labelOf(step, outcome), chance, then: then || 'Moves little.' };
		})
		.filter(({ chance }) => chance >= SELDOM)
		.sort((a, b) => b.chance - a.chance || a.outcome.localeCompare(b.outcome));
}

/** A chance as it is shown beside an answer: to the nearest 5 %, the ends left open. */
export const chanceNumber = (chance: number): string =>
	chance < 0.05 ? 'under 5 %' : `${Math.min(95, Math.round(chance * 20) * 5)} %`;

const POWER: Readonly<Record<StepPower, string>> = {
	unplugged: 'the set unplugged',
	limiter: 'the lamp limiter',
	live: 'full mains'
};

function tellingWords(first: Suggestion, other: Suggestion): string {
	if (other.bits < LEAST_BITS || first.bits < LEAST_BITS) return '';
	const ratio = other.bits / first.bits;
	if (ratio < 0.4) return 'tells far less';
	if (ratio < 0.8) return 'tells less';
	return ratio > 2.5 ? 'tells far more' : ratio > 1.25 ? 'tells more' : 'tells about as much';
}

function minuteWords(first: Suggestion, other: Suggestion): string {
	const more = Math.round(other.minutes - first.minutes);
	if (more === 0) return 'takes as long';
	return `takes ${Math.abs(more)} min ${more > 0 ? 'more' : 'less'}`;
}

/**
 * Why a step was not put first, in one sentence: minutes, what it tells, and the power that it asks for.
 *
 * @param now power state of the set
 */
export function whyNotFirst(first: Suggestion, other: Suggestion, now: StepPower): string {
	const differs = [
		minuteWords(first, other),
		tellingWords(first, other),
		other.step.power !== now && other.step.power !== first.step.power
			? `wants ${POWER[other.step.power]}`
			: ''
	].filter(Boolean);
	const behind = Math.round(other.minutesBehind - first.minutesBehind);
	const sum = behind >= 1 ? `; in all about ${behind} min longer until the set works` : '';
	const text = `${differs.join(', ')}${sum}`;
	if (first.by === 'opening') return `${firstUpper(text)}. The flow asks its own question first.`;
	if (first.by === 'next') return `${firstUpper(text)}. The last answer leads to the other one.`;
	return `${firstUpper(text)}.`;
}
