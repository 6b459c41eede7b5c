import '$lib/job/no-jit.ts';
import type { Library } from '$lib/flow/library.ts';
import { loadBeside, type SourceText } from '$lib/flow/load.ts';
import type { CheckedFiles } from './check-files.ts';

/** Reads and checks files from outside, away from the page: a file that takes for ever holds nothing up. */

export interface CheckAsked {
	library: Library;
	files: SourceText[];
}

/** The few words of a worker's own scope that are used here; the page's types do not hold them. */
const scope = globalThis as unknown as {
	addEventListener(kind: 'message', hear: (event: { data: CheckAsked }) => void): void;
	postMessage(found: CheckedFiles): void;
};

scope.addEventListener('message', ({ data: { library, files } }) => {
	const result = loadBeside(library, files);
	scope.postMessage(
		result.ok
			? { ok: true, library: result.library, findings: result.advice }
			: { ok: false, findings: result.findings }
	);
});
