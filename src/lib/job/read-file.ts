import './no-jit.ts';
import { z } from 'zod';
import { stepTable } from '../flow/evidence.ts';
import type { Library } from '../flow/library.ts';
import type { ResolvedFlow } from '../flow/resolve.ts';
import { trace } from '../flow/trace.ts';
import type { EventData, JobEvent } from './events.ts';
import { MOST_EVENTS, MOST_FILE_PICTURES, MOST_FLOWS, MOST_JOBS } from './file-limits.ts';
import { todaysRecords } from './file-migrations.ts';
import { rawRecords, type RawRecord } from './file-records.ts';
import { AGAIN, refusalOf, refuse, type FileRefusal } from './file-refused.ts';
import { FORMAT, VERSION } from './file.ts';
import type { Digest } from './hash.ts';
import { MOST_PICTURES, type KeptPicture, type PictureType } from './picture.ts';
import { checkLog, firstIssue, placeOf, readEvent, type Placed } from './read-events.ts';
import { readFlow } from './read-flow.ts';
import { decodedPicture, readPicture } from './read-picture.ts';
import { onceFor } from './once.ts';
import { playThrough } from './replay.ts';
import { loadReckoning } from './set-reckoning.ts';
import { own } from './state.ts';
import { hashesOf, picturesIn, type JobFile } from './store.ts';

// No code is made at run time: the page's policy forbids it, and the probe for it would be reported.
z.config({ jitless: true });

export type FileResult = { ok: true; file: JobFile } | FileRefusal;

const Hash = z.string().max(80);
/** Each kind of line by the word that it begins with. */
const RECORDS = {
	format: z.strictObject({
		format: z.literal(FORMAT),
		version: z.literal(VERSION),
		exported: z.iso.datetime()
	}),
	flow: z.strictObject({ flow: Hash, library: z.unknown() }),
	picture: z.strictObject({ picture: Hash, type: z.string(), data: z.string() }),
	job: z.strictObject({ job: z.string().max(100) }),
	event: z.strictObject({ event: z.unknown() }),
	end: z.strictObject({
		end: z.strictObject({ jobs: z.number(), events: z.number(), pictures: z.number() })
	})
};
type Kind = keyof typeof RECORDS;
type RecordOf<Of extends Kind> = z.infer<(typeof RECORDS)[Of]>;

const KINDS = Object.keys(RECORDS) as Kind[];

function kindOf({ value, line }: RawRecord): Kind {
	const fields = typeof value === 'object' && value !== null ? value : {};
	return (
		KINDS.find((kind) => Object.hasOwn(fields, kind)) ??
		refuse(`line ${line}`, `The line is none that this program writes. ${AGAIN}`)
	);
}

function recordOf<Of extends Kind>(kind: Of, { value, line }: RawRecord): RecordOf<Of> {
	const parsed = RECORDS[kind].safeParse(value);
	if (parsed.success) return parsed.data as RecordOf<Of>;
	const { path, message } = firstIssue(parsed.error);
	return refuse(`line ${line}, ${path || kind}`, `The file is not as it was saved: ${message}. ${AGAIN}`);
}

const isKept = ({ flow, plan, hash }: EventData['flow-opened'], flows: JobFile['flows']): boolean => {
	const library = own(flows, hash);
	return (
		library !== undefined && own(library.flows, flow)?.id === flow && own(library.plans, plan)?.id === plan
	);
};

const reasoned = onceFor<ResolvedFlow, true>();

/** What a job on this flow is reasoned from, whatever its answers are: no row of any step leads nowhere. */
const reason = (resolved: ResolvedFlow): true =>
	reasoned(resolved, '', () => {
		trace(resolved, { answers: [], mended: [] });
		for (const step of Object.values(resolved.steps)) stepTable(resolved, step);
		return true;
	});

/** Every flow that the job opens is in the file, and plays; every picture that it names is there. */
function checkWhole(
	entries: readonly Placed[],
	flows: JobFile['flows'],
	pictures: ReadonlySet<string>
): void {
	for (const { event, line } of entries) {
		if (event.kind === 'flow-opened' && !isKept(event.data, flows))
			refuse(placeOf(line, event.id), 'The flow that is opened here is not in the file.');
		if (event.kind === 'pictured' && !pictures.has(event.data.picture))
			refuse(placeOf(line, event.id), 'The picture that is named here is not in the file.');
	}
	const events = entries.map(({ event }) => event);
	try {
		const { flows: opened, earlier } = playThrough(events, { snapshots: flows });
		for (const { run } of [...Object.values(opened), ...earlier]) reason(run.resolved);
	} catch (error) {
		// Only a flow whose names lead nowhere can stop it: written by hand, or changed under the same hash.
		refuse(
			'flows',
			`A flow in the file does not hold together: ${error instanceof Error ? error.message : String(error)}`
		);
	}
}

/** What a file may hold, and where it is too much. */
function limit(count: number, most: number, line: number, what: string): void {
	if (count > most)
		refuse(`line ${line}`, `The file holds more than ${most} ${what}. No file of this program does.`);
}

/** The way through one file: what was seen so far, and the job that is being read. */
class Reading {
	#exported = '';
	readonly #flows = new Map<string, Library>();
	readonly #pictures = new Set<string>();
	readonly #named = new Set<string>();
	readonly #jobs = new Set<string>();
	/** Pictures since the last job: they are handed over with the next. */
	#fresh: KeptPicture[] = [];
	#open: { job: string; entries: Placed[] } | undefined;
	#events = 0;
	#ended = false;

	/** @param check the digest to prove hashes with; left out, the file has been checked before */
	constructor(readonly check: { digest: Digest } | undefined) {}

