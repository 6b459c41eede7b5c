import type { OwnJobs } from '../flow/own-jobs.ts';
import type { JobRow } from './row.ts';
import type { CauseFact } from './row-facts.ts';

/**
 * What the restorer's own closed jobs have taught, from the rows of the list: no job has to be played for it. A cause
 * counts where the job is closed, its change cured, and the part that came out was bad, or was not tested. A part that
 * was good was no cause.
 */

export interface OwnCause extends CauseFact {
	job: string;
}

/** The causes of closed jobs; a job with two faults has two. */
export function causesIn(rows: readonly JobRow[]): OwnCause[] {
	return rows
		.filter(({ closed }) => closed)
		.flatMap(({ job, facts }) => {
			const causes = facts.filter((fact) => fact.kind === 'cause' && fact.was !== 'good') as CauseFact[];
			// A part that was mended twice is one cause.
			const last = new Map(causes.map((cause) => [`${cause.flow} ${cause.suspect}`, cause]));
			return [...last.values()].map((cause): OwnCause => ({ ...cause, job }));
		});
}

const counted = (causes: readonly OwnCause[]): Record<string, number> => {
	const counts = new Map<string, number>();
	for (const { suspect } of causes) counts.set(suspect, (counts.get(suspect) ?? 0) + 1);
	return Object.fromEntries([...counts].sort(([a], [b]) => a.localeCompare(b)));
};

/** What own jobs say of one complaint; `except` is the job that asks. */
export function ownJobsFor(rows: readonly JobRow[], flow: string, except?: string): OwnJobs {
	const causes = causesIn(rows).filter((cause) => cause.flow === flow && cause.job !== except);
	return {
		proved: counted(causes.filter(({ was }) => was === 'bad')),
		untested: counted(causes.filter(({ was }) => was !== 'bad'))
	};
}

/** The kind of part behind a suspect, wherever it stands: `socket` of `socket@mixer`. */
export const familyOf = (suspect: string): string => suspect.split('@')[0] ?? suspect;

/** One cause of a complaint, all its places together. */
export interface TallyCause {
	family: string;
	/** Suspects by place, the commonest first. */
	places: string[];
	proved: number;
	untested: number;
	/** Minutes at the bench up to its cure: the middle one, the least, the most. */
	minutes: { middle: number; from: number; to: number };
}

export interface TallyFlow {
	flow: string;
	/** Closed jobs with this complaint and a cause. */
	jobs: number;
	causes: TallyCause[];
	/** The jobs behind it, the latest first. */
	of: string[];
}

const middle = (sorted: readonly number[]): number => {
	const half = sorted.length / 2;
	return ((sorted[Math.floor(half)] ?? 0) + (sorted[Math.ceil(half) - 1] ?? 0)) / 2;
};

function tallyCause(family: string, causes: readonly OwnCause[]): TallyCause {
	const minutes = causes.map((cause) => cause.minutes).sort((a, b) => a - b);
	const places = Object.entries(counted(causes)).sort(([, a], [, b]) => b - a);
	return {
		family,
		places: places.map(([suspect]) => suspect),
		proved: causes.filter(({ was }) => was === 'bad').length,
		untested: causes.filter(({ was }) => was !== 'bad').length,
		minutes: { middle: Math.round(middle(minutes)), from: minutes[0] ?? 0, to: minutes.at(-1) ?? 0 }
	};
}

function groupBy<Item>(items: readonly Item[], keyOf: (item: Item) => string): [string, Item[]][] {
	const groups = new Map<string, Item[]>();
	for (const item of items) {
		const group = groups.get(keyOf(item));
		if (group) group.push(item);
		else groups.set(keyOf(item), [item]);
	}
	return [...groups];
}

const bySize = (a: { jobs: number; flow: string }, b: { jobs: number; flow: string }) =>
	b.jobs - a.jobs || a.flow.localeCompare(b.flow);

/** Causes by complaint and kind of part, the commonest first. @param rows the latest first, as the list has them */
export function tallyOf(rows: readonly JobRow[]): TallyFlow[] {
	const flows = groupBy(causesIn(rows), ({ flow }) => flow);
	return flows
		.map(([flow, causes]) => ({
			flow,
			jobs: new Set(causes.map(({ job }) => job)).size,
			of: [...new Set(causes.map(({ job }) => job))],
			causes: groupBy(causes, ({ suspect }) => familyOf(suspect))
				.map(([family, some]) => tallyCause(family, some))
				.sort((a, b) => b.proved + b.untested - a.proved - a.untested || a.family.localeCompare(b.family))
		}))
		.sort(bySize);
}
