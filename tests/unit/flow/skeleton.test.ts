import { describe, expect, test } from 'vitest';
import { skeleton, type FlowWish } from '../../../src/lib/flow/skeleton.ts';
import { checkFiles } from '../../../src/tools/flow-check.ts';
import { readFlowFiles } from '../../../src/tools/flow-files.ts';
import { shippedLibrary } from '../../library.ts';

const library = shippedLibrary();
const wish: FlowWish = {
	id: 'weak-and-hums',
	title: 'Weak, and it hums: "both"',
	symptom: { am: 'weak', fm: 'weak' },
	signs: ['hum-at-minimum'],
	bands: [],
	suspects: ['smo-dry', 'cc-leak', 'loudspeaker']
};
const problems = (more: Partial<FlowWish>) => {
	const made = skeleton(library, { ...wish, ...more });
	return made.ok ? [] : made.problems;
};

describe('the skeleton of a new flow', () => {
	test('is one that the checker takes, but for what is marked TODO', { timeout: 120_000 }, () => {
		const made = skeleton(library, wish);
		if (!made.ok) throw new Error(made.problems.join('\n'));
		const file = { path: 'flows/weak-and-hums.yaml', text: made.text };
		const { findings } = checkFiles([...readFlowFiles(process.cwd()), file], [file.path]);
		const errors = findings.filter(({ level }) => level === 'error');
		expect(new Set(errors.map(({ code }) => code))).toEqual(new Set(['todo']));
		expect(findings.map(({ code }) => code)).not.toContain('editor-line-missing');
	});

	test('of a section it names what stands in one place and is not rare', () => {
		const made = skeleton(library, wish);
		const text = made.ok ? made.text : '';
		expect(text).toContain('spk-open:');
		expect(text).not.toContain('  joint:');
	});

	test.each<[string, Partial<FlowWish>, RegExp]>([
		['an id that is taken', { id: 'ht-low' }, /There is a flow "ht-low" already/],
		['an id with a capital', { id: 'Weak' }, /not an id/],
		['a band that no plan has', { symptom: { vhs: 'weak' } }, /no band "vhs"/],
		['a word that nobody hears', { symptom: { am: 'purple' } }, /"purple"/],
		['a sign that is not on the list', { signs: ['glows'] }, /no sign "glows"/],
		[
			'a suspect that is not there',
			{ suspects: ['cc-leek'] },
			/no suspect, family or section "cc-leek".*cc-leak/
		],
		['nothing that leads to it', { symptom: {}, signs: [] }, /Nothing leads to this flow/],
		['no suspect at all', { suspects: [] }, /No suspect is named/]
	])('%s is told, with what to write instead', (_, more, said) => {
		expect(problems(more).join('\n')).toMatch(said);
	});
});
