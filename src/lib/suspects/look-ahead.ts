import { advise, byRate, type Advice, type AdviceQuestion, type Check } from './advise.ts';
import { Foresight, RARE, type Reach } from './foresight.ts';
import { packRepairs, WRONG_PART_MINUTES } from './repair-minutes.ts';

/*
 * The search is bounded by counts, never by the clock: the same state gives the same advice on every machine. All counts
 * are our own choice: what `npm run bench` shows to pay within 5 ms a decision.
 */

/** First checks that are looked at two steps deep: so many by one step, and so many by bits per minute. */
const BEAM = 4;
/** Second checks tried after each outcome of those. */
const SECOND_CHECKS = 8;

/** First checks that are looked at three steps deep. */
const DEEP_BEAM = 4;
/** Second and third checks tried after each outcome of those, at most; under 2 a third step tells nothing. */
const DEEP_CHECKS = { least: 2, most: 4 };
/** Third outcomes that one search may reckon through. */
const MOST_THIRD_OUTCOMES = 1500;
/** Beyond the third step a bit is reckoned to take longer than by the best check now: the telling ones are made first. */
const SLOWER_LATER = 1.5;

export interface LookAheadCheck<State extends string> extends Check<State> {
	/** Not to be counted on: it is offered when nothing else is left. It is judged by one step, and follows nothing. */
	late?: boolean;
}

export interface LookAheadQuestion<State extends string> extends AdviceQuestion<State> {
	checks: readonly LookAheadCheck<State>[];
	/** Repair of each suspect; `undefined` for "something not listed". */
	repairs: readonly (string | undefined)[];
	/** Minutes of each suspect's repair, its proof included; for "something not listed" what a search outside costs. */
	minutes: readonly number[];
	/** State in which parts are changed. */
	bench: State;
	/** Minutes added to every repair; `WRONG_PART_MINUTES` where nothing is said. */
	penalty?: number;
}

/** A check with the minutes that the whole job is expected to take when it comes next. */
export interface Foreseen extends Advice {
	/** Minutes until the set works, this check included; `undefined` while it has not been reckoned. */
	minutesExpected: number | undefined;
	/** How many checks ahead that looks. */
	steps: number;
}

export interface Ranking {
	/** How far the search has come; the last stage is the advice, the earlier ones are sound but coarser. */
	stage: 'bits' | 'one step' | 'two steps' | 'three steps';
	/** Minutes until the set works when no further check is made. */
	repairNow: number;
	/** Best first. */
	checks: Foreseen[];
}

/**
 * What to check next, by the minutes that the job is expected to take until the set works.
 *
 *     R   = minutes to the bench + expected cost of repair
 *     E1  = the check's minutes + sum over its outcomes of P(o) * R after o
 *     En  = the check's minutes + sum over its outcomes of P(o) * min(R, best E(n-1)) after o
 *
 * Four stages, none worse than the one before: bits per minute, E1 of every check, E2 of a beam of eight, E3 of the best
 * four of those. R and E1 and E2 are what the job takes at most if the numbers are right; E3 is an estimate, since beyond
 * its last step it counts on further checks (min(R, own repair + open bits * minutes per bit)). Source of the first two: Heckerman, Breese and Rommelse 1995, Breese and Heckerman 1996
 * (abstract and introduction read); that a second and a third step pay is our own measurement (`npm run bench`).
 */
export function* lookAhead<State extends string>(question: LookAheadQuestion<State>): Generator<Ranking> {
	// By id, so that advice does not hang on the order of a list.
	const checks = [...question.checks].sort((one, other) => (one.id < other.id ? -1 : 1));
	const { foresee, repairNow } = foresightOf(question, checks);
	const early = new Set(checks.filter(({ late }) => !late).map(({ id }) => id));
	const isEarly = ({ id }: Foreseen) => early.has(id);

	const byBits = advise({ ...question, checks }).map(unforeseen);
	yield { stage: 'bits', repairNow, checks: byBits };

	const one = byBits.map((check) => foresee(check, { widths: [] })).sort(byMinutes);
	yield { stage: 'one step', repairNow, checks: one };

	const beam = [...one.filter(isEarly).slice(0, BEAM), ...byBits.filter(isEarly).slice(0, BEAM)];
	const two = deeper(one, beam, (check) => foresee(check, { widths: [SECOND_CHECKS] }));
	yield { stage: 'two steps', repairNow, checks: two };

	const best = two.filter(({ steps }) => steps === 2).slice(0, DEEP_BEAM);
	const width = deepWidth(best, byBits);
	const minutesPerBit = SLOWER_LATER / (byBits[0]?.bitsPerMinute ?? 1);
	const reach = { widths: [width, width], minutesPerBit };
	const three = width < DEEP_CHECKS.least ? two : deeper(two, best, (check) => foresee(check, reach));
	yield { stage: 'three steps', repairNow, checks: three };
}

/** The last stage at once. */
export function lookAheadFully<State extends string>(question: LookAheadQuestion<State>): Ranking {
	const last = [...lookAhead(question)].at(-1);
	if (!last) throw new Error('The search has stages.');
	return last;
}

function foresightOf<State extends string>(
	question: LookAheadQuestion<State>,
	checks: readonly LookAheadCheck<State>[]
) {
	const { standings, repairs, minutes, penalty = WRONG_PART_MINUTES } = question;
	const foresight = new Foresight({
		...question,
		checks,
		following: checks.flatMap(({ late }, place) => (late ? [] : [place])),
		repairs: packRepairs(standings, repairs, minutes, penalty)
	});
	const placeOf = new Map(checks.map(({ id }, place) => [id, place]));
	const foresee = (check: Foreseen, reach: Reach): Foreseen => ({
		...check,
		minutesExpected: check.minutes + foresight.after(placeOf.get(check.id) ?? -1, reach),
		steps: reach.widths.length + 1
	});
	return { foresee, repairNow: foresight.repairNow() };
}

const unforeseen = (advice: Advice): Foreseen => ({ ...advice, minutesExpected: undefined, steps: 0 });

/** The list with some of its checks looked at further. A narrower look further on may miss what a wide one saw: the lesser figure holds. */
function deeper(
	all: readonly Foreseen[],
	some: readonly Foreseen[],
	look: (check: Foreseen) => Foreseen
): Foreseen[] {
	const ids = new Set(some.map(({ id }) => id));
	return all
		.map((check) => {
			const further = ids.has(check.id) ? look(check) : check;
			const least = Math.min(further.minutesExpected ?? Infinity, check.minutesExpected ?? Infinity);
			return { ...further, minutesExpected: least };
		})
		.sort(byMinutes);
}

/** How many second and third checks fit in: first, second and third outcomes multiply. */
function deepWidth(first: readonly Foreseen[], all: readonly Foreseen[]): number {
	const likely = ({ probabilities }: Foreseen) => probabilities.filter((chance) => chance >= RARE).length;
	const firstOutcomes = first.reduce((sum, check) => sum + likely(check), 0);
	const mean = all.reduce((sum, check) => sum + likely(check), 0) / Math.max(1, all.length);
	const width = Math.floor(Math.sqrt(MOST_THIRD_OUTCOMES / (firstOutcomes * mean ** 2 || 1)));
	return Math.min(DEEP_CHECKS.most, width);
}

/** Least minutes first, compared to a millionth; equals by bits per minute, then by id. */
function byMinutes(one: Foreseen, other: Foreseen): number {
	const rounded = ({ minutesExpected = Infinity }: Foreseen) => Math.round(minutesExpected * 1e6);
	return rounded(one) - rounded(other) || byRate(one, other);
}
