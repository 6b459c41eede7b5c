import { describe, expect, test } from 'vitest';
import type { Finding } from '../../../src/lib/flow/finding.ts';
import { main as cases } from '../../../src/tools/cases.ts';
import { checkFiles } from '../../../src/tools/flow-check.ts';
import { main } from '../../../src/tools/flow.ts';
import { sampleFiles } from '../checks/sample.ts';

function listening() {
	const said = { out: '', err: '' };
	return {
		said,
		io: { out: (text: string) => void (said.out += text), err: (text: string) => void (said.err += text) }
	};
}
const codes = (findings: readonly Finding[]) =>
	findings.map(({ code }) => code).filter((code) => code !== 'editor-line-missing');

describe('flow -- check', () => {
	test('of the flow that is named it tells, and of no other', () => {
		const files = sampleFiles('todo');
		expect(codes(checkFiles(files, ['flows/second-flow.yaml']).findings)).toEqual(['todo', 'todo']);
		expect(codes(checkFiles(files, ['flows/flow.yaml']).findings)).toEqual([]);
	});

	test('a shared file that cannot be read is told whatever flow is named, for it stops the reading', () => {
		const broken = { path: 'flows/shared/steps/more-steps.yaml', text: 'steps: []\n' };
		const { findings } = checkFiles([...sampleFiles(), broken], ['flows/flow.yaml']);
		expect(findings.filter(({ level }) => level === 'error').map(({ file }) => file)).toEqual([broken.path]);
	});

	test('a flow that another leads to need not be read to be known', () => {
		const files = sampleFiles('own-id-twice');
		expect(codes(checkFiles(files, ['flows/third-flow.yaml']).findings)).toEqual([]);
		expect(codes(checkFiles(files, []).findings)).toContain('own-id-twice');
	});

	test('a complaint on the list of wanted flows whose flow is not there is an error', () => {
		const list = {
			path: 'flows/shared/symptoms.yaml',
			text: "symptoms:\n  hums: {title: 'It hums', flow: hums}\n"
		};
		expect(checkFiles([...sampleFiles(), list], []).findings).toContainEqual(
			expect.objectContaining({ code: 'unknown-name', level: 'error', file: list.path, line: 2, column: 34 })
		);
	});

	test('a file that is not there is said, with exit code 2', async () => {
		const { said, io } = listening();
		expect(await main(['check', 'flows/no-such.yaml'], io)).toBe(2);
		expect(said.err).toContain('flows/no-such.yaml');
	});
});

test('a version that git does not know is said, with exit code 1', () => {
	const { said, io } = listening();
	expect(cases(io, ['--against', 'no-such-version'])).toBe(1);
	expect(said.err).toContain('"no-such-version" is no version that git knows here');
});
