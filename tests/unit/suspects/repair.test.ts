import { describe, expect, test } from 'vitest';
import {
	byRepair,
	expectedCostOfRepair,
	repairOrder,
	shouldRepair
} from '../../../src/lib/suspects/index.ts';
import { inEveryWorld } from './random.ts';

const telling = [{ bits: 0.4 }];

describe('order of repairs', () => {
	test('the chance per minute decides; of equals the earlier comes first', () => {
		expect(repairOrder([0.5, 0.3, 0.2], [30, 10, 5])).toEqual([2, 1, 0]);
		expect(repairOrder([0.2, 0.4], [10, 20])).toEqual([0, 1]);
	});

	test(
		'no swap of neighbours is quicker',
		inEveryWorld(({ prior, next }) => {
			const minutes = prior.map(() => 1 + 40 * next());
			const order = repairOrder(prior, minutes);
			const best = expectedCostOfRepair(prior, minutes, order);
			for (let place = 0; place + 1 < order.length; place++) {
				const swapped = order.with(place, order[place + 1]!).with(place + 1, order[place]!);
				expect(expectedCostOfRepair(prior, minutes, swapped)).toBeGreaterThanOrEqual(best - 1e-9);
			}
		})
	);

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

	test('over half on something not listed: what still tells something is checked first', () => {
		const advice = shouldRepair({ standings: [0.3, 0.1, 0.08, 0.52], repairs, checks: telling });
		expect(advice).toEqual({ stop: false });
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
