import { describe, expect, test } from 'vitest';
import { runCalculation } from '../../../src/lib/calculations/index.ts';
import { Dice } from '../../random.ts';

function outputsOf(id: string, given: Record<string, unknown>): Record<string, number> {
	const answer = runCalculation(id, given);
	if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join('; '));
	return answer.outputs as Record<string, number>;
}

const dice = new Dice(15);
const often = (sum: () => void) => Array.from({ length: 100 }).forEach(sum);

describe('sums of tuning and signal that undo each other', () => {
	test('high-pass and low-pass of one pair share the signal out: their squares add to one', () => {
		often(() => {
			const pair = { R_ohm: dice.ratio(100, 1e7), C_uF: dice.ratio(1e-5, 10), f_Hz: dice.ratio(1, 1e5) };
			const [high, low] = ['high-pass', 'low-pass'].map(
				(kind) => outputsOf('time-constant', { ...pair, kind })['ratio'] ?? NaN
			);
			expect((high ?? NaN) ** 2 + (low ?? NaN) ** 2).toBeCloseTo(1, 9);
		});
	});

	test('the load that a ratio makes asks for that ratio', () => {
		often(() => {
			const [ratio, Z_s_ohm] = [dice.ratio(5, 60), dice.ratio(2, 16)];
			const { Z_p_ohm } = outputsOf('output-transformer', { ratio, Z_s_ohm });
			expect(outputsOf('output-transformer', { Z_p_ohm, Z_s_ohm })['ratio']).toBeCloseTo(ratio, 6);
		});
	});

	test('decibels of a product are the sum of decibels', () => {
		often(() => {
			const levels = [dice.ratio(1, 10), dice.ratio(20, 200), dice.ratio(500, 5000)];
			const [first, middle, last] = levels;
			const whole = outputsOf('stage-gain', { level_uV: levels })['dB'] ?? NaN;
			const [one, other] = [
				outputsOf('stage-gain', { level_uV: [first, middle] })['dB'] ?? NaN,
				outputsOf('stage-gain', { level_uV: [middle, last] })['dB'] ?? NaN
			];
			expect(one + other).toBeCloseTo(whole, 8);
		});
	});

	test('the capacitor for a coil and a frequency tunes that coil to that frequency', () => {
		often(() => {
			const [L_uH, f_kHz] = [dice.ratio(1, 3000), dice.ratio(100, 2000)];
			const found = outputsOf('lc-resonance', { L_uH, f_kHz });
			const C_pF = found['C_pF'] ?? 1000 * (found['C_nF'] ?? NaN);
			expect(outputsOf('lc-resonance', { L_uH, C_pF })['f_kHz']).toBeCloseTo(f_kHz, 6);
		});
	});

	test('strays worked out from two readings give both readings back', () => {
		often(() => {
			const [coil, strays] = [dice.ratio(50, 3000), dice.between(5, 80)];
			const at = (added: number) => outputsOf('lc-resonance', { L_uH: coil, C_pF: strays + added })['f_kHz'];
			const [C1_pF, C2_pF] = [dice.between(200, 900), dice.between(0, 100)];
			const found = outputsOf('lc-resonance', { C1_pF, f1_kHz: at(C1_pF), C2_pF, f2_kHz: at(C2_pF) });
			expect(found['C_stray_pF']).toBeCloseTo(strays, 5);
			expect(found['L_uH']).toBeCloseTo(coil, 5);
		});
	});

	test('a metre of lead has 3.28 times what a foot has', () => {
		const { C_pF_per_m, C_for_each_foot_pF } = outputsOf('cable-capacitance', {
			C_pF_per_ft: 20,
			to: 'per metre'
		});
		expect((C_pF_per_m ?? NaN) / (C_for_each_foot_pF ?? NaN)).toBeCloseTo(3.2808, 4);
	});
});

describe('what is refused', () => {
	const problemOf = (id: string, given: Record<string, unknown>) => {
		const answer = runCalculation(id, given);
		return answer.ok ? undefined : answer.problems[0]?.key;
	};

	test.each([
		[
			'a trimmer larger than the whole circuit',
			'tracking',
			{ L_signal_uH: 180, T_signal_pF: 400, IF_kHz: 455, f_kHz: [600, 1000, 1400] },
			'T_signal_pF'
		],
		[
			'points out of order',
			'tracking',
			{ L_signal_uH: 180, T_signal_pF: 35, IF_kHz: 455, f_kHz: [1400, 1000, 600] },
			'f_kHz'
		],
		[
			'a larger capacitor that tunes higher',
			'lc-resonance',
			{ C1_pF: 1000, f1_kHz: 130, C2_pF: 500, f2_kHz: 90 },
			'f2_kHz'
		],
		[
			'a loss that is more than the reactance',
			'lc-resonance',
			{ L_uH: 100, C_pF: 100, R_ohm: 5000 },
			'R_ohm'
		],
		['levels in the wrong order', 'stage-gain', { level_uV: [360000, 25] }, 'level_uV'],
		[
			'a wire thicker than its screen',
			'cable-capacitance',
			{ er: 2.2, D_mm: 1, d_mm: 2, length_m: 1 },
			'd_mm'
		],
		['audio DC above the stabiliser', 'fm-detector', { V_audio_dc: 9, V_stabiliser: 4 }, 'V_audio_dc'],
		['a place off the band', 'fm-detector', { band: 'OIRT', range_MHz: 98 }, 'range_MHz'],
		[
			'a winding off tune without saying which',
			'if-transformer',
			{ f0_kHz: 455, Q: 100, kQ: 1, by_kHz: 5 },
			'detuned'
		],
		[
			'a test from the wrong side',
			'output-transformer',
			{ V_primary_test: 6, V_secondary: 250 },
			'V_secondary'
		]
	])('%s', (_, id, given, key) => {
		expect(problemOf(id, given)).toBe(key);
	});
});
