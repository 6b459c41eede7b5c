import { webcrypto } from 'node:crypto';
import { draftFlow } from '../lib/job/draft-flow.ts';
import { readJobFile } from '../lib/job/read-file.ts';
import { replay } from '../lib/job/replay.ts';
import type { Io } from './io.ts';
import { openLibrary } from './library.ts';
import { readText } from './read-text.ts';

/** `flow -- draft JOBFILE`: a flow to begin with, from a finished job, on the standard output. */
export async function draft(root: string, file: string, io: Io): Promise<number> {
	const text = readText(file, io);
	if (text === undefined) return 2;
	const read = await readJobFile(text, webcrypto.subtle as SubtleCrypto);
	if (!read.ok) return (io.err(`${file}, ${read.place}: ${read.hint}`), 2);
	const library = openLibrary(root, io);
	if (!library) return 1;
	const made = draftFlow(library, replay(read.file.events, { snapshots: read.file.flows, today: library }));
	if (!made.ok) return (io.err(made.hint), 2);
	return (io.out(made.text.trimEnd()), 0);
}
