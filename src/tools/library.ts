import { printFinding } from '../lib/flow/finding.ts';
import type { Library } from '../lib/flow/library.ts';
import { loadLibrary } from '../lib/flow/load.ts';
import type { Io } from './io.ts';
import { readFlowFiles } from './flow-files.ts';

/** The library under `root`, or nothing after its findings have been printed. */
export function openLibrary(root: string, io: Io): Library | undefined {
	const result = loadLibrary(readFlowFiles(root));
	if (result.ok) return result.library;
	io.err(result.findings.map(printFinding).join('\n\n'));
	return undefined;
}
