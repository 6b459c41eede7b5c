import { describe, expect, test } from 'vitest';
import { LARGEST_GIVEN, MOST_GIVEN, placeOfGiven, takeGiven } from '../../../src/lib/flow/given.ts';

describe('where a given file belongs', () => {
	test.each([
		['hum.yaml', 'id: hum\nsymptom: {all: hum}\n', 'flows/hum.yaml'],
		['My set (2).yml', 'id: set\nstages:\n  a: b\n', 'flows/shared/plans/my-set-2.yaml'],
		['more.yaml', '# a comment\nsteps:\n  a: b\n', 'flows/shared/steps/more.yaml'],
		['parts.yaml', 'suspects:\n  a: b\n', 'flows/shared/suspects/parts.yaml'],
		['flows/shared/steps/output.yaml', 'steps: {}', 'flows/shared/steps/output.yaml'],
		['../../etc/passwd', 'root', 'flows/passwd.yaml'],
		['', '', 'flows/pasted.yaml']
	])('%j goes to its place', (name, text, place) => expect(placeOfGiven({ name, text })).toBe(place));
});

describe('what is taken', () => {
	test('two files of one name keep apart', () => {
		const taken = takeGiven([
			{ name: 'a/hum.yaml', text: 'id: hum' },
			{ name: 'b/hum.yaml', text: 'id: hum-again' }
		]);
		expect(taken.ok && taken.files.map(({ path }) => path)).toEqual(['flows/hum.yaml', 'flows/hum-2.yaml']);
	});

	test('a file beyond 200 kB is named and refused, and so are more than twenty', () => {
		const large = takeGiven([{ name: 'large.yaml', text: 'x'.repeat(LARGEST_GIVEN + 1) }]);
		expect(large).toMatchObject({ ok: false, hint: expect.stringContaining('"large.yaml" is larger') });
		const many = Array.from({ length: MOST_GIVEN + 1 }, (_, n) => ({ name: `${n}.yaml`, text: '' }));
		expect(takeGiven(many)).toMatchObject({ ok: false, hint: expect.stringContaining('at most 20') });
	});
});
