import { describe, expect, test } from 'vitest';
import { whereIs } from '../../../src/lib/flow/where.ts';
import { shippedLibrary } from '../../library.ts';

const plans = shippedLibrary().plans;

describe('where to put the prod', () => {
	test("the grid of an EL84 is pin 2: the maker's sheet was read", () => {
		expect(whereIs(plans['am-fm-shared']!, 'output.grid')).toMatchObject({
			pin: expect.stringMatching(/^EL84, pin 2\b/),
			base: { valve: 'EL84', base: 'B9A', pins: [2], ht: [7, 9] }
		});
	});

	test('a 50C5 names no pin: its evidence is too weak', () => {
		const where = whereIs(plans['am-acdc-five']!, 'output.grid');
		expect(where?.pin).toBeUndefined();
		expect(where?.base).toBeUndefined();
		expect(where?.advice).toMatch(/^50C5: .*maker's sheet/);
	});

	test('a point without a valve has a name only', () => {
		expect(whereIs(plans['am-fm-shared']!, 'aerial.socket')).toEqual({ title: 'AM aerial socket' });
	});

	test.each(Object.values(plans))('$id: every electrode named is one that its valve has', (plan) => {
		for (const [id, point] of Object.entries(plan.points)) {
			const where = whereIs(plan, id);
			if (point.electrode) expect(where?.pin ?? where?.advice, id).toMatch(/pin|maker's sheet/);
		}
	});
});
