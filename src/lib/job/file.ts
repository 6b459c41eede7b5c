import type { Library } from '../flow/library.ts';
import { toBase64 } from './base64.ts';
import type { JobEvent } from './events.ts';
import { inOrder } from './order.ts';
import type { KeptPicture, PictureType } from './picture.ts';
import { hashesOf, picturesIn } from './store.ts';

/**
 * A file of jobs: one record a line, so that it is written and read in pieces however large it is, and a fault has a line.
 * Flows and pictures stand before the first job that names them, each once.
 */

export const FORMAT = 'valvetrail';
/** Of today's files. Those of every earlier version are read: see `file-migrations.ts`. */
export const VERSION = 2;

export interface Head {
	format: typeof FORMAT;
	version: typeof VERSION;
	/** ISO date and time of the copy. */
	exported: string;
}
/** Counts of what went before: a file that breaks off has no such line. */
export interface End {
	jobs: number;
	events: number;
	pictures: number;
}

/** A line of the file; each begins with the word for what it is. */
export type FileRecord =
	| Head
	| { flow: string; library: Library }
	| { picture: string; type: PictureType; data: string }
	| { job: string }
	| { event: JobEvent }
	| { end: End };

const line = (record: FileRecord): string => `${JSON.stringify(record)}\n`;

/** Where flows and pictures come from as they are needed; what is missing here is missing in the file. */
export interface Shelves {
	flow: (hash: string) => Promise<Library | undefined>;
	picture: (hash: string) => Promise<KeptPicture | undefined>;
}

/** Writes jobs one after the other, each flow and picture once. */
export class FileWriter {
	readonly #written = new Set<string>();
	readonly #end: End = { jobs: 0, events: 0, pictures: 0 };
	readonly #shelves: Shelves;

	constructor(shelves: Shelves) {
		this.#shelves = shelves;
	}

	/** @param exported ISO date and time of the copy */
	head(exported: string): string {
		return line({ format: FORMAT, version: VERSION, exported });
	}

	/** The lines of one job, with the flows and pictures that no job before it has named. */
	async job(events: readonly JobEvent[]): Promise<string> {
		const lines: string[] = [];
		for (const hash of this.#new(hashesOf(events))) {
			const library = await this.#shelves.flow(hash);
			if (library) lines.push(line({ flow: hash, library }));
		}
		for (const hash of this.#new(picturesIn(events))) {
			const kept = await this.#shelves.picture(hash);
			if (kept) lines.push(this.#picture(kept));
		}
		lines.push(line({ job: events[0]?.job ?? '' }));
		for (const event of inOrder(events).events) lines.push(line({ event }));
		this.#end.jobs += 1;
		this.#end.events += events.length;
		return lines.join('');
	}

	end(): string {
		return line({ end: this.#end });
	}

	#new(hashes: readonly string[]): string[] {
		const found = hashes.filter((hash) => !this.#written.has(hash));
		for (const hash of found) this.#written.add(hash);
		return found;
	}

	#picture({ hash, type, bytes }: KeptPicture): string {
		this.#end.pictures += 1;
		return line({ picture: hash, type, data: toBase64(new Uint8Array(bytes)) });
	}
}

/**
 * One job as the text of a file, with the flows that it replays from and the pictures that it names.
 *
 * @param exported ISO date and time of the copy
 */
export async function exportJob(
	events: readonly JobEvent[],
	flows: Readonly<Record<string, Library>>,
	exported: string,
	pictures: readonly KeptPicture[] = []
): Promise<string> {
	const writer = new FileWriter({
		flow: async (hash) => (Object.hasOwn(flows, hash) ? flows[hash] : undefined),
		picture: async (hash) => pictures.find((picture) => picture.hash === hash)
	});
	return writer.head(exported) + (await writer.job(events)) + writer.end();
}
