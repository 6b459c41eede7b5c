import { describe, expect, test } from 'vitest';
import type { TrailLine } from '../../../../src/lib/job/trail.ts';
import { awayFor, findingsOf, placeWords } from '../../../../src/lib/ui/job/pick-up.ts';

const left = '2026-03-01T18:00:00.000Z';
const after = (days: number) => Date.parse(left) + days * 24 * 60 * 60 * 1000;

describe('a job taken up again', () => {
	test.each([
		[0.9, undefined],
		[1, 'a day'],
		[30, '30 days'],
		[183, '6 months']
	])('after %d days it lay %s', (days, words) => {
		expect(awayFor(left, after(days))).toBe(words);
	});

	test('one without a date, or from a clock that runs ahead, did not lie', () => {
		expect(awayFor('', after(9))).toBeUndefined();
		expect(awayFor(left, after(-9))).toBeUndefined();
	});

	test('names as found only what was answered and still stands', () => {
		const line = (event: string, more: Partial<TrailLine>): TrailLine => ({
			event,
			kind: 'answered',
			at: left,
			bench: 'b',
			what: 'Grid of the output valve',
			answer: 'Positive',
			reading: '+1.2 V',
			undone: false,
			...more
		});
		const trail = [
			line('b.1', {}),
			line('b.2', { undone: true }),
			line('b.3', { refused: 'It did not fit.' }),
			line('b.4', { kind: 'noted' })
		];
		expect(findingsOf(trail)).toEqual([{ id: 'b.1', text: 'Grid of the output valve: +1.2 V, Positive' }]);
	});

	test('tells a part that waits for its proof from a step', () => {
		expect(placeWords('proving', 'Coupling capacitor: leaky', 'Grid volts')).toBe(
			'Changed, to be proved: Coupling capacitor: leaky'
		);
		expect(placeWords('choosing', '', 'Grid volts')).toBe('Grid volts');
		expect(placeWords('choosing', '', undefined)).toBe('Before the first step');
	});
});
