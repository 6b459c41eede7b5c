import { describe, expect, test } from 'vitest';
import { runCalculation } from '../../../src/lib/calculations/index.ts';
import { Dice } from '../../random.ts';

function answerOf(id: string, given: Record<string, unknown>) {
	const answer = runCalculation(id, given);
	if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join('; '));
	return answer;
}

describe('sums that undo each other', () => {
	const dice = new Dice(7);
	const between = (from: number, to: number) => dice.between(from, to);

	test('the leak that can be borne lifts the grid by just the volts allowed', () => {
		for (let i = 0; i < 200; i++) {
			const [V_feed, V_allowed, R_grid_ohm] = [between(50, 500), between(0.05, 5), between(1e5, 1e7)];
			const limit = answerOf('grid-leakage', { V_feed, V_allowed, R_grid_ohm }).outputs['R_leak_min_ohm'];
			const { outputs } = answerOf('grid-leakage', { V_feed, R_leak_ohm: limit, R_grid_ohm });
			expect(outputs['V_grid']).toBeCloseTo(V_allowed, 8);
		}
	});

	test('true volts, read, and corrected again are the true volts', () => {
		for (let i = 0; i < 200; i++) {
			const [V_true, R_source_ohm, R_meter_ohm] = [between(-500, 900), between(0, 1e6), between(1e4, 1e7)];
			const { outputs } = answerOf('meter-loading', { V_true, R_source_ohm, R_meter_ohm });
			const back = answerOf('meter-loading', { V_read: outputs['V_read'], R_source_ohm, R_meter_ohm });
			expect(back.outputs['V_true']).toBeCloseTo(V_true, 6);
		}
	});

	test('the resistor wanted for a point gives that point', () => {
		for (let i = 0; i < 200; i++) {
			const [V_k, I_a_A, I_g2_A] = [between(1, 20), between(2e-3, 0.05), between(1e-3, 0.01)];
			const { R_k_ohm } = answerOf('valve-operating-point', { V_k, I_a_A, I_g2_A }).outputs;
			const { outputs } = answerOf('valve-operating-point', { V_k, R_k_ohm, I_g2_A });
			expect(outputs['I_a_A']).toBeCloseTo(I_a_A, 8);
		}
	});
});
