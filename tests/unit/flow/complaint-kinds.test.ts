import { expect, test } from 'vitest';
import { byKind, complaintKind } from '../../../src/lib/flow/complaint-kinds.ts';
import { shippedLibrary } from '../../library.ts';

const complaints = Object.values(shippedLibrary().flows).filter(({ procedure }) => !procedure);
const groups = byKind(complaints, complaintKind);

test('every complaint stands in one group, by title', () => {
	const all = groups.flatMap((group) => group.complaints.map(({ id }) => id));
	expect([...all].sort()).toEqual(complaints.map(({ id }) => id).sort());
	for (const { complaints: these } of groups) {
		const titles = these.map(({ title }) => title);
		expect(titles).toEqual([...titles].sort((one, other) => one.localeCompare(other)));
	}
});

test('a sign says how a complaint is noticed; without one the bands do', () => {
	const of = (id: string) => groups.find((group) => group.complaints.some((one) => one.id === id))?.title;
	expect(of('weak-on-am-fine-on-fm')).toBe('By what each band does');
	expect(of('dead-and-dark')).toBe('Light, heat, smell and meter');
	expect(of('motorboats')).toBe('By ear');
	expect(of('drifts-as-it-warms')).toBe('At the dial');
	expect(of('worse-since-work')).toBe('What went before');
});
