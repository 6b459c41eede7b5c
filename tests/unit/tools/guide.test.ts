import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { printFinding } from '../../../src/lib/flow/finding.ts';
import { LIKELIHOODS } from '../../../src/lib/suspects/index.ts';
import { checkFiles } from '../../../src/tools/flow-check.ts';
import { readFlowFiles } from '../../../src/tools/flow-files.ts';
import { GUIDE, guideWith } from '../../../src/tools/guide.ts';

const text = readFileSync(GUIDE, 'utf8');
const files = readFlowFiles(process.cwd());

/** The flows of the guide, each growing out of the one before. */
const snippets = [...text.matchAll(/```yaml\n# (flows\/\S+)\n([\s\S]*?)```/g)].map(
	([, path = '', yaml = '']) => ({
		path,
		text: yaml
	})
);

describe('the guide for authors', () => {
	test('builds one flow up in three steps', () => {
		expect(snippets.map(({ path }) => path)).toEqual(Array(3).fill('flows/faint-but-clean.yaml'));
	});

	test.each(snippets.map((snippet, i) => ({ ...snippet, step: i + 1 })))(
		'its flow of step $step is one that the checker takes',
		{ timeout: 120_000 },
		(snippet) => {
			const { findings, size } = checkFiles([...files, snippet], [snippet.path]);
			const said = findings.filter(({ code }) => code !== 'editor-line-missing').map(printFinding);
			expect(said).toEqual([]);
			expect(size).toMatch(/^1 flow,/);
		}
	);

	test('gives each likelihood word with its figure', () => {
		for (const [word, share] of Object.entries(LIKELIHOODS))
			expect(text).toMatch(new RegExp(`\`${word}\` +\\| ${Math.round(share * 100)} `));
	});

	test('its list of wanted flows is that of today', () => {
		expect(guideWith(text, files)).toBe(text);
	});
});
