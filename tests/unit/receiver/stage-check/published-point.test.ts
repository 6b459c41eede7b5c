import { describe, expect, test } from 'vitest';
import { pointOf } from '../../../../src/lib/receiver/stage-check/index.ts';

describe('the published point of a stage', () => {
	test('the EL84 draws 48 mA and 5.5 mA at 250 V and -7.3 V, by any of its names', () => {
		const point = {
			valve: expect.objectContaining({ anodeCurrent: 0.048, screenCurrent: 0.0055, gridVolts: -7.3 })
		};
		expect(pointOf('EL84', 'output-pentode')).toMatchObject(point);
		expect(pointOf('6bq5', 'output-pentode')).toMatchObject(point);
	});

	test('a screen resistor shared with an EBF80 carries its 1.75 mA beside the 5.45 mA of the ECH81', () => {
		const point = pointOf('ECH81', 'triode-heptode');
		expect(point && 'valve' in point && point.valve.screenCurrent).toBeCloseTo(5.45e-3, 5);
	});

	test('where a sheet gives no oscillator, a usual one stands in and is called so', () => {
		expect(pointOf('ECH81', 'triode-heptode')).not.toHaveProperty('oscillatorUsual');
		expect(pointOf('ECH42', 'triode-heptode')).toMatchObject({ oscillatorUsual: true });
	});

	test('an audio triode is taken at the point next to its real anode volts', () => {
		expect(pointOf('ECC83', 'triode-audio')).toMatchObject({ valve: { anodeVolts: 100 } });
	});

	test.each([
		['EL84', 'rectifier'],
		['EZ80', 'output-pentode'],
		['ECC83', 'if-pentode'],
		['XY99', 'triode-audio']
	] as const)('the %s has none as %s', (type, stage) => {
		expect(pointOf(type, stage)).toBeUndefined();
	});
});
