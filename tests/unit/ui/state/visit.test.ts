import { expect, test } from 'vitest';
import { markLeft, STILL_HERE_MINUTES, stillHere } from '../../../../src/lib/ui/state/visit.ts';

const MINUTE = 60_000;

test('a job left for a sum is taken up as it was left, once', () => {
	markLeft('a', 0);
	expect(stillHere('a', 5 * MINUTE)).toBe(true);
	expect(stillHere('a', 6 * MINUTE)).toBe(false);
});

test('after a long absence nobody knows what happened to the set', () => {
	markLeft('a', 0);
	expect(stillHere('a', STILL_HERE_MINUTES * MINUTE + 1)).toBe(false);
});

test('a job that this page never had open was not left here, nor was one left in the future', () => {
	expect(stillHere('b', 0)).toBe(false);
	markLeft('b', 10 * MINUTE);
	expect(stillHere('b', 9 * MINUTE)).toBe(false);
});
