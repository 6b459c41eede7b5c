import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { printFinding } from '../lib/flow/finding.ts';
import { loadLibrary } from '../lib/flow/load.ts';
import { readCase } from '../lib/job/case.ts';
import { playAll, report } from '../lib/job/play.ts';
import { processIo, type Io } from './io.ts';
import { readFlowFiles } from './flow-files.ts';
import { openLibrary } from './library.ts';

const USAGE = `usage: npm run -s flow -- check
       npm run -s flow -- play CASE.yaml`;

const count = (n: number, one: string) => `${n} ${one}${n === 1 ? '' : 's'}`;

function check(root: string, io: Io): number {
	const result = loadLibrary(readFlowFiles(root));
	const findings = result.ok ? result.advice : result.findings;
	for (const finding of findings) io.out(`${printFinding(finding)}\n`);
	if (!result.ok) return (io.err(count(findings.length, 'finding')), 1);
	const { flows, steps, suspects, plans } = result.library;
	const sizes = [count(Object.keys(flows).length, 'flow'), count(Object.keys(plans).length, 'plan')];
	const shared = [
		count(Object.keys(steps).length, 'shared step'),
		count(Object.keys(suspects).length, 'shared suspect')
	];
	return (io.out(`${[...sizes, ...shared].join(', ')}: nothing to mend`), 0);
}

function readText(file: string, io: Io): string | undefined {
	try {
		return readFileSync(file, 'utf8');
	} catch {
		io.err(`${file}: there is no such file, or it cannot be read.`);
		return undefined;
	}
}

function play(root: string, file: string, io: Io): number {
	const text = readText(file, io);
	if (text === undefined) return 2;
	const read = readCase(file, text);
	if (!read.ok) return (io.err(read.findings.map(printFinding).join('\n\n')), 2);
	const library = openLibrary(root, io);
	if (!library) return 1;
	const result = playAll(library, read.case);
	if (!result.ok) {
		const { path, message, remedy } = result.problem;
		io.err(
			printFinding({ code: 'case', level: 'error', file, ...read.document.locate(path), message, remedy })
		);
		return 2;
	}
	return (io.out(JSON.stringify(report(result.play), null, '\t')), 0);
}

/** Returns the exit code: 0, 1 for a library with errors, 2 for what was asked wrongly. */
export function main(argv: readonly string[], io: Io, root = process.cwd()): number {
	const [command, file, ...rest] = argv;
	if (command === 'check' && file === undefined) return check(root, io);
	if (command === 'play' && file !== undefined && rest.length === 0) return play(root, file, io);
	return (io.err(USAGE), 2);
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
	process.exitCode = main(process.argv.slice(2), processIo);
