import { readFileSync } from 'node:fs';
import type { Io } from './io.ts';

/** The text of a file that somebody named; nothing, after a sentence on it, where it cannot be read. */
export function readText(file: string, io: Io): string | undefined {
	try {
		return readFileSync(file, 'utf8');
	} catch {
		io.err(`${file}: there is no such file, or it cannot be read.`);
		return undefined;
	}
}
