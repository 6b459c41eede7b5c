import { packWeights, POWER_SWITCHING } from '../../src/lib/suspects/index.ts';
import type { StepPower } from '../../src/lib/flow/terms.ts';
import type { Action, Policy } from './policy.ts';
import { drawn, scaled, type Random } from './random.ts';
import type { World } from './world.ts';

/** One job played to its end. */
export interface Job {
	minutes: number;
	checks: number;
	/** Parts changed, the right one included. */
	parts: number;
	/** Standings when the first part was proposed. */
	atStop: readonly number[];
	/** The suspect that was the fault. */
	fault: number;
}

export interface JobRules {
	/** Chance that an answer is written down wrong. */
	slips?: number;
	/** What the one who decides believes of the set; the truth, where nothing is said. */
	belief?: World;
}

/** Who decides sees the belief; the fault and the answers come from the world as it is. */
export function playJob(world: World, policy: Policy, next: Random, rules: JobRules = {}): Job {
	const belief = rules.belief ?? world;
	const decide = policy(belief);
	const fault = drawn(next, world.prior);
	const job = { minutes: 0, checks: 0, parts: 0, fault };
	let [standings, power]: [readonly number[], StepPower] = [belief.prior, 'unplugged'];
	let left: readonly number[] = world.checks.map((_, place) => place);
	let atStop: readonly number[] | undefined;
	for (;;) {
		const action: Action = decide({ standings, left, power });
		if ('check' in action) {
			const check = world.checks[action.check]!;
			job.minutes += POWER_SWITCHING[power][check.power] + check.minutes;
			job.checks++;
			power = check.power;
			left = left.filter((place) => place !== action.check);
			const outcome = answer(world, action.check, fault, next, rules.slips ?? 0);
			const table = belief.checks[action.check]!.table;
			standings = scaled(standings.map((share, suspect) => share * (table[suspect]?.[outcome] ?? 0)));
			continue;
		}
		atStop ??= standings;
		job.minutes += POWER_SWITCHING[power].unplugged + world.repairs[action.repair]!;
		job.parts++;
		power = 'unplugged';
		if (action.repair === fault) return { ...job, atStop };
		standings = [...packWeights(standings.map((share, suspect) => (suspect === action.repair ? 0 : share)))];
	}
}

function answer(world: World, check: number, fault: number, next: Random, slips: number): number {
	const row = world.checks[check]!.table[fault]!;
	const shown = drawn(next, row);
	const slipped = next() < slips;
	return slipped ? row.length - 1 - shown : shown;
}
