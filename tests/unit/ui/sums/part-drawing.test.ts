import { describe, expect, test } from 'vitest';
import { runCalculation } from '../../../../src/lib/calculations/index.ts';
import { partPicture } from '../../../../src/lib/ui/sums/part-drawing.ts';

function pictureOf(given: Record<string, unknown>) {
	const answer = runCalculation('part-codes', given);
	if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join('; '));
	return partPicture(answer);
}

describe('the part as it is drawn', () => {
	test('bands carry figure, multiplier and tolerance', () => {
		const picture = pictureOf({ colours: ['grey', 'blue', 'gold', 'silver'] });
		expect(picture).toEqual({
			shape: 'bands',
			bands: [
				{ colour: 'grey', means: '8' },
				{ colour: 'blue', means: '6' },
				{ colour: 'gold', means: '× 0.1' },
				{ colour: 'silver', means: '10 %' }
			]
		});
	});

	test('the bands of a value are drawn as if they had been read', () => {
		expect(pictureOf({ R_ohm: '47k', tolerance: '10 %' })).toEqual(
			pictureOf({ colours: ['yellow', 'violet', 'orange', 'silver'] })
		);
	});

	test('a dot that is not told is painted as the body', () => {
		expect(pictureOf({ body: 'red', end: 'violet' })).toMatchObject({
			shape: 'body',
			dot: { colour: 'red', means: '× 100' },
			fourth: undefined
		});
	});

	test.each([
		[
			['red', 'green', 'black'],
			['2', '5', '× 1']
		],
		[
			['red', 'green', 'brown', 'gold', 'silver'],
			['2', '5', '× 10', 'volts', 'tolerance']
		],
		[
			['white', 'brown', 'red', 'red', 'red', 'red'],
			['type', '1', '2', 'kind', 'tolerance', '× 100']
		],
		[
			['brown', 'brown', 'red', 'green', 'red', 'red'],
			['1', '1', '2', 'volts', 'tolerance', '× 100']
		]
	])('mica dots %j', (mica_dots, means) => {
		const picture = pictureOf({ mica_dots });
		expect(picture?.shape === 'dots' && picture.dots.map((dot) => dot.means)).toEqual(means);
	});

	test('a printed part shows its code, a lead its colours', () => {
		expect(pictureOf({ code: '2A474J' })).toEqual({ shape: 'printed', kind: 'capacitor', text: '2A474J' });
		expect(pictureOf({ transformer_lead: 'red/yellow' })).toEqual({
			shape: 'lead',
			colours: ['red', 'yellow'],
			means: 'HT centre tap'
		});
	});

	test('of several parts at once none is drawn', () => {
		expect(pictureOf({ code: ['4K7', 'R47'] })).toBeUndefined();
		expect(pictureOf({ letters: 'J' })).toBeUndefined();
	});
});
