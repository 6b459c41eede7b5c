import { describe, expect, test } from 'vitest';
import { runCalculation } from '../../../src/lib/calculations/index.ts';

function answerOf(id: string, given: Record<string, unknown>) {
	const answer = runCalculation(id, given);
	if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join('; '));
	return answer;
}

describe('the tolerance of meter and part is carried to the result', () => {
	test('5 % of the resistor and 2 % of the meter make 7 % of the current and 9 % of the heat', () => {
		const { spreads = {} } = answerOf('resistor-drop', { R_ohm: '1k ±5%', V: '100 ±2 %' });
		expect(spreads['I_A']).toBeCloseTo(0.1 * 0.07, 4);
		expect(spreads['P_W']).toBeCloseTo(10 * 0.09, 2);
	});

	test('the sentence gives the result with its ±', () => {
		expect(answerOf('resistor-drop', { R_ohm: '1k2 +-10', V: 60 }).sentence).toContain('50 ± 5.1 mA flows');
	});

	test('exact values have no ±', () => {
		const answer = answerOf('resistor-drop', { R_ohm: 1200, V: 60 });
		expect(answer).not.toHaveProperty('spreads');
		expect(answer.sentence).not.toContain('±');
	});

	test('a result that the tolerance does not reach has none', () => {
		const { spreads } = answerOf('resistor-drop', { R_ohm: 1200, V: '60 ±5%', P_rated_W: 4 });
		expect(spreads).not.toHaveProperty('I_max_A');
	});

	test('a part near its rating may be overloaded within the tolerance of its resistance', () => {
		const near = answerOf('resistor-drop', { R_ohm: '1k2 ±10%', V: 67, P_rated_W: 4 });
		expect([near.verdict, near.mayBe]).toEqual(['warm', ['overloaded']]);
		expect(near.sentence).toContain('may as well be “Overloaded”');
		expect(answerOf('resistor-drop', { R_ohm: '1k2 ±10%', V: 58, P_rated_W: 4 })).not.toHaveProperty('mayBe');
	});

	test('a spread that spans a whole band tells the band inside as well', () => {
		const { mayBe } = answerOf('grid-leakage', { V_grid: '0.6 ±80%', R_grid_ohm: '1M ±80%' });
		expect(mayBe).toEqual(['watch']);
	});

	test('a finding in words is doubted too: behind a lamp, 5 % of the meter are normal or too much', () => {
		const lamp = { W_lamp: 60, V_mains: 230, W_set_normal: 45 };
		const sure = answerOf('lamp-limiter', { ...lamp, V_set: '150 ±1 %' });
		expect([sure.verdict, sure.mayBe]).toEqual(['normal', undefined]);
		const doubtful = answerOf('lamp-limiter', { ...lamp, V_set: '144 ±5 %' });
		expect([doubtful.verdict, doubtful.mayBe]).toEqual(['normal', ['watch']]);
		expect(doubtful.sentence).toContain('may as well be');
	});

	test('what the tolerance would make impossible is not counted', () => {
		const { verdict, spreads } = answerOf('grid-leakage', {
			V_feed: '20 ±10 %',
			V_grid: 19,
			R_grid_ohm: 1e6
		});
		expect(verdict).toBe('switch-off');
		expect(Number(spreads?.['R_leak_ohm'])).toBeGreaterThan(0);
	});

	test('megahertz in give megahertz of ±', () => {
		const { outputs, spreads = {} } = answerOf('dial-frequencies', {
			f_signal_MHz: '98 ±1 %',
			IF_MHz: 10.7
		});
		expect(outputs).toHaveProperty('f_osc_MHz');
		expect(spreads['f_osc_MHz']).toBeCloseTo(0.98, 6);
	});

	test('each entry of a list has its own', () => {
		const { spreads = {} } = answerOf('resistor-drop', { R_ohm: ['1k ±10%', '1k ±5%'], V: 10 });
		const [ten, five] = spreads['I_A'] as number[];
		expect(ten).toBeCloseTo(0.00101, 5);
		expect(five).toBeCloseTo(0.0005, 5);
	});

	test.each(['1k ±', '1k ±x', '1k ±200%', '1k ±-5'])('%s is refused', (R_ohm) => {
		const refusal = runCalculation('resistor-drop', { R_ohm, V: 1 });
		expect(refusal.ok ? '' : refusal.problems[0]?.message).toContain('0 to 80 per cent');
	});
});
