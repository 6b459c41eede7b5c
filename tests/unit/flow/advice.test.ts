import { describe, expect, test } from 'vitest';
import { questionOf, suggest, suggestionsOf, type Situation } from '../../../src/lib/flow/advice.ts';
import { normalOf } from '../../../src/lib/flow/evidence.ts';
import { trace, type TraceAnswer } from '../../../src/lib/flow/trace.ts';
import { lookAhead } from '../../../src/lib/suspects/index.ts';
import { shipped } from '../../library.ts';

const hot = shipped('distorted-output-valve-hot', 'am-fm-shared');
const fresh: Situation = { power: 'unplugged', answered: [], skipped: [], unavailable: [] };
const after = (answers: TraceAnswer[]) => ({
	now: trace(hot, { answers, mended: [] }),
	situation: { ...fresh, answered: answers }
});
const start = after([]);

describe('the next measurement', () => {
	const all = suggest(start.now, start.situation);
	const gains = all.filter(({ by }) => by === 'gain');

	test('steps that the author has not put in order stand by the minutes the job is expected to take', () => {
		const minutes = gains.map(({ minutesExpected }) => Math.round(minutesExpected * 1e6));
		expect(minutes).toEqual([...minutes].sort((a, b) => a - b));
	});

	test('each says by how many minutes the job would take longer than with the best', () => {
		const best = Math.min(...all.map(({ minutesExpected }) => minutesExpected));
		for (const { minutesBehind, minutesExpected } of all)
			expect(minutesBehind).toBeCloseTo(minutesExpected - best, 9);
		expect(Math.min(...all.map(({ minutesBehind }) => minutesBehind))).toBe(0);
	});

	test('the chances of its answers sum to one, and the standings after them give back those of now', () => {
		for (const { probabilities, posteriors } of all.slice(0, 4)) {
			expect(probabilities.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 9);
			start.now.now.forEach((share, suspect) => {
				const back = probabilities.reduce(
					(sum, p, outcome) => sum + p * (posteriors[outcome]?.[suspect] ?? 0),
					0
				);
				expect(back).toBeCloseTo(share, 9);
			});
		}
	});

	test('every stage of the search offers the same steps', () => {
		const stages = [...lookAhead(questionOf(start.now, start.situation))];
		const ids = all.map(({ id }) => id).sort();
		for (const stage of stages)
			expect(
				suggestionsOf(start.now, start.situation, stage)
					.map(({ id }) => id)
					.sort()
			).toEqual(ids);
	});

	test('what the search is asked can be sent to a worker', () => {
		const question = questionOf(start.now, start.situation);
		expect(structuredClone(question)).toEqual(question);
	});

	test('"cannot tell" takes its own step out and moves nobody', () => {
		const [first] = all;
		const left = suggest(start.now, { ...fresh, unavailable: [first?.id ?? ''] });
		expect(left.map(({ id }) => id)).not.toContain(first?.id);
		expect(left.find(({ id }) => id === all[1]?.id)?.bits).toBe(all[1]?.bits);
	});
});

test("a second reading that shares the first one's cause of error is expected to tell less", () => {
	const fm = shipped('fm-distorted', 'am-fm-shared');
	const [one, other] = Object.entries(fm.steps).filter(([, { group }]) => group === 'fm-detector-volts');
	if (!one || !other) throw new Error('This flow has no two steps of one group.');
	const alone = { ...fm, steps: { ...fm.steps, [one[0]]: { ...one[1], group: undefined } } };
	const answers = [{ step: one[0], outcome: normalOf(one[1]) }];
	const bitsOf = (resolved: typeof fm) => {
		const told = trace(fm, { answers, mended: [] });
		const offered = suggest({ ...told, resolved }, { ...fresh, power: 'live', answered: answers });
		return offered.find(({ id }) => id === other[0])?.bits ?? 0;
	};
	expect(bitsOf(fm)).toBeGreaterThan(0);
	expect(bitsOf(fm)).toBeLessThan(bitsOf(alone));
});

describe('answers that no set should give', () => {
	test('the same step answered twice with different outcomes: the later answer counts', () => {
		const twice = after([
			{ step: 'v-og', outcome: 'positive' },
			{ step: 'v-og', outcome: 'zero' }
		]);
		const once = after([{ step: 'v-og', outcome: 'zero' }]);
		expect(twice.now.now).toEqual(once.now.now);
		expect(suggest(twice.now, twice.situation).map(({ id }) => id)).not.toContain('v-og');
	});

	test('with every named suspect mended only "something not listed" is left, and nothing tells more', () => {
		const mended = hot.suspects.map(({ id }) => ({ suspect: id, was: 'good' as const, after: 0 }));
		const now = trace(hot, { answers: [], mended });
		expect(now.now.at(-1)).toBeCloseTo(1, 12);
		expect(suggest(now, fresh)).toEqual([]);
	});

	test('an outcome that the step does not have is no evidence', () => {
		expect(after([{ step: 'v-og', outcome: 'no-such-outcome' }]).now.now).toEqual(start.now.now);
	});
});

test('a test on the mains itself is never suggested, not even when nothing else is left', () => {
	const shock = shipped('shock-from-chassis', 'am-transformer');
	const others = Object.keys(shock.steps).filter((id) => id !== 'i-chas');
	expect(shock.steps).toHaveProperty('i-chas');
	const now = trace(shock, { answers: [], mended: [] });
	const left = suggest(now, { ...fresh, unavailable: others });
	expect(left).toEqual([]);
});
