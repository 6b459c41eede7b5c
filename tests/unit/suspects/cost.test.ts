import { describe, expect, test } from 'vitest';
import { POWER_SWITCHING, checkMinutes } from '../../../src/lib/suspects/index.ts';

describe('minutes of a check', () => {
	test('a live check from the unplugged state costs four minutes more', () => {
		expect(checkMinutes({ minutes: 3, power: 'live' }, 'unplugged', POWER_SWITCHING)).toBe(7);
		expect(checkMinutes({ minutes: 3, power: 'live' }, 'live', POWER_SWITCHING)).toBe(3);
	});

	test('lifting a capacitor before a live reading costs both switches', () => {
		const lifted = { minutes: 5, prepare: 'unplugged', power: 'live' } as const;
		expect(checkMinutes(lifted, 'live', POWER_SWITCHING)).toBe(3 + 4 + 5);
	});

	test('an instrument that is not yet on the bench costs its setting up', () => {
		expect(checkMinutes({ minutes: 2, power: 'live', setUp: 6 }, 'limiter', POWER_SWITCHING)).toBe(9);
	});
});
