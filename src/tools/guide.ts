import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { printFinding } from '../lib/flow/finding.ts';
import type { SourceText } from '../lib/flow/load.ts';
import { readWanted, wantedList } from '../lib/flow/wanted.ts';
import { readFlowFiles } from './flow-files.ts';
import type { Io } from './io.ts';

export const GUIDE = 'flows/README.md';
const SECTION = /(<!-- made by: npm run -s flow -- guide -->\n)[\s\S]*?(\n<!-- end -->)/;

/** The guide with its list of wanted flows as the library has it now. */
export function guideWith(text: string, files: readonly SourceText[]): string {
	const read = readWanted(files);
	return read.ok
		? text.replace(
				SECTION,
				(_, head: string, foot: string) => `${head}\n${wantedList(read.symptoms)}\n${foot}`
			)
		: text;
}

/** `flow -- guide`: write the list of wanted flows anew. */
export function guide(root: string, io: Io): number {
	const files = readFlowFiles(root);
	const read = readWanted(files);
	for (const finding of read.findings) io.err(printFinding(finding));
	if (read.findings.length) return 1;
	const path = join(root, GUIDE);
	writeFileSync(path, guideWith(readFileSync(path, 'utf8'), files));
	return (io.out(`${GUIDE} is up to date`), 0);
}
