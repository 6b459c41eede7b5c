import { describe, expect, test } from 'vitest';
import { POWER_SWITCHING, checkMinutes } from '../../../src/lib/suspects/index.ts';

describe('what a check costs in time', () => {
	const reading = { minutes: 3, power: 'live' } as const;
	const costs = { switching: POWER_SWITCHING, setUp: { oscilloscope: 2, generator: 3 } };

	test('in the present power state only its own minutes', () =>
		expect(checkMinutes(reading, { power: 'live' }, costs)).toBe(3));

	test('from unplugged the way to full mains too', () =>
		expect(checkMinutes(reading, { power: 'unplugged' }, costs)).toBe(7));

	test('a connection made unplugged pays for both switches', () =>
		expect(checkMinutes({ ...reading, prepare: 'unplugged' }, { power: 'live' }, costs)).toBe(3 + 4 + 3));

	test('each instrument that the check before did not use is set up', () => {
		const check = { ...reading, instruments: ['generator', 'oscilloscope', 'meter'] };
		expect(checkMinutes(check, { power: 'live' }, costs)).toBe(3 + 2 + 3);
		expect(checkMinutes(check, { power: 'live', instruments: ['generator'] }, costs)).toBe(3 + 2);
	});
});
