import type { Finding } from './finding.ts';
import type { SourceText } from './load.ts';

/**
 * The first line of each file tells an editor where the JSON Schema of the file is: it then completes keys, shows the
 * words that are allowed and marks what does not fit.
 */

/** Which files have which schema under `static/schemas/`. */
const SCHEMAS: readonly { pattern: RegExp; schema: string }[] = [
	{ pattern: /^flows\/shared\/suspects\/[^/]+\.yaml$/, schema: 'suspects' },
	{ pattern: /^flows\/shared\/steps\/[^/]+\.yaml$/, schema: 'steps' },
	{ pattern: /^flows\/shared\/plans\/[^/]+\.yaml$/, schema: 'plan' },
	{
		pattern: /^flows\/shared\/(cautions|sources|history|symptoms|owner-words|glossary|parts|verdicts)\.yaml$/,
		schema: ''
	},
	{ pattern: /^flows\/[^/]+\.yaml$/, schema: 'flow' },
	{ pattern: /^tests\/cases\/[^/]+\.yaml$/, schema: 'case' }
];

/** The line that belongs at the top of this file; none where the file has no schema. */
export function editorLine(path: string): string | undefined {
	const found = SCHEMAS.find(({ pattern }) => pattern.test(path));
	if (!found) return undefined;
	const schema = found.schema || (found.pattern.exec(path)?.[1] ?? '');
	const up = '../'.repeat(path.split('/').length - 1);
	return `# yaml-language-server: $schema=${up}static/schemas/${schema}.json`;
}

/** Files whose first line does not name their schema. */
export const editorLineFindings = (files: readonly SourceText[]): Finding[] =>
	files.flatMap(({ path, text }): Finding[] => {
		const line = editorLine(path);
		if (line === undefined || text.split(/\r?\n/, 1)[0] === line) return [];
		return [
			{
				code: 'editor-line-missing',
				level: 'advice',
				file: path,
				line: 1,
				column: 1,
				message: 'The first line does not tell an editor which keys and words this file can have.',
				remedy: `Write above everything else:  ${line}`
			}
		];
	});
