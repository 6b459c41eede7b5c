import { describe, expect, test } from 'vitest';
import { CHECKS } from '../../../src/lib/flow/checks/index.ts';
import { MAX_BYTES } from '../../../src/lib/flow/document.ts';
import { printFinding, sortFindings, type Finding } from '../../../src/lib/flow/finding.ts';
import { loadLibrary } from '../../../src/lib/flow/load.ts';
import { parseWhen } from '../../../src/lib/flow/when.ts';
import { expectedIn, loadSample, sampleFiles, sampleNames } from './sample.ts';

/** What the loader itself complains of, before any check runs. `too-large` is made in code below. */
const LOADER = [
	'schema',
	'unknown-key',
	'not-yaml',
	'alias',
	'twice',
	'changes-shared',
	'source-missing',
	'stray-file',
	'plan'
];

const findingsOf = (name: string): Finding[] => {
	const result = loadSample(name);
	return result.ok ? result.advice : result.findings;
};

describe('the small library that all samples build on', () => {
	test('is sound', () => {
		expect(loadSample()).toMatchObject({ ok: true, advice: [] });
	});

	test('holds the flow, the plan and the parts that its files name', () => {
		const result = loadSample();
		const library = result.ok ? result.library : undefined;
		expect(Object.keys(library?.flows ?? {})).toEqual(['distorted']);
		expect(Object.keys(library?.plans ?? {})).toEqual(['small-set']);
		expect(Object.keys(library?.steps ?? {})).toContain('lift-coupling');
	});

	test('reads the same whatever the order of its files', () => {
		const turned = loadLibrary(sampleFiles().reverse());
		expect(turned).toMatchObject({ ok: true, advice: [] });
	});
});

describe('samples', () => {
	test.each(CHECKS.map(({ code }) => code))('the check %s has a sample in which it speaks', (code) => {
		expect(sampleNames()).toContain(code);
		expect(expectedIn(code).map((finding) => finding.code)).toContain(code);
	});

	test.each(LOADER)('the loader says %s in a sample of that name', (code) => {
		expect(sampleNames()).toContain(code);
		expect(expectedIn(code).map((finding) => finding.code)).toContain(code);
	});

	test('no sample waits for a code that nothing gives', () => {
		const known = [...CHECKS.map(({ code }) => code), ...LOADER];
		const codes = sampleNames().flatMap((name) => expectedIn(name).map(({ code }) => code));
		expect(codes.filter((code) => !known.includes(code))).toEqual([]);
	});

	test('every finding names a remedy, in trade words', { timeout: 60_000 }, () => {
		for (const finding of sampleNames().flatMap(findingsOf)) {
			expect(finding.remedy, finding.message).toMatch(/^[A-Z].*\S$/s);
			expect(finding.message).toMatch(/^["A-Z].*\S$/s);
			expect(printFinding(finding)).not.toMatch(/\binvalid\b|please|oops|undefined|\[object/i);
		}
	});

	test('a range that a remedy gives can be read', () => {
		const remedies = ['outcomes-leave-a-gap', 'outcomes-leave-a-gap-between'].flatMap(findingsOf);
		for (const { remedy } of remedies) {
			const range = /when: "(.*)"$/.exec(remedy)?.[1];
			expect(parseWhen(range ?? ''), remedy).toMatchObject({ ok: true });
		}
	});
});

describe('the checks', () => {
	test('each has a code of its own and says what it is for', () => {
		expect(new Set(CHECKS.map(({ code }) => code)).size).toBe(CHECKS.length);
		for (const { code, description } of CHECKS) {
			expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
			expect(description).toMatch(/^[A-Z].*\.$/);
		}
	});

	test('a file over a megabyte is refused unread', () => {
		const files = sampleFiles();
		const large = { path: 'flows/large.yaml', text: `# ${'x'.repeat(MAX_BYTES)}\n: [` };
		const result = loadLibrary([...files, large]);
		expect(result).toMatchObject({
			ok: false,
			findings: [{ code: 'too-large', file: 'flows/large.yaml', line: 1, column: 1 }]
		});
	});

	test('faults in several files are reported together, by file and line', () => {
		const result = loadLibrary([
			{ path: 'flows/shared/steps/b.yaml', text: 'steps: []\n' },
			{ path: 'flows/shared/steps/a.yaml', text: 'steps:\n  one: 1\n  two: 2\n' }
		]);
		const places = result.ok ? [] : result.findings.map(({ file, line }) => `${file}:${line}`);
		expect(places).toEqual([
			'flows/shared/steps/a.yaml:2',
			'flows/shared/steps/a.yaml:3',
			'flows/shared/steps/b.yaml:1'
		]);
	});

	test('a finding prints as place, code, sentence and remedy', () => {
		const [finding] = findingsOf('outcomes-leave-a-gap');
		expect(finding && printFinding(finding)).toBe(
			[
				'flows/shared/steps/more-steps.yaml:12:5  outcomes-leave-a-gap',
				'  "output-grid-volts-cold" says nothing about readings below -0.1 V.',
				'  Add an outcome with  when: "< -0.1 V"'
			].join('\n')
		);
	});

	test('advice is marked as such and does not stop a library', () => {
		const advice: Finding = {
			code: 'splits-badly',
			level: 'advice',
			file: 'flows/a.yaml',
			line: 2,
			column: 1,
			message: 'The first question tells little.',
			remedy: 'Ask another first.'
		};
		expect(printFinding(advice)).toContain('flows/a.yaml:2:1  advice: splits-badly');
		expect(sortFindings([advice, { ...advice, line: 1 }]).map(({ line }) => line)).toEqual([1, 2]);
	});
});
