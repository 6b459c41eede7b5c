import { describe, expect, test } from 'vitest';
import { loadBeside } from '../../../src/lib/flow/load.ts';
import { sampleFiles } from '../checks/sample.ts';
import { sampleLibrary } from './small.ts';

const PATH = 'flows/flow.yaml';
const FLOW = sampleFiles().find(({ path }) => path === PATH)?.text ?? '';
const beside = (text: string, path = PATH) => loadBeside(sampleLibrary(), [{ path, text }]);
const codes = (text: string) => {
	const result = beside(text);
	return result.ok ? [] : result.findings.map(({ code, file, line }) => `${file}:${line} ${code}`);
};

describe('a file beside a sound library', () => {
	test('a flow that holds together stands in the library, in place of one with its id', () => {
		const result = beside(FLOW.replace('Distorted on all bands', 'My own'));
		expect(result.ok && result.library.flows['distorted']?.title).toBe('My own');
	});

	test('the library that it was read beside is left as it was', () => {
		const library = sampleLibrary();
		const before = JSON.stringify(library);
		loadBeside(library, [{ path: PATH, text: FLOW.replace('id: distorted', 'id: another') }]);
		expect(JSON.stringify(library)).toBe(before);
	});

	test('it is checked as in the library: a step that is not there is named with its line', () =>
		expect(codes(FLOW.replace('  - lift-coupling', '  - no-such-step'))).toEqual([
			`${PATH}:13 unknown-name`
		]));

	test('shared steps may come with the flow that uses them', () => {
		const steps = sampleFiles().find(({ path }) => path.endsWith('steps/steps.yaml'));
		const one = /^ {2}listen-fm:\n(?: {4}.*\n?)+/m.exec(steps?.text ?? '')?.[0] ?? '';
		const result = loadBeside(sampleLibrary(), [
			{ path: PATH, text: FLOW.replace('  - listen-fm', '  - listen-again') },
			{ path: 'flows/shared/steps/mine.yaml', text: `steps:\n${one.replace('listen-fm', 'listen-again')}` }
		]);
		expect(result.ok && Object.keys(result.library.steps)).toContain('listen-again');
	});
});

describe('a file from a stranger', () => {
	const bomb = Array.from(
		{ length: 9 },
		(_, n) => `a${n + 1}: &a${n + 1} [${'*a'.concat(String(n), ', ').repeat(9)}]`
	);

	test.each([
		['a megabyte', `${FLOW}# ${'x'.repeat(1_000_000)}`, 'too-large'],
		['aliases that multiply', `a0: &a0 x\n${bomb.join('\n')}`, 'alias'],
		['brackets without end', '['.repeat(100_000), 'too-deep'],
		['dashes without end', '- '.repeat(100_000), 'too-deep'],
		['the prototype as a key', `${FLOW}__proto__: {polluted: 1}\n`, 'unknown-key'],
		['the prototype as a suspect', FLOW.replace('cc-leak: common', '__proto__: common'), 'unknown-key'],
		['the prototype as its id', FLOW.replace('id: distorted', 'id: __proto__'), 'schema'],
		[
			'a function of the language as a step',
			FLOW.replace('- lift-coupling', '- constructor'),
			'unknown-name'
		],
		['a tag that would run code', `${FLOW}run: !!js/function "function(){}"\n`, 'unknown-key'],
		['no text at all', '\0\0', 'schema'],
		['anchors by the thousand', '&a '.repeat(2_000), 'not-yaml']
	])('%s is refused with a finding', (_, text, code) => {
		const result = beside(text);
		expect(result.ok ? [] : result.findings.map((finding) => finding.code)).toContain(code);
		expect(result.ok || result.findings.length).toBeLessThan(50);
		expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
	});

	test('a flow called "constructor" is a flow like any other', () => {
		const result = beside(FLOW.replace('id: distorted', 'id: constructor'));
		expect(result.ok && Object.hasOwn(result.library.flows, 'constructor')).toBe(true);
	});
});
