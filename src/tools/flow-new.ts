import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline/promises';
import { parseArgs } from 'node:util';
import { skeleton, type FlowWish, type Skeleton } from '../lib/flow/skeleton.ts';
import type { Library } from '../lib/flow/library.ts';
import { PATH_OUTCOMES } from '../lib/flow/terms.ts';
import type { Io } from './io.ts';
import { openLibrary } from './library.ts';

/** What is asked for, in this order; every answer can be given as an option instead. */
const QUESTIONS = {
	title: 'The complaint, as people tell it',
	id: 'Name of the file, in lower-case letters and hyphens',
	symptom: `What each band does, as  am=weak,fm=good  (${PATH_OUTCOMES.join(', ')}; "all" for every band)`,
	signs: 'Signs beside the sound, with commas (may be empty)',
	bands: 'Bands that the set must have, with commas (may be empty)',
	suspects: 'Suspected parts, families or sections, with commas'
} as const;
type Question = keyof typeof QUESTIONS;
type Said = Partial<Record<Question, string>>;

export const NEW_USAGE = `npm run -s flow -- new [--title T --id ID --symptom am=weak,fm=good --signs S,... --bands B,... --suspects P,...] [--print]`;

const listed = (text = ''): string[] =>
	text
		.split(',')
		.map((word) => word.trim())
		.filter(Boolean);

const wishOf = (said: Said): FlowWish => ({
	id: said.id ?? '',
	title: said.title ?? '',
	symptom: Object.fromEntries(
		listed(said.symptom).map((pair): [string, string] => {
			const [band = '', heard = ''] = pair.split('=').map((word) => word.trim());
			return [band, heard];
		})
	),
	signs: listed(said.signs),
	bands: listed(said.bands),
	suspects: listed(said.suspects)
});

/** Ask at the terminal for what the options left out. What was answered before is offered again: Enter keeps it. */
async function ask(said: Said, before: Said): Promise<Said> {
	const lines = createInterface({ input: process.stdin, output: process.stderr });
	const answered = { ...said };
	for (const [key, question] of Object.entries(QUESTIONS) as [Question, string][]) {
		if (said[key] !== undefined) continue;
		const was = before[key] ?? '';
		answered[key] = (await lines.question(`${question}${was ? ` [${was}]` : ''}: `)).trim() || was;
	}
	lines.close();
	return answered;
}

const isComplete = (said: Said): boolean =>
	Object.keys(QUESTIONS).every((key) => said[key as Question] !== undefined);

/** The skeleton that was asked for; at a terminal the questions come again until it can be made. */
async function made(library: Library, said: Said, io: Io): Promise<Skeleton> {
	const asks = process.stdin.isTTY && !isComplete(said);
	if (!asks) return skeleton(library, wishOf(said));
	let answers = await ask(said, {});
	for (;;) {
		const result = skeleton(library, wishOf(answers));
		if (result.ok) return result;
		io.err(`\n${result.problems.join('\n')}\n`);
		answers = await ask(said, answers);
	}
}

const OPTIONS = {
	...Object.fromEntries(Object.keys(QUESTIONS).map((key) => [key, { type: 'string' }] as const)),
	print: { type: 'boolean' }
} as Record<Question, { type: 'string' }> & { print: { type: 'boolean' } };

function optionsIn(args: readonly string[]): (Said & { print?: boolean }) | undefined {
	try {
		return parseArgs({ args: [...args], options: OPTIONS }).values;
	} catch {
		return undefined;
	}
}

/** `flow -- new`: write the file of a new flow, every open place marked with TODO. */
export async function newFlow(root: string, args: readonly string[], io: Io): Promise<number> {
	const options = optionsIn(args);
	if (!options) return (io.err(`usage: ${NEW_USAGE}`), 2);
	const { print = false, ...said } = options;
	const library = openLibrary(root, io);
	if (!library) return 1;
	const flow = await made(library, said, io);
	if (!flow.ok) return (io.err(flow.problems.join('\n')), 2);
	if (print) return (io.out(flow.text.trimEnd()), 0);
	const file = `flows/${/^id: (.*)$/m.exec(flow.text)?.[1] ?? ''}.yaml`;
	if (existsSync(join(root, file))) return (io.err(`${file} exists already. Give another id.`), 2);
	writeFileSync(join(root, file), flow.text);
	io.out(`${file} is written. Go through each TODO, then: npm run -s flow -- check ${file}`);
	return 0;
}
