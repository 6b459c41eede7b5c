import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { editorLine, editorLineFindings } from '../../../src/lib/flow/editor-line.ts';
import { jsonSchemas } from '../../../src/lib/job/json-schemas.ts';
import { readFlowFiles } from '../../../src/tools/flow-files.ts';
import { SCHEMA_FOLDER } from '../../../src/tools/schemas.ts';

const caseFiles = readdirSync('tests/cases')
	.filter((name) => name.endsWith('.yaml'))
	.map((name) => ({ path: `tests/cases/${name}`, text: readFileSync(`tests/cases/${name}`, 'utf8') }));
const files = [...readFlowFiles(process.cwd()), ...caseFiles];

describe('the JSON Schemas for editors', () => {
	test.each(Object.entries(jsonSchemas()))(
		'%s is as the loader has it now (npm run -s flow -- schemas)',
		(name, schema) => {
			const written: unknown = JSON.parse(readFileSync(`${SCHEMA_FOLDER}/${name}.json`, 'utf8'));
			expect(written).toEqual(JSON.parse(JSON.stringify(schema)));
		}
	);

	test('none is left over', () => {
		const written = readdirSync(SCHEMA_FOLDER).map((file) => file.replace(/\.json$/, ''));
		expect(written.sort()).toEqual(Object.keys(jsonSchemas()).sort());
	});

	test('a flow of a step with a kind that there is not is refused by its schema', () => {
		const text = JSON.stringify(jsonSchemas()['steps']);
		for (const kind of ['measure', 'observe', 'adjust', 'listen', 'inject', 'trace'])
			expect(text).toContain(`"const":"${kind}"`);
		expect(text).not.toContain('"const":"guess"');
	});
});

describe('the first line of each file', () => {
	test('leads from the file to a schema that is there', () => {
		for (const { path } of files) {
			const schema = /\$schema=(\S+)$/.exec(editorLine(path) ?? '')?.[1];
			expect(schema, path).toBeDefined();
			expect(existsSync(join(dirname(path), schema ?? '')), path).toBe(true);
		}
	});

	test('names it in every flow, shared file and case', () => {
		expect(editorLineFindings(files)).toEqual([]);
	});

	test('is asked for where it is missing', () => {
		expect(
			editorLineFindings([{ path: 'flows/shared/steps/a.yaml', text: '# A note.\nsteps: {}\n' }])
		).toMatchObject([
			{
				code: 'editor-line-missing',
				level: 'advice',
				line: 1,
				remedy: expect.stringContaining('$schema=../../../static/schemas/steps.json') as string
			}
		]);
	});
});
