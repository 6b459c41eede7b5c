import { describe, expect, test } from 'vitest';
import {
	TRUST,
	clampRow,
	groupExponent,
	healthyRow,
	outcomeLikelihood,
	posterior,
	residualRow,
	slipMix,
	softOutcome,
	sureMix,
	temper,
	trustMix,
	update,
	wordRow
} from '../../../src/lib/suspects/index.ts';
import { apart, distribution, inEveryWorld } from './random.ts';

const volts = ['positive', 'raised', 'zero', 'negative'];
const sound = healthyRow(volts, 'zero');
const total = (list: readonly number[]) => list.reduce((one, other) => one + other, 0);
const near = (row: readonly number[], expected: readonly number[]) => {
	expect(row).toHaveLength(expected.length);
	expect(apart(row, expected)).toBeLessThan(1e-12);
};

describe('the row of a sound set', () => {
	test('the normal outcome has 0.95, the others share the rest', () => {
		near(sound, [0.05 / 3, 0.05 / 3, 0.95, 0.05 / 3]);
		near(healthyRow(['good', 'bad'], 'good', 0.9), [0.9, 0.1]);
	});

	test('a normal outcome that is no outcome is an error of ours', () => {
		expect(() => healthyRow(volts, 'none')).toThrow('"none"');
	});
});

describe('the row of a suspect from words', () => {
	test('one word gives its number, and the rest is shared as in a sound set', () => {
		near(wordRow(volts, { positive: 'almost always' }, sound), [
			0.91,
			(0.09 * sound[1]!) / (1 - sound[0]!),
			(0.09 * sound[2]!) / (1 - sound[0]!),
			(0.09 * sound[3]!) / (1 - sound[0]!)
		]);
	});

	test('"never" on the normal outcome leaves 0.98 for the others', () => {
		near(wordRow(volts, { zero: 'never' }, sound), [0.98 / 3, 0.98 / 3, 0.02, 0.98 / 3]);
	});

	test('words of less than 0.98 together keep their numbers', () => {
		const row = wordRow(volts, { positive: 'half the time', raised: 'sometimes' }, sound);
		near(row.slice(0, 2), [0.5, 0.3]);
		expect(total(row)).toBeCloseTo(1, 12);
	});

	test('words of more than 0.98 together keep their ratio and leave 0.02', () => {
		const row = wordRow(volts, { positive: 'usually', raised: 'sometimes' }, sound);
		near(row.slice(0, 2), [0.98 * (0.75 / 1.05), 0.98 * (0.3 / 1.05)]);
		expect(row[2]! + row[3]!).toBeCloseTo(0.02, 12);
	});

	test('where every outcome has a word, the words are scaled to sum 1', () => {
		near(wordRow(['good', 'bad'], { good: 'sometimes', bad: 'sometimes' }, [0.95, 0.05]), [0.5, 0.5]);
	});

	test('without a word the suspect reads as a sound set', () => {
		near(wordRow(volts, {}, sound), sound);
	});

	test('where a sound set leaves nothing for the outcomes without a word, they share equally', () => {
		near(wordRow(['a', 'b', 'c'], { a: 'usually' }, [1, 0, 0]), [0.75, 0.125, 0.125]);
	});

	test('an outcome named like an inherited property is an outcome like any other', () => {
		near(wordRow(['constructor', 'good'], { good: 'usually' }, [0.5, 0.5]), [0.25, 0.75]);
	});

	test('a word for an outcome that the check does not have is an error of ours', () => {
		expect(() => wordRow(volts, { dead: 'usually' }, sound)).toThrow('"dead"');
	});
});

describe('room for error', () => {
	test('no row settles a trace: 0 and 1 become 0.01 and 0.99', () => {
		near(clampRow([1, 0]), [0.99, 0.01]);
		near(clampRow([0.7, 0.3]), [0.7, 0.3]);
		expect(total(clampRow([1, 0, 0, 0]))).toBeCloseTo(1, 12);
	});

	test('a slip of the pen falls 3 % each way on a check with two outcomes', () => {
		near(slipMix([1, 0]), [0.97, 0.03]);
		near(slipMix([1, 0, 0]), [0.94, 0.03, 0.03]);
		near(slipMix([0.6, 0.4], 0), [0.6, 0.4]);
	});

	test('a rough way of doing a check moves the standings less than a trusted one', () => {
		near(trustMix([0.9, 0.1], TRUST.full), [0.9, 0.1]);
		near(trustMix([0.9, 0.1], TRUST.fair), [0.78, 0.22]);
		near(trustMix([0.9, 0.1], TRUST.rough), [0.66, 0.34]);
	});
});

describe('readings near the edge of a band', () => {
	const check = [
		[0.9, 0.1],
		[0.2, 0.8]
	];

	test('well inside a band the reading is the plain answer', () => {
		near(softOutcome(check, [0, 1]), outcomeLikelihood(check, 1));
	});

	test('on the edge it counts for both bands by half', () => {
		near(softOutcome(check, [0.5, 0.5]), [0.5, 0.5]);
	});

	test('a slightly different reading gives slightly different standings', () => {
		const before = update([0.5, 0.5], softOutcome(check, [0.51, 0.49])).posterior;
		const after = update([0.5, 0.5], softOutcome(check, [0.49, 0.51])).posterior;
		expect(apart(before, after)).toBeLessThan(0.02);
	});
});

describe('something not listed', () => {
	const check = [
		[0.98, 0.01, 0.01],
		[0.9, 0.05, 0.05]
	];

	test('its row is half the mean of the named suspects, half uniform', () => {
		near(residualRow([3, 1], check), [0.48 + 1 / 6, 0.01 + 1 / 6, 0.01 + 1 / 6]);
	});

	test('it rises when every named suspect is surprised and falls a little otherwise', () => {
		const all = [...check, residualRow([0.5, 0.5], check)];
		const prior = [0.48, 0.48, 0.04];
		expect(update(prior, outcomeLikelihood(all, 1)).posterior[2]).toBeGreaterThan(0.1);
		expect(update(prior, outcomeLikelihood(all, 0)).posterior[2]).toBeGreaterThan(0.02);
	});
});

describe('answers given without being sure', () => {
	test('a full confidence changes nothing in the row', () => {
		near(sureMix([0.9, 0.1], [0.5, 0.5], 1), [0.9, 0.1]);
	});

	test(
		'an answer with no confidence at all moves nothing',
		inEveryWorld(({ prior, check, next }) => {
			const base = distribution(next, check[0]!.length);
			const unsure = check.map((row) => sureMix(row, base, 0));
			expect(apart(update(prior, outcomeLikelihood(unsure, 0)).posterior, prior)).toBeLessThan(1e-12);
		})
	);

	test('the row of an unsure answer still sums to 1', () => {
		expect(total(sureMix([0.9, 0.05, 0.05], [0.2, 0.3, 0.5], 0.6))).toBeCloseTo(1, 12);
	});
});

describe('answers that share a cause of error', () => {
	test('a single one counts in full, two count as one and a half', () => {
		expect(groupExponent(1)).toBe(1);
		expect(2 * groupExponent(2)).toBe(1.5);
		expect(3 * groupExponent(3)).toBeCloseTo(2, 12);
	});

	test('two readings with one meter tell less than two with two meters, and more than one', () => {
		const answer = [0.8, 0.2];
		const shared = posterior([1, 1], Array(2).fill(temper(answer, groupExponent(2))));
		expect(shared[0]).toBeGreaterThan(posterior([1, 1], [answer])[0]!);
		expect(shared[0]).toBeLessThan(posterior([1, 1], [answer, answer])[0]!);
	});
});
