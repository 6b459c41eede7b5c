import { describe, expect, test } from 'vitest';
import {
	POWER_SWITCHING,
	WRONG_PART_MINUTES,
	advise,
	byRepair,
	expectedCostOfRepair,
	expectedMinutes,
	repairOrder,
	resetResidual,
	shouldRepair,
	strongestFor,
	withoutExplained,
	withoutSuspect
} from '../../../src/lib/suspects/index.ts';
import { apart, distribution, seeded, inEveryWorld } from './random.ts';

const telling = [{ bits: 0.4 }];

describe('order of repairs', () => {
	test('the chance per minute decides; of equals the earlier comes first', () => {
		expect(repairOrder([0.5, 0.3, 0.2], [30, 10, 5])).toEqual([2, 1, 0]);
		expect(repairOrder([0.2, 0.4], [10, 20])).toEqual([0, 1]);
	});

	test('no swap of neighbours is quicker', inEveryWorld(({ prior, next }) => {
		const minutes = prior.map(() => 1 + 40 * next());
		const order = repairOrder(prior, minutes);
		const best = expectedCostOfRepair(prior, minutes, order);
		for (let place = 0; place + 1 < order.length; place++) {
			const swapped = order.with(place, order[place + 1]!).with(place + 1, order[place]!);
			expect(expectedCostOfRepair(prior, minutes, swapped)).toBeGreaterThanOrEqual(best - 1e-9);
		}
	}));

	test('suspects that one repair cures count together', () => {
		const sums = byRepair([2, 1, 1], ['coupling capacitor', 'output valve', 'coupling capacitor'], [5, 2, 8]);
		expect(sums).toEqual([
			{ repair: 'coupling capacitor', standing: 0.75, minutes: 8 },
			{ repair: 'output valve', standing: 0.25, minutes: 2 }
		]);
	});
});

describe('when to stop checking', () => {
	const repairs = ['capacitor', 'capacitor', 'valve', undefined];

	test('leaky or shorted, the capacitor is changed: 96 % on one repair is enough', () => {
		expect(shouldRepair({ standings: [0.5, 0.46, 0.02, 0.02], repairs, checks: telling })).toEqual({
			stop: true,
			because: 'one repair cures nearly all',
			repair: 'capacitor'
		});
	});

	test('at 90 % with a check that still tells something, checking goes on', () => {
		expect(shouldRepair({ standings: [0.5, 0.4, 0.08, 0.02], repairs, checks: telling })).toEqual({
			stop: false
		});
	});

	test('without a check of 0.02 bit the best repair is proposed', () => {
		const question = { standings: [0.3, 0.1, 0.5, 0.1], repairs, checks: [{ bits: 0.019 }] };
		expect(shouldRepair(question)).toMatchObject({ because: 'no check tells more', repair: 'valve' });
		expect(shouldRepair({ ...question, minutes: [5, 5, 60, 60] })).toMatchObject({ repair: 'capacitor' });
	});

	test('over half on something not listed: no repair is named', () => {
		const advice = shouldRepair({ standings: [0.3, 0.1, 0.08, 0.52], repairs, checks: [] });
		expect(advice).toEqual({ stop: true, because: 'fault may lie outside' });
	});

	test('with nobody left the fault may lie outside', () => {
		expect(shouldRepair({ standings: [0, 0, 0, 0], repairs, checks: telling })).toMatchObject({
			because: 'fault may lie outside'
		});
	});

	test('repairing that is quicker than any check is proposed', () => {
		const question = { standings: [0.4, 0.3, 0.25, 0.05], repairs, checks: telling };
		const quick = { repairNow: 20, checkFirst: 21, check: 'a' };
		expect(shouldRepair({ ...question, expected: quick })).toMatchObject({ because: 'repairing is quicker' });
		expect(shouldRepair({ ...question, expected: { ...quick, checkFirst: 19 } })).toEqual({ stop: false });
	});
});

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

	test('without a check there is only the repair', () => {
		const question = { standings: [1], repairs: ['valve'], minutes: [5], toBench, now: 'unplugged' as const };
		expect(expectedMinutes({ ...question, checks: [] })).toEqual({
			repairNow: 5 + WRONG_PART_MINUTES,
			checkFirst: Infinity,
			check: undefined
		});
	});

	test.each(inEveryWorld)(
		'in world $seed a check that costs nothing never makes the job longer',
		({ seed, prior, check }) => {
			const next = seeded(seed + 100);
			const free = { id: 'free', minutes: 0, power: 'unplugged' as const, table: check };
			const checks = advise({ prior, checks: [free], now: 'unplugged', switching: POWER_SWITCHING });
			const { repairNow, checkFirst } = expectedMinutes({
				standings: prior,
				repairs: prior.map((_, suspect) => `${suspect}`),
				minutes: distribution(next, prior.length).map((share) => 1 + share * 100),
				toBench,
				now: 'unplugged',
				checks: checks.map((advice) => ({ ...advice, power: 'unplugged' as const }))
			});
			expect(checks).toHaveLength(1);
			expect(checkFirst).toBeLessThanOrEqual(repairNow + 1e-9);
		}
	);
});

describe('after a repair that did not cure', () => {
	test('a part that was good is out and the others keep their ratios', () => {
		expect(apart(withoutSuspect([0.6, 0.3, 0.1], 0), [0, 0.75, 0.25])).toBeLessThan(1e-12);
	});

	test('a suspect that was the only one does not come back', () => {
		expect(withoutSuspect([1, 0], 0)).toEqual([0, 0]);
	});

	test('the answer to repeat is the one that spoke most for the good part', () => {
		const answers = [
			[0.6, 0.4],
			[0.9, 0.1],
			[0.3, 0.7]
		];
		expect(strongestFor([0.5, 0.5], answers, 0)).toBe(1);
		expect(strongestFor([0.5, 0.5], answers, 1)).toBe(2);
		expect(strongestFor([0.5, 0.5], answers.slice(2), 0)).toBe(-1);
		expect(strongestFor([0.5, 0.5], [], 0)).toBe(-1);
	});

	test('a part that was bad takes the bad answers it explains with it; good answers stay', () => {
		const answers = [
			{ bad: true, badGiven: [0.95, 0.05] },
			{ bad: true, badGiven: [0.3, 0.9] },
			{ bad: false, badGiven: [0.95, 0.05] },
			{ bad: true, badGiven: [0.5, 0.5] }
		];
		expect(withoutExplained(answers, 0)).toEqual({ kept: [1, 2], dropped: [0, 3] });
	});

	test('something not listed goes back to the share it began with', () => {
		expect(apart(resetResidual([0.2, 0.2, 0.6], 2, 0.04), [0.48, 0.48, 0.04])).toBeLessThan(1e-12);
		expect(resetResidual([0, 1], 1, 0.04)).toEqual([0, 1]);
	});
});
