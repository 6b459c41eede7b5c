import { describe, expect, test } from 'vitest';
import { calculations, picturesOf, runCalculation } from '../../../src/lib/calculations/index.ts';
import { currentAt, fitLeakage, timeAt } from '../../../src/lib/calculations/reform-fit.ts';
import { Dice } from '../../random.ts';

const held = { limit_mA: 1, V_applied: 350, V_working: 350 };
const run = (series_min_mA: unknown, more: Record<string, unknown> = {}) =>
	runCalculation('reform-progress', { ...held, ...more, series_min_mA });

function verdictOf(series: unknown, more: Record<string, unknown> = {}) {
	const answer = run(series, more);
	if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join('; '));
	return answer.verdict;
}

/** Readings on I = first * (t / 1 min)^slope. */
const falling = (first: number, slope: number, times: readonly number[]) =>
	times.map((time) => [time, first * time ** slope]);

describe('the fit', () => {
	test('readings on the law give its slope, and the limit lies on the line', () => {
		const dice = new Dice(3);
		for (let i = 0; i < 200; i++) {
			const [slope, first] = [-dice.between(0.05, 1.2), dice.ratio(1e-4, 0.05)];
			const readings = [600, 1800, 3600].map((time) => ({ time, current: first * (time / 600) ** slope }));
			const fit = fitLeakage(readings);
			expect(fit?.slope).toBeCloseTo(slope, 9);
			const reached = fit && timeAt(fit, first / 5);
			expect(fit && reached && currentAt(fit, reached)).toBeCloseTo(first / 5, 12);
		}
	});

	test('two readings give their own slope, one gives none', () => {
		expect(
			fitLeakage([
				{ time: 60, current: 4e-3 },
				{ time: 240, current: 2e-3 }
			])?.slope
		).toBeCloseTo(-0.5, 12);
		expect(fitLeakage([{ time: 60, current: 4e-3 }])).toBeUndefined();
	});

	test('a leakage that rises never reaches its limit', () => {
		expect(timeAt({ slope: 0.1, intercept: -7 }, 1e-3)).toBeUndefined();
	});
});

describe('go on, stop or change', () => {
	test.each([
		['falls well', falling(40, -0.7, [10, 30, 60]), 'go on'],
		['falls well, but the limit is days away', falling(40, -0.25, [10, 30, 60]), 'stalled: replace'],
		['falls slowly and reaches its limit within a day', falling(2.6, -0.15, [60, 90, 120]), 'slow'],
		['stands still after an hour', falling(3, -0.03, [10, 30, 60]), 'stalled: replace'],
		['stands still after ten minutes, which is too early', falling(3, -0.03, [2, 5, 10]), 'go on'],
		['one reading above the limit after an hour', [[60, 3]], 'go on'],
		['one reading above the limit after a night', [[480, 3]], 'stalled: replace'],
		['within the limit', [[60, 0.9]], 'passes']
	])('%s', (_, series, verdict) => {
		expect(verdictOf(series)).toBe(verdict);
	});

	test('a warm case or a rise stops it, even within the limit', () => {
		expect(
			verdictOf(
				[
					[10, 0.5],
					[60, 0.4]
				],
				{ case: 'warm' }
			)
		).toBe('stalled: replace');
		expect(
			verdictOf([
				[10, 0.4],
				[60, 0.5]
			])
		).toBe('stalled: replace');
	});

	test('a reading that wavers by a few per cent is no rise', () => {
		expect(
			verdictOf([
				[10, 0.5],
				[30, 0.4],
				[60, 0.41]
			])
		).toBe('passes');
	});

	test('at less than nine tenths of the volts of the set it has not passed yet', () => {
		const at = (V_applied: number) => verdictOf([[60, 0.5]], { V_applied, V_working: 300 });
		expect([at(260), at(270)]).toEqual(['go on', 'passes']);
	});
});

describe('what is refused', () => {
	test.each([
		[
			'times out of order',
			[
				[30, 2],
				[10, 3]
			],
			{},
			'Sort them'
		],
		['more volts than the part is marked for', [[30, 2]], { C_uF: 16, V_rated: 250 }, 'above V_rated'],
		[
			'readings during charging only',
			[
				[1, 3, 100],
				[5, 2, 200]
			],
			{},
			'still charging'
		],
		['more volts on it than are applied', [[30, 2, 400]], {}, 'above V_applied']
	])('%s', (_, series, more, part) => {
		const answer = run(series, more);
		expect(answer.ok ? '' : answer.problems[0]?.message).toContain(part);
	});
});

describe('the picture', () => {
	const labels = (series: unknown) =>
		picturesOf(calculations['reform-progress'], { ...held, series_min_mA: series })[0]?.curves.map(
			({ label }) => label
		);

	test('shows readings, fit and what lies ahead, and nothing ahead once it has passed', () => {
		expect(labels(falling(40, -0.7, [10, 30, 60]))).toEqual(['readings', 'fit', 'if it goes on so']);
		expect(labels(falling(2, -0.7, [10, 30, 60]))).toEqual(['readings', 'fit']);
		expect(labels([[10, 2]])).toEqual(['readings']);
	});

	test('ends where the limit is reached', () => {
		const [picture] = picturesOf(calculations['reform-progress'], {
			...held,
			series_min_mA: falling(10, -0.7, [5, 8, 10])
		});
		const [time, current] = picture?.curves.at(-1)?.points.at(-1) ?? [];
		expect(current).toBeCloseTo(1e-3, 9);
		expect(time).toBeCloseTo(60 * 10 ** (1 / 0.7), 3);
	});
});
