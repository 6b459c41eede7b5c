import { describe, expect, test } from 'vitest';
import { fits, TRAIT_NAMES, TRAITS } from '../../../src/lib/receiver/index.ts';

const AC_DC = { chassis: 'live', heaters: 'series', mains: 'none' };

describe('what fits a set', () => {
	test('without filters everything fits every set', () => {
		expect(fits(AC_DC)).toBe(true);
		expect(fits({})).toBe(true);
	});

	test.each([
		[{ chassis: ['live'] }, {}, true],
		[{ chassis: ['isolated'] }, {}, false],
		[{ chassis: ['isolated', 'live'] }, {}, true],
		[{ chassis: ['live'], heaters: ['parallel'] }, {}, false],
		[{ chassis: ['live'], heaters: ['series'] }, {}, true],
		[{}, { heaters: ['series'] }, false],
		[{}, { heaters: ['parallel'] }, true],
		[{}, { heaters: ['parallel'], chassis: ['live'] }, false],
		[{ chassis: ['live'] }, { heaters: ['series'] }, false],
		[{ chassis: [] }, {}, false],
		[{ chassis: undefined }, { chassis: undefined }, true]
	])('only %j, never %j on an AC/DC set: %s', (only, never, fit) => {
		expect(fits(AC_DC, only, never)).toBe(fit);
	});

	test('a trait that nobody stated excludes nothing', () => {
		expect(fits(AC_DC, { rectifier: ['selenium'] })).toBe(true);
		expect(fits(AC_DC, {}, { rectifier: ['selenium'] })).toBe(true);
		expect(fits({ chassis: undefined }, { chassis: ['live'] })).toBe(true);
	});

	test('every trait has two values or more, each its own', () => {
		for (const name of TRAIT_NAMES) {
			expect(TRAITS[name].length, name).toBeGreaterThan(1);
			expect(new Set(TRAITS[name]).size, name).toBe(TRAITS[name].length);
		}
	});
});
