import { POWER_SWITCHING } from '../../src/lib/suspects/index.ts';
import type { StepPower } from '../../src/lib/flow/terms.ts';
import type { Policy } from './policy.ts';
import type { World } from './world.ts';

/**
 * Expected minutes reckoned out over every row of answers, for sets small enough (3^8 states of knowledge, three power
 * states). Written apart from the engine, with nothing of its search in it, so that it can judge the engine.
 */

/** What is known, as a number: for each check in turn 0 not made, 1 good, 2 bad, to the base of 3. */
type Known = number;

const POWERS: readonly StepPower[] = ['unplugged', 'limiter', 'live'];

const outcomeIn = (known: Known, place: number) => Math.floor(known / 3 ** place) % 3;
const unmade = (world: World, known: Known) =>
	world.checks.flatMap((_, place) => (outcomeIn(known, place) === 0 ? [place] : []));

/** Chance of each suspect together with all that is known. */
function jointOf(world: World, known: Known): number[] {
	return world.prior.map((weight, suspect) =>
		world.checks.reduce((joint, { table }, place) => {
			const outcome = outcomeIn(known, place);
			return outcome === 0 ? joint : joint * (table[suspect]?.[outcome - 1] ?? 0);
		}, weight)
	);
}

const total = (joint: readonly number[]) => joint.reduce((sum, weight) => sum + weight, 0);

/** Minutes of repairing in the order of chance per minute, times the chance of getting there. */
function repairing(world: World, joint: readonly number[], power: StepPower, penalty: number): number {
	const minutes = world.repairs.map((repair) => repair + penalty);
	const order = joint
		.map((weight, suspect) => ({ weight, minutes: minutes[suspect] ?? 0 }))
		.sort((one, other) => other.weight / other.minutes - one.weight / one.minutes);
	let uncured = total(joint);
	let cost = uncured * POWER_SWITCHING[power].unplugged;
	for (const repair of order) {
		cost += uncured * repair.minutes;
		uncured -= repair.weight;
	}
	return cost;
}

/** Minutes times the chance of getting there. */
type Value = (known: Known, power: StepPower) => number;

/** Each state worked out once. */
function remembered(world: World, work: (known: Known, power: StepPower, joint: number[]) => number): Value {
	const values = new Float64Array(3 ** world.checks.length * POWERS.length).fill(Number.NaN);
	const joints: number[][] = [];
	return (known, power) => {
		const state = known * POWERS.length + POWERS.indexOf(power);
		const value = values[state] ?? Number.NaN;
		if (!Number.isNaN(value)) return value;
		return (values[state] = work(known, power, (joints[known] ??= jointOf(world, known))));
	};
}

const checking = (
	world: World,
	known: Known,
	weight: number,
	place: number,
	power: StepPower,
	value: Value
) => {
	const check = world.checks[place];
	if (!check) throw new RangeError(`There is no check ${place}.`);
	const [good, bad] = [1, 2].map((outcome) => value(known + outcome * 3 ** place, check.power));
	return weight * (POWER_SWITCHING[power][check.power] + check.minutes) + (good ?? 0) + (bad ?? 0);
};

/** The fewest minutes that any way of deciding can expect, from an unplugged set. */
export function leastMinutes(world: World, penalty = 0): number {
	const value: Value = remembered(world, (known, power, joint) => {
		const weight = total(joint);
		const ways = unmade(world, known).map((place) => checking(world, known, weight, place, power, value));
		return Math.min(repairing(world, joint, power, penalty), ...ways);
	});
	return value(0, 'unplugged');
}

/** What one way of deciding is to expect. Once it mends, it mends on in the order of chance per minute. */
export function minutesOf(world: World, policy: Policy, penalty = 0): number {
	const decide = policy(world);
	const value: Value = remembered(world, (known, power, joint) => {
		const weight = total(joint);
		const standings = joint.map((one) => one / weight);
		const action = decide({ standings, left: unmade(world, known), power });
		return 'check' in action
			? checking(world, known, weight, action.check, power, value)
			: repairing(world, joint, power, penalty);
	});
	return value(0, 'unplugged');
}
