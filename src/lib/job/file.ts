import type { Library } from '../flow/library.ts';
import type { JobEvent } from './events.ts';
import { inOrder } from './order.ts';
import type { JobFile } from './store.ts';

export const FORMAT: JobFile['format'] = 'valvetrail-job';
export const VERSION: JobFile['version'] = 1;

/** The largest file that is read, in bytes. */
export const LARGEST_FILE = 20_000_000;

/**
 * A job as one file: its events, one a line, and the flows that it replays from.
 *
 * @param exported ISO date and time of the copy
 */
export function exportJob(
	events: readonly JobEvent[],
	flows: Readonly<Record<string, Library>>,
	exported: string
): string {
	const lines = inOrder(events).events.map((event) => `\t\t${JSON.stringify(event)}`);
	const kept = Object.entries(flows).map(
		([hash, library]) => `\t\t${JSON.stringify(hash)}: ${JSON.stringify(library)}`
	);
	return [
		'{',
		`\t"format": ${JSON.stringify(FORMAT)},`,
		`\t"version": ${VERSION},`,
		`\t"exported": ${JSON.stringify(exported)},`,
		`\t"events": [\n${lines.join(',\n')}\n\t],`,
		`\t"flows": {\n${kept.join(',\n')}\n\t}`,
		'}\n'
	].join('\n');
}
