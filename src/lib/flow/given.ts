import type { SourceText } from './load.ts';

/** A file as somebody gave it: dropped, chosen or pasted. */
export interface GivenFile {
	name: string;
	text: string;
}

/** Letters in one given file at most. Our own choice: four times the largest file of the library. */
export const LARGEST_GIVEN = 200_000;
/** Given files at one time. Our own choice. */
export const MOST_GIVEN = 20;

/** The tables that a shared file can hold, and where such a file stands. */
const TABLES: Readonly<Record<string, (stem: string) => string>> = {
	steps: (stem) => `flows/shared/steps/${stem}.yaml`,
	cautions: () => 'flows/shared/cautions.yaml',
	sources: () => 'flows/shared/sources.yaml',
	history: () => 'flows/shared/history.yaml'
};

const has = (text: string, key: string) => new RegExp(`^${key}:`, 'm').test(text);

/** Where the file would stand in the library, by the words that begin its lines; what tells nothing is taken for a flow. */
export function placeOfGiven({ name, text }: GivenFile): string {
	const kept = /(?:^|\/)(flows\/.*\.yaml)$/.exec(name.replaceAll('\\', '/'))?.[1];
	if (kept) return kept;
	const base = name.split(/[/\\]/).at(-1) ?? '';
	const stem =
		base
			.replace(/\.[^.]*$/, '')
			.toLowerCase()
			.replace(/[^a-z0-9]+/g, '-')
			.replace(/^-|-$/g, '') || 'pasted';
	if (has(text, 'id')) return has(text, 'stages') ? `flows/shared/plans/${stem}.yaml` : `flows/${stem}.yaml`;
	const table = Object.keys(TABLES).find((key) => has(text, key));
	if (table) return TABLES[table]?.(stem) ?? '';
	return has(text, 'suspects') ? `flows/shared/suspects/${stem}.yaml` : `flows/${stem}.yaml`;
}

export type Taken = { ok: true; files: SourceText[] } | { ok: false; hint: string };

/** Given files as the loader takes them; two that would stand in one place are told apart by a number. */
export function takeGiven(given: readonly GivenFile[]): Taken {
	if (given.length > MOST_GIVEN)
		return { ok: false, hint: `These are ${given.length} files. Give at most ${MOST_GIVEN} at a time.` };
	const large = given.find(({ text }) => text.length > LARGEST_GIVEN);
	if (large) return { ok: false, hint: tooLarge(large.name) };
	const files: SourceText[] = [];
	for (const file of given) {
		const place = placeOfGiven(file);
		let path = place;
		for (let more = 2; files.some((other) => other.path === path); more++)
			path = place.replace(/\.yaml$/, `-${more}.yaml`);
		files.push({ path, text: file.text });
	}
	return { ok: true, files };
}

/** The largest flow of the library has a quarter of it. */
export const tooLarge = (name: string): string =>
	`"${name}" is larger than 200 kB, so it was not read. Split it: one symptom, or one kind of part, a file.`;
