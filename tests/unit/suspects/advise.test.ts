import { describe, expect, test } from 'vitest';
import { POWER_SWITCHING, advise, pack, type Table } from '../../../src/lib/suspects/index.ts';
import { inEveryWorld } from './random.ts';

const split = [
	[0.95, 0.05],
	[0.05, 0.95]
];
interface Asked {
	id: string;
	minutes: number;
	power: 'unplugged' | 'live';
	table: Table;
	instruments?: string[];
}
const ask = (checks: readonly Asked[], power: 'unplugged' | 'live', instruments?: string[]) =>
	advise({
		standings: [0.5, 0.5],
		checks: checks.map((check) => ({ ...check, table: pack(check.table) })),
		now: { power, instruments },
		switching: POWER_SWITCHING,
		setUp: { oscilloscope: 3 }
	});

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

	test('a check names its bits, its minutes and the chance of each outcome', () => {
		const [first] = ask([hot], 'live');
		expect(first?.bits).toBeCloseTo(0.7136, 4);
		expect(first?.minutes).toBe(3);
		expect(first?.bitsPerMinute).toBeCloseTo(0.7136 / 3, 4);
		expect(first?.probabilities).toEqual([0.5, 0.5]);
	});

	test('a check marked as taking no time has a finite rate', () => {
		expect(ask([{ ...hot, minutes: 0 }], 'live')[0]?.bitsPerMinute).toBeCloseTo(0.7136 * 4, 3);
	});

	test('an oscilloscope that the last check left connected is not set up again', () => {
		const scope = { ...hot, instruments: ['oscilloscope'] };
		expect(ask([scope], 'live')[0]?.minutes).toBe(6);
		expect(ask([scope], 'live', ['oscilloscope'])[0]?.minutes).toBe(3);
	});

	test('a check that nobody can answer, and a set without a suspect left, bring no advice', () => {
		expect(ask([{ ...hot, table: [[], []] }], 'live')).toEqual([]);
		const nobody = { standings: [0, 0], now: { power: 'live' as const }, switching: POWER_SWITCHING };
		expect(advise({ ...nobody, checks: [{ ...hot, table: pack(split) }] })).toEqual([]);
	});

	test(
		'no advice has a rate above the one before it',
		inEveryWorld(({ prior, check }) => {
			const checks = [1, 2, 5].map((minutes) => ({
				id: `${minutes}`,
				minutes,
				power: 'on' as const,
				table: pack(check)
			}));
			const advice = advise({ standings: prior, checks, now: { power: 'on' }, switching: { on: { on: 0 } } });
			expect(advice.map(({ id }) => id)).toEqual(advice.length ? ['1', '2', '5'] : []);
		})
	);
});
