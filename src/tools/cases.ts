import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { printFinding } from '../lib/flow/finding.ts';
import type { Library } from '../lib/flow/library.ts';
import { readCase, type Case } from '../lib/job/case.ts';
import { scoreCase, type Score } from '../lib/job/score.ts';
import { workThrough } from '../lib/job/work-through.ts';
import { compare, libraryAt } from './cases-against.ts';
import { processIo, type Io } from './io.ts';
import { openLibrary } from './library.ts';

const FOLDER = 'tests/cases';

interface Played {
	file: string;
	case: Case;
	score: Score;
}

function scoreFile(
	library: Library,
	root: string,
	name: string,
	io: Io
): Played | 'outside' | 'procedure' | undefined {
	const file = `${FOLDER}/${name}`;
	const read = readCase(file, readFileSync(join(root, FOLDER, name), 'utf8'));
	if (!read.ok) return (io.err(read.findings.map(printFinding).join('\n\n')), undefined);
	if (read.case.ends !== undefined) return 'procedure';
	const outside = read.case['outside-model'];
	if (outside !== undefined) return (io.out(`${read.case.id.padEnd(34)} not counted: ${outside}`), 'outside');
	const result = scoreCase(library, read.case);
	if (result.ok) return { file, case: read.case, score: result.score };
	const { path, message, remedy } = result.problem;
	io.err(
		printFinding({ code: 'case', level: 'error', file, ...read.document.locate(path), message, remedy })
	);
	return undefined;
}

/** One line of a procedure, and whether it ended as the case tells. */
function workedLine(library: Library, root: string, name: string, io: Io): boolean | undefined {
	const read = readCase(`${FOLDER}/${name}`, readFileSync(join(root, FOLDER, name), 'utf8'));
	if (!read.ok || read.case.ends === undefined) return undefined;
	const result = workThrough(library, read.case);
	if (!result.ok) {
		const { path, message, remedy } = result.problem;
		const file = `${FOLDER}/${name}`;
		io.err(
			printFinding({ code: 'case', level: 'error', file, ...read.document.locate(path), message, remedy })
		);
		return false;
	}
	const { asked, opens, missed, asTold } = result.worked;
	const end = opens ? `led to ${opens}` : 'worked through';
	const never = missed.length ? `, never asked in this order: ${missed.join(', ')}` : '';
	io.out(
		`${read.case.id.padEnd(34)} ${end} after ${asked.length} steps, ${asTold ? 'as told' : 'NOT as told'}${never}`
	);
	return asTold;
}

function line({ case: played, score }: Played): string {
	const leaders = score.leaders
		.map(({ id, probability }) => `${id} ${Math.round(probability * 100)} %`)
		.join(', ');
	const place = score.rank === 0 ? 'absent' : `place ${score.rank}`;
	return `${played.id.padEnd(34)} ${place.padEnd(9)} ${String(score.answered.length)} of ${score.asked.length} asked are told   ${leaders}`;
}

const caseFiles = (root: string): string[] =>
	readdirSync(join(root, FOLDER))
		.filter((name) => name.endsWith('.yaml'))
		.sort();

/** The cases that count, to be played with two libraries; nothing where one cannot be read. */
function countedCases(root: string, io: Io): Case[] | undefined {
	const read = caseFiles(root).map((name) => {
		const file = `${FOLDER}/${name}`;
		return readCase(file, readFileSync(join(root, file), 'utf8'));
	});
	const broken = read.flatMap((one) => (one.ok ? [] : one.findings));
	if (broken.length) return (io.err(broken.map(printFinding).join('\n\n')), undefined);
	return read.flatMap((one) =>
		one.ok && one.case['outside-model'] === undefined && one.case.ends === undefined ? [one.case] : []
	);
}

/** The library of a version and that of today, on all cases. */
function against(root: string, revision: string, io: Io): number {
	const cases = countedCases(root, io);
	const before = cases && libraryAt(root, revision, io);
	const now = before && openLibrary(root, io);
	if (!now) return 1;
	return (compare(before, now, cases, io), 0);
}

/**
 * Play every case in `tests/cases` blind and print where its real cause ends. Exit code 1 where a case cannot be played.
 * `--against REV` compares with the library of another version.
 */
export function main(io: Io, argv: readonly string[] = [], root = process.cwd()): number {
	const [option, revision, ...rest] = argv;
	if (option === '--against' && revision !== undefined && !rest.length) return against(root, revision, io);
	if (option !== undefined) return (io.err('usage: npm run -s cases [-- --against REVISION]'), 2);
	const library = openLibrary(root, io);
	if (!library) return 1;
	const results = caseFiles(root).map((name) => scoreFile(library, root, name, io));
	const played = results.filter((result): result is Played => typeof result === 'object');
	for (const one of played) io.out(line(one));
	const first = (n: number) => played.filter(({ score }) => score.rank > 0 && score.rank <= n).length;
	const sections = played.filter(({ score }) => score.sectionFirst).length;
	io.out(
		`Training score (the library was written with these histories at hand): cause first in ${first(1)}, among the first three in ${first(3)}, its section first in ${sections}, of ${played.length}.`
	);
	const worked = caseFiles(root).flatMap((name) => workedLine(library, root, name, io) ?? []);
	io.out(`Procedures: ${worked.filter(Boolean).length} of ${worked.length} ended as told.`);
	return results.includes(undefined) || worked.includes(false) ? 1 : 0;
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
	process.exitCode = main(processIo, process.argv.slice(2));
