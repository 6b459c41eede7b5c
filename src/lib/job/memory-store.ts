import type { Library } from '../flow/library.ts';
import { copyOf } from './copy.ts';
import type { EventData, EventKind, EventOf, JobEvent } from './events.ts';
import { byId } from './order.ts';
import { describedRow, emptyRow, rowAfter, rowOf, type Description, type JobRow } from './row.ts';
import type { KeptPicture } from './picture.ts';
import type { Snapshot } from './snapshot.ts';
import {
	hashesOf,
	isCrowded,
	isGone,
	latestFirst,
	nextEvent,
	picturesIn,
	refusal,
	type Appended,
	type Entry,
	type Imported,
	type JobFile,
	type JobStore,
	type Kept,
	type StoreWorld
} from './store.ts';

const done = <Value>(value: Value): Kept<Value> => ({ ok: true, value });

/** Jobs in the page's memory, where the browser keeps nothing. They end with the page, so `keeps` is false. */
class MemoryStore implements JobStore {
	readonly keeps = false;
	readonly #world: StoreWorld;
	readonly #bench: string;
	#seq = 0;
	#logs = new Map<string, readonly JobEvent[]>();
	#rows = new Map<string, JobRow>();
	#flows = new Map<string, Library>();
	#pictures = new Map<string, KeptPicture>();
	#copies = new Map<string, { exported: string; copied: number }>();
	#whole: string | undefined;
	#watchers = new Set<() => void>();

	constructor(world: StoreWorld) {
		this.#world = world;
		this.#bench = world.newId();
	}

	#changed(): void {
		for (const tell of this.#watchers) tell();
	}

	async bench(): Promise<string> {
		return this.#bench;
	}

