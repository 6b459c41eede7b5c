import { describe, expect, test } from 'vitest';
import {
	POWER_SWITCHING,
	WRONG_PART_MINUTES,
	advise,
	expectedMinutes,
	informationGain,
	outcomeLikelihood,
	outcomeProbabilities,
	update
} from '../../../src/lib/suspects/index.ts';
import { inEveryWorld } from './random.ts';

describe('one step of look-ahead', () => {
	const toBench = { unplugged: 0, limiter: 3, live: 3 };
	const split = [
		[1, 0],
		[0, 1]
	];
	const ask = (checkMinutes: number) => {
		const check = { id: 'grid volts', minutes: checkMinutes, power: 'live' as const, table: split };
		const checks = advise({ prior: [0.5, 0.5], checks: [check], now: 'live', switching: POWER_SWITCHING });
		const powered = checks.map((advice) => ({ ...advice, power: 'live' as const }));
		const question = { standings: [0.5, 0.5], repairs: ['capacitor', 'valve'], minutes: [20, 20], toBench };
		return expectedMinutes({ ...question, now: 'live' as const, checks: powered });
	};

	test('a perfect check of two equal suspects saves half a repair', () => {
		const each = 20 + WRONG_PART_MINUTES;
		expect(ask(2)).toEqual({ repairNow: 3 + 1.5 * each, checkFirst: 2 + 3 + each, check: 'grid volts' });
	});

	test('a check that takes longer than half a repair is not worth it', () => {
		const { repairNow, checkFirst } = ask(16);
		expect(checkFirst).toBeGreaterThan(repairNow);
	});

	test('a live check on an unplugged set has the way back to the bench to pay', () => {
		const live = {
			id: 'grid volts',
			bits: 1,
			minutes: 6,
			bitsPerMinute: 1 / 6,
			probabilities: [0.5, 0.5],
			posteriors: split,
			power: 'live' as const
		};
		const question = { standings: [0.5, 0.5], repairs: ['capacitor', 'valve'], minutes: [20, 20], toBench };
		const each = 20 + WRONG_PART_MINUTES;
		expect(expectedMinutes({ ...question, now: 'unplugged', checks: [live] })).toMatchObject({
			repairNow: 1.5 * each,
			checkFirst: 6 + 3 + each
		});
	});

	test('without a check there is only the repair', () => {
		const question = { standings: [1], repairs: ['valve'], minutes: [5], toBench, now: 'unplugged' as const };
		expect(expectedMinutes({ ...question, checks: [] })).toEqual({
			repairNow: 5 + WRONG_PART_MINUTES,
			checkFirst: Infinity,
			check: undefined
		});
	});

	test(
		'a check that costs nothing never makes the job longer',
		inEveryWorld(({ prior, check, next }) => {
			const free = {
				id: 'free',
				bits: informationGain(prior, check),
				minutes: 0,
				bitsPerMinute: Infinity,
				probabilities: outcomeProbabilities(prior, check),
				posteriors: check[0]!.map((_, outcome) => update(prior, outcomeLikelihood(check, outcome)).posterior),
				power: 'unplugged' as const
			};
			const { repairNow, checkFirst } = expectedMinutes({
				standings: prior,
				repairs: prior.map((_, suspect) => `${suspect}`),
				minutes: prior.map(() => 1 + 40 * next()),
				toBench,
				now: 'unplugged',
				checks: [free]
			});
			expect(checkFirst).toBeLessThanOrEqual(repairNow + 1e-9);
		})
	);
});
