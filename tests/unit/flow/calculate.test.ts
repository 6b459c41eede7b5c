import { describe, expect, test } from 'vitest';
import { calculateAtStep } from '../../../src/lib/flow/calculate.ts';
import { type Step as StepData, Step } from '../../../src/lib/flow/schema.ts';
import { samplePlan } from './small.ts';

const step = (calculation: unknown): StepData =>
	Step.parse({
		kind: 'observe',
		title: 'Watch the leakage',
		text: 'Write down time and current.',
		why: 'A capacitor that comes back leaks less and less.',
		power: 'live',
		minutes: 60,
		outcomes: { comes: { label: 'Comes back' }, stalls: { label: 'Does not' } },
		normal: 'comes',
		calculation,
		source: 'common practice'
	});
const known = { plan: samplePlan(), readings: { leakage: 0.00238 } };

describe('the sum of a step', () => {
	const reform = step({
		id: 'reform-progress',
		fill: {
			limit_mA: 1.1,
			V_applied: 350,
			V_working: 350,
			series_min_mA: [
				{ t_min: 60, I_mA: 2.45 },
				{ t_min: 90, I_mA: 2.4 },
				{ t_min: 120, I_mA: 'reading of leakage' }
			]
		},
		outcome: { 'stalled: replace': 'stalls', passes: 'comes' }
	});

	test('a series with the latest reading in its last row gives a verdict, and the verdict an outcome', () => {
		const sum = calculateAtStep('watch', reform, known);
		expect(sum?.answer.ok && sum.answer.given['series_min_mA']).toContain('2 h, 2.38 mA');
		expect(sum?.answer.ok && sum.answer.verdict).toBe('stalled: replace');
		expect(sum?.filled.from).toEqual({ series_min_mA: 'reading of leakage' });
		expect(sum?.outcome).toBe('stalls');
	});

	test('what is typed goes before what was filled in', () => {
		const falling = {
			series_min_mA: [
				[10, 4],
				[30, 1],
				[60, '0.3 mA']
			]
		};
		const sum = calculateAtStep('watch', reform, known, falling);
		expect(sum?.answer.ok && sum.answer.given['series_min_mA']).toContain('0.3 mA');
		expect(sum?.outcome).toBe('comes');
	});

	test('a cell that is not known yet is asked for, and there is no outcome', () => {
		const sum = calculateAtStep('watch', reform, { ...known, readings: {} });
		const problems = sum && !sum.answer.ok ? sum.answer.problems : [];
		expect(problems[0]?.message).toContain('row 3: I_mA is missing');
		expect(sum?.outcome).toBeUndefined();
	});

	test('a verdict that the step has no outcome for leaves the answer to the restorer', () => {
		const bare = step({ id: 'resistor-drop', fill: { R_ohm: 1200, V: 60, P_rated_W: 4 } });
		const sum = calculateAtStep('watch', bare, known);
		expect(sum?.answer.ok && sum.answer.verdict).toBe('warm');
		expect(sum?.outcome).toBeUndefined();
	});

	test('a step without a sum has none', () => {
		expect(calculateAtStep('watch', step(undefined), known)).toBeUndefined();
	});
});