	start(like?: string): Promise<Kept<EventOf<'started'>>> {
		return this.append(this.#world.newId(), 'started', like === undefined ? {} : { like });
	}

	async append<Kind extends EventKind>(
		job: string,
		kind: Kind,
		data: EventData[Kind]
	): Promise<Appended<Kind>> {
		const kept = await this.appendAll(job, [[kind, data] as unknown as Entry]);
		if (!kept.ok) return { ...kept, unsaved: { kind, data } };
		return { ok: true, value: kept.value[0] as EventOf<Kind> };
	}

	async appendAll(job: string, entries: readonly Entry[]): Promise<Kept<JobEvent[]>> {
		const log = this.#logs.get(job) ?? [];
		const [first] = entries;
		if (!first) return done([]);
		if (isGone(log, first[0])) return refusal('gone');
		const added: JobEvent[] = [];
		for (const [kind, data] of entries) {
			const seq = this.#seq + 1 + added.length;
			const stamp = { job, bench: this.#bench, seq, now: this.#world.now() };
			added.push(nextEvent([...log, ...added], stamp, kind, structuredClone(data)) as JobEvent);
		}
		this.#mustKnow(added);
		this.#seq += added.length;
		this.#logs.set(job, [...log, ...added]);
		const before = this.#rows.get(job) ?? emptyRow(job);
		this.#rows.set(
			job,
			added.reduce((row, event) => rowAfter(row, event), before)
		);
		this.#changed();
		return done(structuredClone(added));
	}

	#mustKnow(added: readonly JobEvent[]): void {
		const missing = hashesOf(added).find((hash) => !this.#flows.has(hash));
		if (missing) throw new Error(`The flow ${missing} has to be kept before it is opened.`);
		const unkept = picturesIn(added).find((hash) => !this.#pictures.has(hash));
		if (unkept) throw new Error(`The picture ${unkept} has to be kept before it is named.`);
	}

	async events(job: string): Promise<JobEvent[]> {
		return structuredClone([...(this.#logs.get(job) ?? [])]).sort(byId);
	}

	async jobs(): Promise<JobRow[]> {
		const dated = (row: JobRow): JobRow => ({ ...row, ...this.#copies.get(row.job) });
		return latestFirst([...this.#rows.values()].map(dated));
	}

	watch(job: string, callback: (events: JobEvent[]) => void): () => void {
		return this.#watch(() => this.events(job), callback);
	}

	watchJobs(callback: (rows: JobRow[]) => void): () => void {
		return this.#watch(() => this.jobs(), callback);
	}

	#watch<Value>(query: () => Promise<Value>, callback: (value: Value) => void): () => void {
		const tell = () => void query().then((value) => this.#watchers.has(tell) && callback(value));
		this.#watchers.add(tell);
		tell();
		return () => this.#watchers.delete(tell);
	}

	async keepFlow({ hash, library }: Snapshot): Promise<Kept<void>> {
		this.#shelve(this.#flows, hash, library);
		return done(undefined);
	}

	async flow(hash: string): Promise<Library | undefined> {
		return structuredClone(this.#flows.get(hash));
	}

	async keepPicture(job: string, picture: KeptPicture): Promise<Kept<void>> {
		const log = this.#logs.get(job) ?? [];
		if (log.length === 0) return refusal('gone');
		if (isCrowded(log, picture.hash)) return refusal('many');
		this.#shelve(this.#pictures, picture.hash, picture);
		return done(undefined);
	}

	async picture(hash: string): Promise<KeptPicture | undefined> {
		return structuredClone(this.#pictures.get(hash));
	}

	async describe(job: string, description: Description): Promise<Kept<void>> {
		const row = this.#rows.get(job);
		if (row) this.#rows.set(job, describedRow(row, description));
		this.#changed();
		return done(undefined);
	}

	async markExported(copied: ReadonlyMap<string, number>, whole: boolean): Promise<Kept<void>> {
		const exported = new Date(this.#world.now()).toISOString();
		for (const [job, count] of copied) this.#copies.set(job, { exported, copied: count });
		if (whole) this.#whole = exported;
		this.#changed();
		return done(undefined);
	}

	async wholeCopy(): Promise<string | undefined> {
		return this.#whole;
	}

	async importJobs(files: readonly JobFile[]): Promise<Kept<Imported[]>> {
		const imported = files.map((file) => this.#import(file));
		this.#changed();
		return done(imported);
	}

	#import({ exported, events, flows, pictures }: JobFile): Imported {
		const given = events[0]?.job ?? '';
		const ids = new Set([...this.#logs.values()].flat().map(({ id }) => id));
		const copied = this.#logs.has(given) || events.some(({ id }) => ids.has(id));
		const job = copied ? this.#world.newId() : given;
		const added = copied ? copyOf(events, { job, bench: this.#bench, firstSeq: this.#seq + 1 }) : events;
		if (copied) this.#seq += events.length;
		for (const [hash, library] of Object.entries(flows)) this.#shelve(this.#flows, hash, library);
		for (const picture of pictures) this.#shelve(this.#pictures, picture.hash, picture);
		this.#logs.set(job, structuredClone(added));
		this.#rows.set(job, rowOf(added));
		if (!copied) this.#copies.set(job, { exported, copied: events.length });
		return { job, copied };
	}

	#shelve<Value>(shelf: Map<string, Value>, hash: string, value: Value): void {
		if (!shelf.has(hash)) shelf.set(hash, structuredClone(value));
	}

	async purge(...jobs: string[]): Promise<Kept<void>> {
		const log = jobs.flatMap((job) => this.#logs.get(job) ?? []);
		for (const job of jobs) for (const table of [this.#logs, this.#rows, this.#copies]) table.delete(job);
		const left = [...this.#logs.values()].flat();
		const named = new Set([...hashesOf(left), ...picturesIn(left)]);
		for (const hash of hashesOf(log)) if (!named.has(hash)) this.#flows.delete(hash);
		for (const hash of picturesIn(log)) if (!named.has(hash)) this.#pictures.delete(hash);
		this.#changed();
		return done(undefined);
	}

	close(): void {
		this.#watchers.clear();
	}
}

export const memoryStore = (world: StoreWorld): JobStore => new MemoryStore(world);
