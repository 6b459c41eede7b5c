import { printFinding } from '../lib/flow/finding.ts';
import { readCase } from '../lib/job/case.ts';
import { reportCase } from '../lib/job/play-case.ts';
import type { Io } from './io.ts';
import { openLibrary } from './library.ts';
import { readText } from './read-text.ts';

/** `flow -- play CASE.yaml`: a worked fault through the program, as one object of JSON. */
export function play(root: string, file: string, io: Io): number {
	const text = readText(file, io);
	if (text === undefined) return 2;
	const read = readCase(file, text);
	if (!read.ok) return (io.err(read.findings.map(printFinding).join('\n\n')), 2);
	const library = openLibrary(root, io);
	if (!library) return 1;
	const result = reportCase(library, read.case);
	if (result.ok) return (io.out(JSON.stringify(result.report, null, '\t')), 0);
	const { path, message, remedy } = result.problem;
	io.err(
		printFinding({ code: 'case', level: 'error', file, ...read.document.locate(path), message, remedy })
	);
	return 2;
}
