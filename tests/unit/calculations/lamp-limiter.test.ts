import { describe, expect, test } from 'vitest';
import { picturesOf, runCalculation, calculations } from '../../../src/lib/calculations/index.ts';
import { lampCurrent, lampLight, lampVolts } from '../../../src/lib/calculations/lamp.ts';
import { Dice } from '../../random.ts';

function answerOf(given: Record<string, unknown>) {
	const answer = runCalculation('lamp-limiter', given);
	if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join('; '));
	return answer;
}

const problemOf = (given: Record<string, unknown>): string => {
	const answer = runCalculation('lamp-limiter', given);
	return answer.ok ? '' : (answer.problems[0]?.message ?? '');
};

describe('forward and backward', () => {
	test('the volts that a load should get lead back to that load', () => {
		const dice = new Dice(11);
		let compared = 0;
		for (let i = 0; i < 300; i++) {
			const [W_lamp, V_mains, R_set_ohm] = [
				dice.between(15, 200),
				dice.between(110, 250),
				dice.ratio(50, 5000)
			];
			const { outputs } = answerOf({ W_lamp, V_mains, R_set_ohm });
			const back = answerOf({ W_lamp, V_mains, V_set: outputs['V_set'] }).outputs;
			// So near to dark the lamp tells no current.
			if (back['R_set_ohm'] === undefined) continue;
			expect(Number(back['R_set_ohm']) / R_set_ohm).toBeCloseTo(1, 6);
			compared++;
		}
		expect(compared).toBeGreaterThan(100);
	});

	test('volts of lamp and set add up to the mains, and the set draws less than the plate says', () => {
		const dice = new Dice(12);
		for (let i = 0; i < 100; i++) {
			const [W_lamp, W_set_normal] = [dice.between(25, 200), dice.between(20, 120)];
			const { V_lamp, V_set, P_set_W } = answerOf({ W_lamp, V_mains: 230, W_set_normal }).outputs;
			expect(Number(V_lamp) + Number(V_set)).toBeCloseTo(230, 6);
			expect(Number(P_set_W)).toBeLessThan(W_set_normal);
		}
	});

	test('an ammeter and a voltmeter at the same set say the same', () => {
		const forward = answerOf({ W_lamp: 60, V_mains: 230, W_set_normal: 45 }).outputs;
		const byAmps = answerOf({ W_lamp: 60, V_mains: 230, I_A: forward['I_A'], W_set_normal: 45 });
		const byLamp = answerOf({ W_lamp: 60, V_mains: 230, V_lamp: forward['V_lamp'], W_set_normal: 45 });
		for (const { outputs, verdict } of [byAmps, byLamp]) {
			expect(outputs['of_plate_pct']).toBeCloseTo(100, 4);
			expect(verdict).toBe('normal');
		}
	});
});

describe('the law of the lamp', () => {
	const lamp = { volts: 230, current: 60 / 230 };

	test('current and volts undo each other', () => {
		for (const volts of [5, 60, 115, 230])
			expect(lampVolts(lamp, lampCurrent(lamp, volts))).toBeCloseTo(volts, 8);
	});

	test('at half its volts a lamp passes two thirds of its current and gives a tenth of its light', () => {
		expect(lampCurrent(lamp, 115) / lamp.current).toBeCloseTo(0.683, 3);
		expect(lampLight(lamp, 115)).toBeCloseTo(0.095, 3);
	});
});

describe('what the lamp says', () => {
	test('a set on nearly the whole mains is open, unless the lamp is far too large for it', () => {
		const seen = { V_mains: 230, V_set: 226, W_set_normal: 25 };
		expect(answerOf({ ...seen, W_lamp: 40 }).verdict).toBe('open');
		expect(answerOf({ ...seen, W_lamp: 200 }).verdict).toBe('lamp-too-large');
	});

	test('near to dark the current is a span, and no watts are made of it', () => {
		const { outputs } = answerOf({ W_lamp: 100, V_mains: 230, V_set: 200 });
		expect(Number(outputs['I_from_A'])).toBeLessThan(Number(outputs['I_to_A']));
		expect(outputs).not.toHaveProperty('W_set_at_full_mains');
	});

	test.each([
		['volts at the set above the mains', { W_lamp: 60, V_mains: 230, V_set: 240 }, 'V_set is above V_mains'],
		[
			'volts on the lamp above the mains',
			{ W_lamp: 60, V_mains: 230, V_lamp: 240 },
			'V_lamp is above V_mains'
		],
		[
			'more current than the lamp passes',
			{ W_lamp: 60, V_mains: 230, I_A: 0.4 },
			'more than this lamp passes'
		],
		[
			'times that run backwards',
			{
				W_lamp: 60,
				V_mains: 230,
				series_min_V: [
					[1, 100],
					[0.5, 120]
				]
			},
			'each time must be later'
		]
	])('%s are refused', (_, given, part) => {
		expect(problemOf(given)).toContain(part);
	});

	test('the picture marks the point where lamp and set agree', () => {
		const given = { W_lamp: 60, V_mains: 230, W_set_normal: 40 };
		const [picture] = picturesOf(calculations['lamp-limiter'], given);
		const { V_set, I_A } = answerOf(given).outputs;
		expect(picture?.marks?.[0]?.x).toBeCloseTo(Number(V_set), 6);
		expect(picture?.marks?.[0]?.y).toBeCloseTo(Number(I_A), 9);
		expect(picture?.curves.map(({ label }) => label)).toEqual(['lamp', 'set by its plate']);
	});
});
