import { describe, expect, test } from 'vitest';
import { POWER_SWITCHING, advise } from '../../../src/lib/suspects/index.ts';
import { inEveryWorld } from './random.ts';

const split = [
	[0.95, 0.05],
	[0.05, 0.95]
];
const ask = (
	checks: Parameters<typeof advise<'unplugged' | 'limiter' | 'live'>>[0]['checks'],
	now: 'unplugged' | 'live'
) => advise({ prior: [0.5, 0.5], checks, now, switching: POWER_SWITCHING });

describe('advice', () => {
	const cold = { id: 'cold', minutes: 3, power: 'unplugged', table: split } as const;
	const hot = { id: 'hot', minutes: 3, power: 'live', table: split } as const;

	test('of two checks that tell the same, the one in the present power state comes first', () => {
		expect(ask([cold, hot], 'live').map(({ id }) => id)).toEqual(['hot', 'cold']);
		expect(ask([cold, hot], 'unplugged').map(({ id }) => id)).toEqual(['cold', 'hot']);
	});

	test('a check that tells less than 0.02 bit is not offered', () => {
		const vague = [
			[0.52, 0.48],
			[0.48, 0.52]
		];
		expect(ask([{ ...hot, table: vague }], 'live')).toEqual([]);
	});

	test('equals stand in the order of their ids, whatever the order of the list', () => {
		const twins = ['b', 'a', 'c'].map((id) => ({ ...hot, id }));
		expect(ask(twins, 'live').map(({ id }) => id)).toEqual(['a', 'b', 'c']);
		expect(ask([...twins].reverse(), 'live').map(({ id }) => id)).toEqual(['a', 'b', 'c']);
	});

	test('a check names its bits, minutes, chances and the standings after each outcome', () => {
		const [first] = ask([hot], 'live');
		expect(first?.bits).toBeCloseTo(0.7136, 4);
		expect(first?.minutes).toBe(3);
		expect(first?.bitsPerMinute).toBeCloseTo(0.7136 / 3, 4);
		expect(first?.probabilities).toEqual([0.5, 0.5]);
		expect(first?.posteriors[0]?.[0]).toBeCloseTo(0.95, 12);
		expect(first?.posteriors[1]?.[0]).toBeCloseTo(0.05, 12);
	});

	test('a check marked as taking no time has a finite rate', () => {
		expect(ask([{ ...hot, minutes: 0 }], 'live')[0]?.bitsPerMinute).toBeCloseTo(0.7136 * 4, 3);
	});

	test(
		'no advice has a rate above the one before it',
		inEveryWorld(({ prior, check }) => {
			const checks = [1, 2, 5].map((minutes) => ({
				id: `${minutes}`,
				minutes,
				power: 'on' as const,
				table: check
			}));
			const advice = advise({ prior, checks, now: 'on', switching: { on: { on: 0 } } });
			expect(advice.map(({ id }) => id)).toEqual(advice.length ? ['1', '2', '5'] : []);
		})
	);
});
