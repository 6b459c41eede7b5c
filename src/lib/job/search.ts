import type { Library } from '../flow/library.ts';
import type { JobRow } from './row.ts';
import type { RowFact } from './row-facts.ts';

/**
 * Search over the list of jobs: set, valves, parts, complaint, cause, the words of notes. The rows hold ids and words;
 * the names behind the ids come from the library, once it is there. A plain look through every row: at 5,000 jobs that is
 * faster than an index is built, and finds parts of words.
 */

/** What the ids of rows are called, by id. */
export interface Names {
	plans: ReadonlyMap<string, string>;
	flows: ReadonlyMap<string, string>;
	suspects: ReadonlyMap<string, string>;
	/** Stages and lines, by id: where a suspect stands. */
	places: ReadonlyMap<string, string>;
}

export const noNames: Names = { plans: new Map(), flows: new Map(), suspects: new Map(), places: new Map() };

/** Titles, valve types, parts and failures of a library. */
export function namesOf({ plans, flows, suspects }: Library): Names {
	const own = Object.values(flows).flatMap((flow) => Object.entries(flow.own.suspects));
	return {
		plans: new Map(
			Object.values(plans).map(({ id, title, valves }) => [
				id,
				[title, ...Object.values(valves).flatMap((valve) => [valve.type, valve.title])].join(' ')
			])
		),
		flows: new Map(Object.values(flows).map(({ id, title }) => [id, title])),
		suspects: new Map(
			[...Object.entries(suspects), ...own].map(([id, { part, failure }]) => [id, `${part}: ${failure}`])
		),
		places: new Map(
			Object.values(plans).flatMap(({ stages, lines }) =>
				Object.entries({ ...stages, ...lines }).map(([id, { title }]): [string, string] => [id, title])
			)
		)
	};
}

/** A suspect as it is called; by its id where the library knows it no more. */
export function suspectWords({ suspects, places }: Names, id: string): string {
	const [family = id, place] = id.split('@');
	const name = suspects.get(family) ?? family.replaceAll('-', ' ');
	return place === undefined ? name : `${name} (${places.get(place) ?? place.replaceAll('-', ' ')})`;
}

/** Lower case, without accents: `Röhre` is found by `rohre`. */
export const folded = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

function factWords(fact: RowFact, names: Names): string {
	switch (fact.kind) {
		case 'note':
		case 'valves':
			return fact.text;
		case 'part':
			return `${suspectWords(names, fact.part)} ${fact.text ?? ''}`;
		default:
			return suspectWords(names, fact.suspect);
	}
}

const wordsOf = (row: JobRow, names: Names): string =>
	[
		row.title,
		row.complaint,
		names.plans.get(row.plan) ?? row.plan.replaceAll('-', ' '),
		...row.flows.map((flow) => names.flows.get(flow) ?? flow.replaceAll('-', ' ')),
		...row.facts.map((fact) => factWords(fact, names)),
		...row.leading.map(({ name }) => name),
		row.closed?.result.replace('-', ' ') ?? ''
	].join(' ');

export const SHOWN = {
	all: 'All',
	open: 'Open',
	mended: 'Mended',
	ended: 'Closed, not mended'
} as const;
export type Shown = keyof typeof SHOWN;

export const isShown = ({ closed }: Pick<JobRow, 'closed'>, shown: Shown): boolean => {
	if (shown === 'all') return true;
	if (shown === 'open') return !closed;
	return closed !== undefined && (closed.result === 'mended') === (shown === 'mended');
};

/** The rows of a list made ready for search; a row that has not changed since is not read again. */
export class JobSearch {
	#names: Names = noNames;
	#rows: readonly JobRow[] = [];
	#texts = new Map<string, { key: string; title: string; text: string }>();

	constructor(rows: readonly JobRow[] = [], names: Names = noNames) {
		this.#rows = rows;
		this.#names = names;
	}

	/** The same search over newer rows, or with more names. */
	with(rows: readonly JobRow[], names: Names): JobSearch {
		const next = new JobSearch(rows, names);
		if (names === this.#names) next.#texts = this.#texts;
		return next;
	}

	#textOf(row: JobRow) {
		const key = `${row.events} ${row.described} ${row.updated}`;
		const known = this.#texts.get(row.job);
		if (known?.key === key) return known;
		const made = { key, title: folded(row.title), text: folded(wordsOf(row, this.#names)) };
		this.#texts.set(row.job, made);
		return made;
	}

	/** Jobs that hold every word, those first that hold them in their title; else in the order of the list. */
	find(query: string, shown: Shown = 'all'): JobRow[] {
		const words = folded(query).split(/\s+/).filter(Boolean);
		const rows = this.#rows.filter((row) => isShown(row, shown));
		if (words.length === 0) return rows;
		const found = rows.filter((row) => words.every((word) => this.#textOf(row).text.includes(word)));
		const titled = (row: JobRow) => words.every((word) => this.#textOf(row).title.includes(word));
		return [...found.filter(titled), ...found.filter((row) => !titled(row))];
	}
}