	/** Take the next record; a job is handed over once the record after it is read. */
	async take(record: RawRecord): Promise<JobFile | undefined> {
		const kind = kindOf(record);
		const { line } = record;
		if (this.#ended) refuse(`line ${line}`, `Something follows the end of the file. ${AGAIN}`);
		if ((kind === 'format') !== (this.#exported === ''))
			refuse(`line ${line}`, `A file has one beginning, at its first line. ${AGAIN}`);
		const done = kind === 'event' ? undefined : this.#close();
		await this.#add(kind, record);
		return done;
	}

	async #add(kind: Kind, record: RawRecord): Promise<void> {
		const { line } = record;
		if (kind === 'format') this.#exported = recordOf(kind, record).exported;
		else if (kind === 'flow') await this.#addFlow(recordOf(kind, record), line);
		else if (kind === 'picture') await this.#addPicture(recordOf(kind, record), line);
		else if (kind === 'job') this.#addJob(recordOf(kind, record).job, line);
		else if (kind === 'event') this.#addEvent(recordOf(kind, record).event, line);
		else this.#end(recordOf(kind, record).end, line);
	}

	async #addFlow({ flow, library }: RecordOf<'flow'>, line: number): Promise<void> {
		limit(this.#flows.size + 1, MOST_FLOWS, line, 'flows');
		if (this.#flows.has(flow)) refuse(`line ${line}`, `Two flows have this hash. ${AGAIN}`);
		this.#flows.set(
			flow,
			this.check ? await readFlow(flow, library, this.check.digest) : (library as Library)
		);
	}

	async #addPicture({ picture, type, data }: RecordOf<'picture'>, line: number): Promise<void> {
		limit(this.#pictures.size + 1, MOST_FILE_PICTURES, line, 'pictures');
		limit(this.#fresh.length + 1, MOST_PICTURES, line, 'pictures for one job');
		if (this.#pictures.has(picture)) refuse(`line ${line}`, `Two pictures have this hash. ${AGAIN}`);
		this.#pictures.add(picture);
		this.#fresh.push(
			this.check
				? await readPicture(picture, type, data, this.check.digest)
				: { hash: picture, type: type as PictureType, bytes: decodedPicture(picture, data).buffer }
		);
	}

	#addJob(job: string, line: number): void {
		limit(this.#jobs.size + 1, MOST_JOBS, line, 'jobs');
		if (this.#jobs.has(job)) refuse(`line ${line}`, `Two jobs have this id. ${AGAIN}`);
		this.#jobs.add(job);
		this.#open = { job, entries: [] };
	}

	#addEvent(raw: unknown, line: number): void {
		if (!this.#open) return refuse(`line ${line}`, `The entry stands under no job. ${AGAIN}`);
		const number = this.#open.entries.length + 1;
		limit(number, MOST_EVENTS, line, 'entries in one job');
		this.#open.entries.push({ event: this.check ? readEvent(raw, line, number) : (raw as JobEvent), line });
		this.#events += 1;
	}

	/** The job that is being read is at its end. */
	#close(): JobFile | undefined {
		if (!this.#open) return undefined;
		const { job, entries } = this.#open;
		const events = entries.map(({ event }) => event);
		if (this.check) checkLog(job, entries);
		const hashes = hashesOf(events);
		const flows = Object.fromEntries([...this.#flows].filter(([hash]) => hashes.includes(hash)));
		if (this.check) checkWhole(entries, flows, this.#pictures);
		for (const hash of [...hashes, ...picturesIn(events)]) this.#named.add(hash);
		const pictures = this.#fresh;
		[this.#open, this.#fresh] = [undefined, []];
		return { exported: this.#exported, events, flows, pictures };
	}

	#end({ jobs, events, pictures }: RecordOf<'end'>['end'], line: number): void {
		this.#ended = true;
		if (jobs !== this.#jobs.size || events !== this.#events || pictures !== this.#pictures.size)
			refuse(`line ${line}`, `The file has lost some of its lines. ${AGAIN}`);
		for (const hash of [...this.#flows.keys(), ...this.#pictures])
			if (!this.#named.has(hash))
				refuse(`line ${line}`, `No job in the file names ${hash.slice(0, 18)}. ${AGAIN}`);
	}

	/** After the last record: a file that breaks off between two lines is found here. */
	finish(line: number): void {
		if (!this.#ended) refuse(`line ${line}`, `The file breaks off here. ${AGAIN}`);
		if (this.#jobs.size === 0) refuse('the file', 'There is no job in it.');
	}
}

export interface JobAt {
	job: JobFile;
	/** Of the file's bytes, those that are read. */
	read: number;
}

/**
 * The jobs of a file, one after the other; only one is in memory. A picture comes with the first job that names it. A file
 * that cannot be taken ends it with `Refused`.
 *
 * @param check left out where the file has been gone through before, with `check`
 */
export async function* jobsIn(file: Blob, check?: { digest: Digest }): AsyncGenerator<JobAt> {
	await loadReckoning();
	const reading = new Reading(check);
	let last = 1;
	for await (const record of todaysRecords(rawRecords(file))) {
		last = record.line;
		const job = await reading.take(record);
		if (job) yield { job, read: record.read };
	}
	reading.finish(last);
}

/**
 * Read the first job from the text of a file. The whole file is checked before anything is taken; nothing is stored here.
 *
 * @param digest SHA-256 of the page; without it what is named by `sha256:` is taken unproved
 */
export async function readJobFile(text: string, digest: Digest): Promise<FileResult> {
	try {
		const jobs: JobFile[] = [];
		for await (const { job } of jobsIn(new Blob([text]), { digest })) jobs.push(job);
		const [file] = jobs;
		return file ? { ok: true, file } : refuse('the file', 'There is no job in it.');
	} catch (error) {
		return refusalOf(error);
	}
}
