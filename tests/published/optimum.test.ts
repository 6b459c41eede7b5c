import { describe, expect, test } from 'vitest';
import { leastMinutes, minutesOf } from '../bench/exact.ts';
import { engine, onlyRepairs } from '../bench/policy.ts';
import { worlds } from '../bench/random.ts';
import { smallWorld } from '../bench/world.ts';

/*
 * The advice against exact dynamic programming over every row of answers, written apart from it: an independent check of
 * the policy, on sets drawn by a recipe of our own. More sets, with intervals: `npm run bench`.
 */

const few = worlds(3, 77, (next) => {
	const world = smallWorld(next);
	return { ...world, checks: world.checks.slice(1, 7) };
});

describe('small sets, reckoned out in full', () => {
	test.each(few.map((world, place) => ({ world, name: `set ${place + 1}` })))(
		'$name: the advice takes at most 5 % more minutes than the optimum, and never fewer',
		({ world }) => {
			const least = leastMinutes(world);
			const advised = minutesOf(world, engine(3, 0));
			expect(advised).toBeGreaterThanOrEqual(least - 1e-9);
			expect(advised / least).toBeLessThan(1.05);
		}
	);

	test('no check at all is never better than the optimum', () => {
		for (const world of few)
			expect(minutesOf(world, onlyRepairs)).toBeGreaterThanOrEqual(leastMinutes(world) - 1e-9);
	});

	test('one suspect left is mended at once', () => {
		const [world] = few;
		if (!world) throw new Error('There are three sets.');
		const known = { ...world, prior: world.prior.map((_, suspect) => Number(suspect === 2)) };
		expect(leastMinutes(known)).toBeCloseTo(world.repairs[2] ?? NaN, 9);
	});
});
