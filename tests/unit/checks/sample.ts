import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadLibrary, type LoadResult, type SourceText } from '../../../src/lib/flow/load.ts';

const FOLDER = join(process.cwd(), 'tests/unit/checks');

/** Where a file of a sample stands in the library, by the last word of its name: `more-steps.yaml` holds steps. */
const PLACES: Readonly<Record<string, string>> = {
	flow: 'flows',
	plan: 'flows/shared/plans',
	steps: 'flows/shared/steps',
	suspects: 'flows/shared/suspects'
};

/** `.yaml.txt` is YAML that no formatter can read. */
const ENDING = /\.yaml(\.txt)?$/;

function filesIn(name: string): SourceText[] {
	const folder = join(FOLDER, name);
	return readdirSync(folder)
		.filter((file) => ENDING.test(file))
		.map((file) => {
			const stem = file.replace(ENDING, '');
			const place = PLACES[stem.split('-').at(-1) ?? ''] ?? 'flows/shared';
			return { path: `${place}/${stem}.yaml`, text: readFileSync(join(folder, file), 'utf8') };
		});
}

/** The small sound library, with the files of a sample in place of those of the same name. */
export function sampleFiles(name?: string): SourceText[] {
	const own = name === undefined ? [] : filesIn(name);
	const rest = filesIn('base').filter(({ path }) => !own.some((file) => file.path === path));
	return [...rest, ...own];
}

export const loadSample = (name?: string): LoadResult => loadLibrary(sampleFiles(name));

/** A folder for each case: what is wrong in it is told by its `findings.json`. */
export const sampleNames = (): string[] =>
	readdirSync(FOLDER, { withFileTypes: true })
		.filter((entry) => entry.isDirectory() && entry.name !== 'base')
		.map(({ name }) => name);

export interface ExpectedFinding {
	file: string;
	code: string;
	line: number;
	column: number;
	/** Parts of the sentences, so that a change of wording elsewhere breaks nothing. */
	message: string;
	remedy: string;
}

export const expectedIn = (name: string): ExpectedFinding[] =>
	JSON.parse(readFileSync(join(FOLDER, name, 'findings.json'), 'utf8')) as ExpectedFinding[];
