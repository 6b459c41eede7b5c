import type { Finding } from '$lib/flow/finding.ts';
import type { Library } from '$lib/flow/library.ts';
import type { SourceText } from '$lib/flow/load.ts';
import type { CheckAsked } from './check-worker.ts';

/** The library with the files in it, where they hold together; and what there is to say of them. */
export type CheckedFiles =
	{ ok: true; library: Library; findings: Finding[] } | { ok: false; findings: Finding[] };

/** The part of a worker that is used. */
export interface Checker {
	postMessage(asked: CheckAsked): void;
	onmessage: ((event: MessageEvent<CheckedFiles>) => void) | null;
	onerror: ((event: ErrorEvent) => void) | null;
	terminate(): void;
}

/** Files are given so long before they are refused, in milliseconds. Our own choice: ten times what a large flow takes. */
const PATIENCE = 60_000;

const refused = (files: readonly SourceText[], code: string, message: string): CheckedFiles => ({
	ok: false,
	findings: files.map(({ path }) => ({
		code,
		level: 'error',
		file: path,
		line: 1,
		column: 1,
		message,
		remedy: 'Take away half of it, and look again; a flow of the usual size is read in seconds.'
	}))
});

/** Have files checked beside a library, by a worker that is started for them and ended after them. */
export function checkFiles(
	start: () => Checker,
	asked: CheckAsked,
	patience = PATIENCE
): Promise<CheckedFiles> {
	const checker = start();
	return new Promise<CheckedFiles>((resolve) => {
		const late = setTimeout(
			() => resolve(refused(asked.files, 'too-slow', 'The files could not be read in a minute.')),
			patience
		);
		const end = (found: CheckedFiles) => (clearTimeout(late), resolve(found));
		checker.onmessage = ({ data }) => end(data);
		checker.onerror = () => end(refused(asked.files, 'not-read', 'The files could not be read.'));
		checker.postMessage(asked);
	}).finally(() => checker.terminate());
}
