import { describe, expect, test } from 'vitest';
import { MAX_BYTES, readDocument, type SourceDocument } from '../../../src/lib/flow/document.ts';
import type { Finding } from '../../../src/lib/flow/finding.ts';
import { loadLibrary } from '../../../src/lib/flow/load.ts';
import { sampleFiles } from '../checks/sample.ts';

const document = (text: string): SourceDocument => {
	const result = readDocument('flows/a.yaml', text);
	if (!result.ok) throw new Error(JSON.stringify(result.findings));
	return result.document;
};

const refusals = (text: string): Pick<Finding, 'code' | 'line' | 'column'>[] => {
	const result = readDocument('flows/a.yaml', text);
	return result.ok ? [] : result.findings.map(({ code, line, column }) => ({ code, line, column }));
};

const FLOW = `# A comment
id: hum
steps:
  look:
    cautions: [one, two]
    outcomes:
      dark: {label: Dark, next: tap}
    text: >-
      Look
      at it.
  "2nd":
    - first
    - second: here
empty:
`;

describe('where something stands in a file', () => {
	test.each([
		[['id'], false, 2, 5],
		[['id'], true, 2, 1],
		[['steps'], true, 3, 1],
		[['steps', 'look'], false, 5, 5],
		[['steps', 'look'], true, 4, 3],
		[['steps', 'look', 'cautions', 1], false, 5, 21],
		[['steps', 'look', 'outcomes', 'dark', 'next'], false, 7, 33],
		[['steps', 'look', 'outcomes', 'dark', 'next'], true, 7, 27],
		[['steps', 'look', 'text'], false, 8, 11],
		[['steps', '2nd', 1, 'second'], false, 13, 15],
		[['empty'], true, 14, 1]
	] as [PropertyKey[], boolean, number, number][])('%j (key: %s) is at %d:%d', (path, key, line, column) => {
		expect(document(FLOW).locate(path, key)).toEqual({ line, column });
	});

	test.each([
		[['steps', 'look', 'minutes'], 5, 5],
		[['steps', 'look', 'cautions', 7], 5, 15],
		[['steps', 'look', 'cautions', 0, 'deeper'], 5, 16],
		[['nothing', 'at', 'all'], 2, 1],
		[[], 2, 1]
	] as [PropertyKey[], number, number][])(
		'%j is missing, so its nearest parent is named: %d:%d',
		(path, line, column) => {
			expect(document(FLOW).locate(path)).toEqual({ line, column });
		}
	);

	test('an empty file has a first line', () => {
		expect(document('').locate(['id'])).toEqual({ line: 1, column: 1 });
		expect(document('').data).toBeNull();
	});

	test('Windows line ends and a byte-order mark move nothing', () => {
		const windows = document(`\uFEFF${FLOW.replaceAll('\n', '\r\n')}`);
		expect(windows.locate(['steps', 'look', 'outcomes', 'dark'], true)).toEqual({ line: 7, column: 7 });
	});
});

describe('files that are refused', () => {
	test('the same key twice, at the second one', () => {
		expect(refusals('id: one\nsteps:\n  look: 1\n  look: 2\n')).toEqual([
			{ code: 'not-yaml', line: 4, column: 3 }
		]);
	});

	test('an anchor and its alias, each at its place', () => {
		expect(refusals('a: &x [1]\nb: *x\n')).toEqual([
			{ code: 'alias', line: 1, column: 7 },
			{ code: 'alias', line: 2, column: 4 }
		]);
	});

	test('a merge key, which needs an alias', () => {
		expect(refusals('a: &x {b: 1}\nc:\n  <<: *x\n').map(({ code }) => code)).toEqual(['alias', 'alias']);
	});

	test('a thousand million lists out of ten lines are not unfolded', () => {
		const lines = Array.from({ length: 10 }, (_, i) => {
			const inner = i
				? Array(10)
						.fill(`*a${i - 1}`)
						.join(', ')
				: 'x';
			return `a${i}: &a${i} [${inner}]`;
		});
		const codes = new Set(refusals(lines.join('\n')).map(({ code }) => code));
		expect([...codes]).toEqual(['alias']);
	});

	test('text that is no YAML, with a line and a remedy', () => {
		const result = readDocument('flows/a.yaml', 'id: one\nsteps: [a, b\n');
		expect(result).toMatchObject({
			ok: false,
			findings: [{ code: 'not-yaml', level: 'error', file: 'flows/a.yaml' }]
		});
		for (const { line, remedy } of result.ok ? [] : result.findings) {
			expect(line).toBeGreaterThan(1);
			expect(remedy).toContain('Check indentation');
		}
	});

	test('two documents in one file', () => {
		expect(refusals('id: one\n---\nid: two\n').map(({ code }) => code)).toEqual(['not-yaml']);
	});

	test('more than a megabyte, but not a megabyte', () => {
		expect(refusals(`# ${'x'.repeat(MAX_BYTES)}`)).toEqual([{ code: 'too-large', line: 1, column: 1 }]);
		expect(refusals('#'.repeat(MAX_BYTES))).toEqual([]);
	});

	test('a tag runs nothing: what stands behind it stays text', () => {
		expect(document('id: !!js/function "function () { return 1 }"\n').data).toEqual({
			id: 'function () { return 1 }'
		});
	});
});

describe('keys that every object inherits', () => {
	test('"__proto__" is refused and changes no object', () => {
		expect(() => document('__proto__: {polluted: true}\nid: one\n')).toThrow('There is no key');
		expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
	});

	test('"__proto__" and "constructor" as ids leave a library that is refused or sound', () => {
		const text = 'suspects:\n  __proto__: {part: x}\n  constructor: {part: x}\n';
		const result = loadLibrary([...sampleFiles(), { path: 'flows/shared/suspects/more.yaml', text }]);
		expect(result.ok).toBe(false);
		expect(({} as Record<string, unknown>)['part']).toBeUndefined();
	});

	test('a flow that uses the step "constructor" is told that there is none', () => {
		const files = sampleFiles().map(({ path, text }) => ({
			path,
			text: text.replace('- listen-fm', '- constructor')
		}));
		const result = loadLibrary(files);
		expect(result.ok ? [] : result.findings.map(({ message }) => message)).toEqual([
			'There is no step "constructor".'
		]);
	});
});
