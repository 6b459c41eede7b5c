import {
	advise,
	lookAhead,
	POWER_SWITCHING,
	shouldRepair,
	type Foreseen,
	type LookAheadCheck,
	type LookAheadQuestion,
	type Ranking
} from '../../src/lib/suspects/index.ts';
import type { StepPower } from '../../src/lib/flow/terms.ts';
import { checkOf, type World } from './world.ts';

/** Where a job stands, as the one who decides believes it. */
export interface Position {
	standings: readonly number[];
	/** Checks that are not yet made, by place. */
	left: readonly number[];
	power: StepPower;
}

/** Make a check, or mend a suspect; both by place. */
export type Action = { check: number } | { repair: number };

/** A way to decide, made ready for one set. */
export type Policy = (belief: World) => (position: Position) => Action;

interface Bench {
	checks: LookAheadCheck<StepPower>[];
	repairs: string[];
	placeOf: Map<string, number>;
	ask(position: Position): LookAheadQuestion<StepPower>;
}

function benchOf(belief: World): Bench {
	const checks = belief.checks.map(checkOf);
	const repairs = belief.prior.map((_, suspect) => `suspect-${suspect}`);
	const ask = ({ standings, left, power }: Position): LookAheadQuestion<StepPower> => ({
		standings,
		repairs,
		minutes: belief.repairs,
		checks: left.flatMap((place) => checks[place] ?? []),
		now: { power },
		switching: POWER_SWITCHING,
		bench: 'unplugged'
	});
	return { checks, repairs, placeOf: new Map(checks.map(({ id }, place) => [id, place])), ask };
}

/** The suspect with the most chance per minute. */
function cheapest(standings: readonly number[], minutes: readonly number[], penalty = 0): number {
	const rate = (suspect: number) => (standings[suspect] ?? 0) / ((minutes[suspect] ?? 0) + penalty);
	return standings.reduce((best, _, suspect) => (rate(suspect) > rate(best) ? suspect : best), 0);
}

/** The search carried so far: by the minutes of so many steps. */
const ranked = (question: LookAheadQuestion<StepPower>, stage: 1 | 2 | 3): Ranking => {
	const search = lookAhead(question);
	let ranking = search.next();
	for (let done = 0; done < stage; done++) ranking = search.next();
	if (ranking.done) throw new Error('The search has three stages.');
	return ranking.value;
};

/**
 * The engine as shipped: the search to its last step, and the stop rule.
 *
 * @param watch sees every ranking that led to an action
 */
export const engine =
	(stage: 1 | 2 | 3 = 3, penalty?: number, watch: (first: Foreseen | undefined) => void = () => {}): Policy =>
	(belief) => {
		const bench = benchOf(belief);
		return (position) => {
			const question = { ...bench.ask(position), ...(penalty === undefined ? {} : { penalty }) };
			const { repairNow, checks } = ranked(question, stage);
			const [first] = checks;
			watch(first);
			const expected = { repairNow, checkFirst: first?.minutesExpected ?? Infinity };
			const { standings } = position;
			const stop = shouldRepair({
				standings,
				repairs: bench.repairs,
				minutes: belief.repairs,
				checks,
				expected
			});
			if (stop.stop || !first) {
				const named = stop.stop && stop.repair !== undefined ? bench.repairs.indexOf(stop.repair) : -1;
				return { repair: named >= 0 ? named : cheapest(standings, belief.repairs) };
			}
			return { check: bench.placeOf.get(first.id) ?? 0 };
		};
	};

const sure = (standings: readonly number[], least: number) => Math.max(...standings) >= least;

/** Mends the likeliest once it stands at `stop`; else as `choose` says, or mends where that has nothing to say. */
const untilSure =
	(stop: number, choose: (bench: Bench, position: Position) => number | undefined): Policy =>
	(belief) => {
		const bench = benchOf(belief);
		return (position) => {
			const check = sure(position.standings, stop) ? undefined : choose(bench, position);
			return check === undefined ? { repair: cheapest(position.standings, belief.repairs) } : { check };
		};
	};

/** Bits per minute; with `perMinute` false the bits alone. */
export const byBits = (stop = 0.9, perMinute = true): Policy =>
	untilSure(stop, (bench, position) => {
		const advice = advise(bench.ask(position));
		const best = perMinute ? advice[0] : [...advice].sort((a, b) => b.bits - a.bits)[0];
		return best && bench.placeOf.get(best.id);
	});

/** Every check in the order of its list: along the path, through the stages, then part by part. */
export const inListedOrder: Policy = untilSure(0.9, (_, { left }) => left[0]);

export const atRandom = (next: () => number): Policy =>
	untilSure(0.9, (_, { left }) => left[Math.floor(next() * left.length)]);

/** No check at all: one part after another by chance per minute. */
export const onlyRepairs: Policy = untilSure(0, () => undefined);
