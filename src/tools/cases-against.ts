import { execFileSync } from 'node:child_process';
import { printFinding } from '../lib/flow/finding.ts';
import type { Library } from '../lib/flow/library.ts';
import { readLibrary, type SourceText } from '../lib/flow/load.ts';
import type { Case } from '../lib/job/case.ts';
import { scoreCase, type Score } from '../lib/job/score.ts';
import type { Io } from './io.ts';

/** What a change of the library does to every worked fault: the same cases, blind, with the library of another version. */

const git = (root: string, args: readonly string[]): string =>
	execFileSync('git', ['-C', root, ...args], {
		encoding: 'utf8',
		maxBuffer: 1 << 26,
		stdio: ['ignore', 'pipe', 'pipe']
	});

/** The library's files as they were in a version, read from the store of git; nothing on disk is touched. */
function filesAt(root: string, revision: string): SourceText[] {
	const paths = git(root, ['ls-tree', '-r', '--name-only', '--end-of-options', revision, 'flows/'])
		.split('\n')
		.filter((path) => path.endsWith('.yaml'));
	return paths.map((path) => ({
		path,
		text: git(root, ['show', '--end-of-options', `${revision}:${path}`])
	}));
}

/** The library of a version, whatever checks have come since. */
export function libraryAt(root: string, revision: string, io: Io): Library | undefined {
	let files: SourceText[];
	try {
		files = filesAt(root, revision);
	} catch {
		io.err(`"${revision}" is no version that git knows here. Name a tag, a branch or a commit.`);
		return undefined;
	}
	if (!files.length) {
		io.err(`"${revision}" has no flows.`);
		return undefined;
	}
	const { library, findings } = readLibrary(files);
	if (!findings.length) return library;
	io.err(`The library of "${revision}" cannot be read by today's program:`);
	io.err(findings.map(printFinding).join('\n\n'));
	return undefined;
}

const place = (score: Score | undefined): string =>
	score === undefined ? 'not playable' : score.rank === 0 ? 'absent' : `place ${score.rank}`;
const minutes = (score: Score | undefined): string => (score ? `${Math.round(score.minutes)} min` : '');

/** Where a place is the same, so is the case for the eye; a place of 0 stands behind all others. */
const rankOf = (score: Score | undefined): number => score?.rank || Infinity;

function verdict(before: Score | undefined, now: Score | undefined): string {
	if (rankOf(now) < rankOf(before)) return 'better';
	if (rankOf(now) > rankOf(before)) return 'WORSE';
	return '';
}

const scoreOf = (library: Library, played: Case): Score | undefined => {
	const result = scoreCase(library, played);
	return result.ok ? result.score : undefined;
};

/** One line a case whose place or minutes differ, and what became of all of them. */
export function compare(before: Library, now: Library, cases: readonly Case[], io: Io): void {
	const rows = cases.map((played) => ({
		id: played.id,
		before: scoreOf(before, played),
		now: scoreOf(now, played)
	}));
	const told = rows.map((row) => ({ ...row, verdict: verdict(row.before, row.now) }));
	const changed = told.filter(
		(row) => row.verdict || place(row.before) !== place(row.now) || minutes(row.before) !== minutes(row.now)
	);
	for (const row of changed)
		io.out(
			[
				row.id.padEnd(34),
				place(row.before).padEnd(13),
				'->',
				place(row.now).padEnd(13),
				minutes(row.before).padStart(8),
				'->',
				minutes(row.now).padStart(8),
				row.verdict
			].join(' ')
		);
	const count = (word: string) => told.filter((row) => row.verdict === word).length;
	const sum = (side: 'before' | 'now') =>
		Math.round(rows.reduce((all, row) => all + (row.before && row.now ? (row[side]?.minutes ?? 0) : 0), 0));
	io.out(
		`${rows.length} cases: ${count('better')} better, ${count('WORSE')} worse, ${changed.length} changed in all; minutes of the answered steps ${sum('before')} -> ${sum('now')} where both can be played.`
	);
}
