import { describe, expect, test } from 'vitest';
import {
	POWER_SWITCHING,
	WRONG_PART_MINUTES,
	lookAhead,
	lookAheadFully,
	pack,
	type LookAheadQuestion,
	type Ranking,
	type Table
} from '../../../src/lib/suspects/index.ts';
import { inEveryWorld, table, type World } from './random.ts';

type Power = 'unplugged' | 'limiter' | 'live';
type Question = LookAheadQuestion<Power>;

const split: Table = [
	[1, 0],
	[0, 1]
];
const gridVolts = { id: 'grid-volts', minutes: 2, power: 'live' as const, table: pack(split) };
const two: Question = {
	standings: [0.5, 0.5],
	repairs: ['capacitor', 'valve'],
	minutes: [20, 20],
	checks: [gridVolts],
	now: { power: 'live' },
	switching: POWER_SWITCHING,
	bench: 'unplugged'
};
const each = 20 + WRONG_PART_MINUTES;
const first = (question: Question) => lookAheadFully(question).checks[0];

describe('minutes until the set works', () => {
	test('a perfect check of two equal suspects saves half a repair', () => {
		const { repairNow, checks } = lookAheadFully(two);
		expect(repairNow).toBeCloseTo(3 + 1.5 * each, 9);
		expect(checks[0]).toMatchObject({ id: 'grid-volts' });
		expect(checks[0]?.minutesExpected).toBeCloseTo(2 + 3 + each, 9);
	});

	test('a check that takes longer than half a repair is not worth it', () => {
		const { repairNow, checks } = lookAheadFully({ ...two, checks: [{ ...gridVolts, minutes: 16 }] });
		expect(checks[0]?.minutesExpected).toBeGreaterThan(repairNow);
	});

	test('a live check on an unplugged set has the way there and back to pay', () => {
		const { repairNow, checks } = lookAheadFully({ ...two, now: { power: 'unplugged' } });
		expect(repairNow).toBeCloseTo(1.5 * each, 9);
		expect(checks[0]?.minutesExpected).toBeCloseTo(4 + 2 + 3 + each, 9);
	});

	test('without a check there is only the repair', () => {
		const question = { ...two, standings: [1], repairs: ['valve'], minutes: [5], checks: [] };
		expect(lookAheadFully(question)).toEqual({ stage: 'three steps', repairNow: 3 + 15, checks: [] });
	});

	test('with all suspects cleared nothing is left to reckon', () => {
		expect(lookAheadFully({ ...two, standings: [0, 0] })).toMatchObject({ repairNow: 0, checks: [] });
	});

	test('leaky or shorted, the same capacitor: a check that parts the two saves nothing', () => {
		const same = lookAheadFully({ ...two, repairs: ['capacitor', 'capacitor'] });
		expect(same.checks[0]?.minutesExpected).toBeCloseTo(same.repairNow + 2, 9);
	});

	test('two cheap checks that only together settle it are found by looking two steps ahead', () => {
		// Four equal suspects: each check alone parts two from two.
		const halves = pack([split[0]!, split[0]!, split[1]!, split[1]!]);
		const odds = pack([split[0]!, split[1]!, split[0]!, split[1]!]);
		const question: Question = {
			...two,
			standings: [1, 1, 1, 1],
			repairs: ['a', 'b', 'c', 'd'],
			minutes: [20, 20, 20, 20],
			checks: [
				{ ...gridVolts, id: 'halves', table: halves },
				{ ...gridVolts, id: 'odds', table: odds }
			]
		};
		const stages = [...lookAhead(question)];
		expect(stages[1]?.checks[0]?.minutesExpected).toBeCloseTo(2 + 3 + 1.5 * each, 9);
		expect(stages[2]?.checks[0]?.minutesExpected).toBeCloseTo(2 + 2 + 3 + each, 9);
	});

	test('a check kept for later is judged by one step and follows no other', () => {
		const late = { ...two, checks: [{ ...gridVolts, late: true }] };
		expect(first(late)).toMatchObject({ id: 'grid-volts', steps: 1 });
	});
});

/** A random world on the bench: five checks in any power state, two of them with one instrument. */
function benchOf({ prior, check, next }: World): Question {
	const powers: readonly Power[] = ['unplugged', 'limiter', 'live'];
	const any = () => powers[Math.floor(next() * 3)] ?? 'live';
	return {
		standings: prior,
		repairs: prior.map((_, suspect) => `part-${suspect}`),
		minutes: prior.map(() => 8 + 32 * next()),
		checks: ['a', 'b', 'c', 'd', 'e'].map((id, place) => ({
			id,
			minutes: 1 + 7 * next(),
			power: any(),
			table: pack(place === 0 ? check : table(next, prior.length, 2 + (place % 3))),
			instruments: place < 2 ? ['oscilloscope'] : []
		})),
		now: { power: any() },
		switching: POWER_SWITCHING,
		setUp: { oscilloscope: 2 },
		bench: 'unplugged'
	};
}

const least = ({ repairNow, checks }: Ranking) =>
	Math.min(repairNow, ...checks.map(({ minutesExpected = Infinity }) => minutesExpected));

describe('the stages of the search', () => {
	test(
		'looking further never foresees more minutes, and one step no more than repairing now',
		inEveryWorld((world) => {
			const [, one, two, three] = [...lookAhead(benchOf(world))];
			if (!one || !two || !three) throw new Error('There are four stages.');
			expect(least(one)).toBeLessThanOrEqual(one.repairNow + 1e-9);
			for (const [before, after] of [
				[one, two],
				[two, three]
			] as const)
				for (const { id, minutesExpected = Infinity } of after.checks)
					expect(minutesExpected).toBeLessThanOrEqual(
						(before.checks.find((check) => check.id === id)?.minutesExpected ?? 0) + 1e-9
					);
		})
	);

	test(
		'a check that costs nothing never makes the job longer',
		inEveryWorld((world) => {
			const question = benchOf(world);
			const free = { ...question.checks[0]!, minutes: 0, power: 'unplugged' as const, instruments: [] };
			const asked = { ...question, now: { power: 'unplugged' as const }, checks: [free] };
			const { repairNow, checks } = lookAheadFully(asked);
			for (const { minutesExpected } of checks) expect(minutesExpected).toBeLessThanOrEqual(repairNow + 1e-9);
		})
	);

	test(
		'the order in which checks are listed is irrelevant',
		inEveryWorld((world) => {
			const question = benchOf(world);
			const turned = { ...question, checks: [...question.checks].reverse() };
			const ids = (asked: Question) => lookAheadFully(asked).checks.map(({ id }) => id);
			expect(ids(turned)).toEqual(ids(question));
		})
	);

	test(
		'every stage offers the same checks, all of 0.02 bit or more',
		inEveryWorld((world) => {
			const [bits, ...later] = [...lookAhead(benchOf(world))].map(({ checks }) => checks);
			const ids = bits?.map(({ id }) => id).sort();
			for (const checks of later) expect(checks.map(({ id }) => id).sort()).toEqual(ids);
			for (const check of bits ?? []) expect(check.bits).toBeGreaterThanOrEqual(0.02);
		})
	);

	test('equals stand in the order of their ids', () => {
		const twins = ['c', 'a', 'b'].map((id) => ({ ...gridVolts, id }));
		expect(lookAheadFully({ ...two, checks: twins }).checks.map(({ id }) => id)).toEqual(['a', 'b', 'c']);
	});
});
