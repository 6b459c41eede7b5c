import Dexie, { liveQuery, type PromiseExtended } from 'dexie';
import type { Library } from '../flow/library.ts';
import { copyOf } from './copy.ts';
import { COPIED, EXPORTED, JobDatabase, LOOSE, type IndexedDb, type MetaRow } from './dexie-db.ts';
import type { EventData, EventKind, EventOf, JobEvent } from './events.ts';
import { byId } from './order.ts';
import type { KeptPicture } from './picture.ts';
import {
	describedRow,
	emptyRow,
	isOldRow,
	rowAfter,
	rowAnew,
	rowOf,
	rowsOf,
	type Description,
	type JobRow
} from './row.ts';
import type { Snapshot } from './snapshot.ts';
import {
	hashesOf,
	isCrowded,
	isGone,
	latestFirst,
	LOOSE_FOR,
	nextEvent,
	picturesIn,
	refusal,
	type Appended,
	type Entry,
	type Imported,
	type JobFile,
	type JobStore,
	type Kept,
	type StoreRefusal,
	type StoreWorld
} from './store.ts';

export interface DexieWorld extends StoreWorld {
	/** Name of the database. */
	name: string;
	idb?: IndexedDb;
}

const named = (error: unknown, ...names: string[]): boolean => {
	for (
		let cause = error;
		cause instanceof Error || cause instanceof DOMException;
		cause = (cause as { inner?: unknown }).inner
	)
		if (names.includes(cause.name)) return true;
	return false;
};

/** The browser closes a database behind the page's back, as when a phone wakes up (dexie issues 2008, 2296). */
const wasClosed = (error: unknown) => named(error, 'DatabaseClosedError', 'InvalidStateError');

/** What the browser refuses is a result; anything else is a bug of ours and stays an exception. */
function refusalOf(error: unknown): StoreRefusal {
	if (named(error, 'QuotaExceededError')) return refusal('full');
	if (named(error, 'NewerDataError')) return refusal('newer');
	if (named(error, 'GoneError')) return refusal('gone');
	if (named(error, 'ManyError')) return refusal('many');
	if (
		named(
			error,
			'OpenFailedError',
			'MissingAPIError',
			'SecurityError',
			'DatabaseClosedError',
			'InvalidStateError',
			'UnknownError'
		)
	)
		return refusal('refused');
	throw error;
}

/** Form of the stored data; one more when an older program could no longer read them rightly. */
const FORMAT = 1;

/** Old rows made again in one transaction. */
const OLD_AT_ONCE = 200;

class NewerDataError extends Error {
	override readonly name = 'NewerDataError';
}

class GoneError extends Error {
	override readonly name = 'GoneError';
}

class ManyError extends Error {
	override readonly name = 'ManyError';
}

/** Rows of one kind, by the job that their key names. */
const byJob = (rows: readonly MetaRow[], prefix: string): Map<string, string | number> =>
	new Map(rows.map(({ key, value }) => [key.slice(prefix.length), value]));

function withCopy(
	row: JobRow,
	exported: string | number | undefined,
	copied: string | number | undefined
): JobRow {
	return {
		...row,
		...(exported === undefined ? {} : { exported: String(exported) }),
		...(copied === undefined ? {} : { copied: Number(copied) })
	};
}

/**
 * Within a transaction only the outermost function may be `async`: behind two of them Dexie loses the transaction and it
 * is committed too early (seen with 4.4.7). The helpers chain Dexie's own promises instead.
 */
class DexieStore implements JobStore {
	readonly keeps = true;
	readonly #db: JobDatabase;
	readonly #world: StoreWorld;
	/** Rows are put right once for each page. */
	#settling: Promise<void> | undefined;

	constructor(db: JobDatabase, world: StoreWorld) {
		this.#db = db;
		this.#world = world;
	}

	/** Do it, and once more on a database opened again if it had been closed. */
	async #again<Value>(work: () => PromiseLike<Value>): Promise<Value> {
		try {
			return await work();
		} catch (error) {
			if (!wasClosed(error)) throw error;
			this.#db.close();
			await this.#db.open();
			return await work();
		}
	}

	async #kept<Value>(work: () => PromiseLike<Value>): Promise<Kept<Value>> {
		try {
			return { ok: true, value: await this.#again(work) };
		} catch (error) {
			return refusalOf(error);
		}
	}

	#write<Value>(work: () => PromiseLike<Value>): PromiseLike<Value> {
		const { events, jobs, flows, pictures, meta } = this.#db;
		return this.#db.transaction('rw', [events, jobs, flows, pictures, meta], work);
	}

	/** Within a transaction: the bench's name, made on first use. */
	#bench(): PromiseExtended<string> {
		const { meta } = this.#db;
		return meta.get('bench').then((known) => {
			if (known) return String(known.value);
			const value = this.#world.newId();
			return meta.add({ key: 'bench', value }).then(() => value);
		});
	}

	/** Within a transaction: the first of so many numbers that this bench has never given out. */
	#seqs(bench: string, count: number): PromiseExtended<number> {
		const { meta, events } = this.#db;
		const highest = events.where('[bench+seq]').between([bench, Dexie.minKey], [bench, Dexie.maxKey]).last();
		return Dexie.Promise.all([meta.get('seq'), highest]).then(([given, last]) => {
			const first = Math.max(Number(given?.value ?? 0), last?.seq ?? 0) + 1;
			return meta.put({ key: 'seq', value: first + count - 1 }).then(() => first);
		});
	}

	/** Dexie opens what a newer version has written; so the data say themselves who can read them. */
	claim(): Promise<void> {
		const { meta } = this.#db;
		return this.#write(async () => {
			const format = await meta.get('format');
			if (Number(format?.value ?? FORMAT) > FORMAT) throw new NewerDataError();
			await meta.put({ key: 'format', value: FORMAT });
			await this.#db.dropLoose(this.#world.now() - LOOSE_FOR);
		}) as Promise<void>;
	}

	bench(): Promise<string> {
		return this.#again(() => this.#write(() => this.#bench()));
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

	appendAll(job: string, entries: readonly Entry[]): Promise<Kept<JobEvent[]>> {
		return this.#kept(() => this.#write(() => this.#append(job, entries)));
	}

	async #append(job: string, entries: readonly Entry[]): Promise<JobEvent[]> {
		const log = await this.#db.eventsOf(job).toArray();
		const [first] = entries;
		if (!first) return [];
		if (isGone(log, first[0])) throw new GoneError();
		const bench = await this.#bench();
		const seq = await this.#seqs(bench, entries.length);
		const now = this.#world.now();
		const added: JobEvent[] = [];
		for (const [kind, data] of entries) {
			const stamp = { job, bench, seq: seq + added.length, now };
			const event = nextEvent([...log, ...added], stamp, kind, data) as JobEvent;
			for (const hash of hashesOf([event]))
				if (!(await this.#hasFlow(hash)))
					throw new Error(`The flow ${hash} has to be kept before it is opened.`);
			for (const hash of picturesIn([event])) await this.#name(hash);
			await this.#db.events.add(event);
			added.push(event);
		}
		const row = await this.#db.jobs.get(job);
		const before =
			row?.events === log.length && !isOldRow(row) ? row : log.length ? rowOf(log) : emptyRow(job);
		await this.#db.jobs.put(added.reduce((after, event) => rowAfter(after, event), before));
		return added;
	}

	async events(job: string): Promise<JobEvent[]> {
		return (await this.#again(() => this.#db.eventsOf(job).toArray())).sort(byId);
	}

	/** The rows as they stand; where they do not account for every event, all are made again. */
	async jobs(): Promise<JobRow[]> {
		await this.#settled();
		return this.#again(() => this.#rows());
	}

	async #settled(): Promise<void> {
		const doubted = await this.#again(() => this.#doubted());
		if (doubted === 'all') await this.#again(() => this.#write(() => this.#rebuild()));
		else await this.#renewOldRows(doubted);
	}

	/** A few at a time, so that nothing else has to wait for long. */
	async #renewOldRows(old: readonly string[]): Promise<void> {
		for (let from = 0; from < old.length; from += OLD_AT_ONCE) {
			const some = old.slice(from, from + OLD_AT_ONCE);
			await this.#again(() => this.#write(() => this.#renew(some)));
		}
	}

	/** Within a transaction. */
	async #renew(jobs: readonly string[]): Promise<void> {
		for (const job of jobs) {
			const row = await this.#db.jobs.get(job);
			const log = await this.#db.eventsOf(job).toArray();
			if (row && isOldRow(row)) await this.#db.jobs.put(rowAnew(row, log));
		}
	}

	/** Rows that an older program has written; all, where the rows do not account for every event. */
	async #doubted(): Promise<'all' | string[]> {
		const { events, jobs } = this.#db;
		return this.#db.transaction('r', events, jobs, async () => {
			const rows = await jobs.toArray();
			const known = rows.reduce((sum, row) => sum + row.events, 0);
			if (known !== (await events.count())) return 'all';
			return rows.filter(isOldRow).map(({ job }) => job);
		});
	}

	/** Within a transaction. */
	async #rebuild(): Promise<void> {
		const events = await this.#db.events.toArray();
		await this.#db.jobs.clear();
		await this.#db.jobs.bulkAdd(rowsOf(events));
	}

	async #rows(): Promise<JobRow[]> {
		const { jobs, meta } = this.#db;
		return this.#db.transaction('r', jobs, meta, async () => {
			const rows = await jobs.toArray();
			const [dates, counts] = await Dexie.Promise.all([
				meta.where('key').startsWith(EXPORTED).toArray(),
				meta.where('key').startsWith(COPIED).toArray()
			]);
			const [exported, copied] = [byJob(dates, EXPORTED), byJob(counts, COPIED)];
			return latestFirst(rows.map((row) => withCopy(row, exported.get(row.job), copied.get(row.job))));
		});
	}

	watch(job: string, callback: (events: JobEvent[]) => void): () => void {
		return this.#watch(() => this.events(job), callback);
	}

	/** The rows are shown as they stand; what has to be made again comes after. */
	watchJobs(callback: (rows: JobRow[]) => void): () => void {
		return this.#watch(
			() => this.#rows(),
			(rows) => {
				callback(rows);
				this.#settling ??= this.#settled().catch(() => undefined);
			}
		);
	}

	#watch<Value>(query: () => Promise<Value>, callback: (value: Value) => void): () => void {
		const subscription = liveQuery(query).subscribe({ next: callback });
		return () => subscription.unsubscribe();
	}

	keepFlow({ hash, library }: Snapshot): Promise<Kept<void>> {
		return this.#kept(() => this.#write(() => this.#keepFlow(hash, library)));
	}

	/** Within a transaction. */
	#keepFlow(hash: string, library: Library): PromiseExtended<void> {
		const { flows } = this.#db;
		return this.#hasFlow(hash).then((known) =>
			known ? undefined : flows.add({ hash, library }).then(() => undefined)
		);
	}

	/** Within a transaction. Counted, as a flow has hundreds of kilobytes. */
	#hasFlow(hash: string): PromiseExtended<boolean> {
		return this.#db.flows
			.where('hash')
			.equals(hash)
			.count()
			.then((count) => count > 0);
	}

	async flow(hash: string): Promise<Library | undefined> {
		return (await this.#again(() => this.#db.flows.get(hash)))?.library;
	}

	keepPicture(job: string, picture: KeptPicture): Promise<Kept<void>> {
		return this.#kept(() =>
			this.#write(async () => {
				const log = await this.#db.eventsOf(job).toArray();
				if (log.length === 0) throw new GoneError();
				if (isCrowded(log, picture.hash)) throw new ManyError();
				if (await this.#shelve(picture))
					await this.#db.meta.put({ key: LOOSE + picture.hash, value: this.#world.now() });
			})
		);
	}

	/** Within a transaction: from now on an event names this picture. */
	#name(hash: string): PromiseExtended<void> {
		return this.#db.pictures
			.where('hash')
			.equals(hash)
			.count()
			.then((count) => {
				if (count === 0) throw new Error(`The picture ${hash} has to be kept before it is named.`);
				return this.#db.meta.delete(LOOSE + hash);
			});
	}

	picture(hash: string): Promise<KeptPicture | undefined> {
		return this.#again(() => this.#db.pictures.get(hash));
	}

	describe(job: string, description: Description): Promise<Kept<void>> {
		return this.#kept(() =>
			this.#write(async () => {
				const row = await this.#db.jobs.get(job);
				if (row) await this.#db.jobs.put(describedRow(row, description));
			})
		);
	}

	markExported(copied: ReadonlyMap<string, number>, whole: boolean): Promise<Kept<void>> {
		const value = new Date(this.#world.now()).toISOString();
		const rows = [...copied].flatMap(([job, count]) => this.#copyRows(job, value, count));
		const all = whole ? [...rows, { key: 'whole', value }] : rows;
		return this.#kept(async () => void (await this.#db.meta.bulkPut(all)));
	}

	#copyRows(job: string, exported: string, copied: number): MetaRow[] {
		return [
			{ key: EXPORTED + job, value: exported },
			{ key: COPIED + job, value: copied }
		];
	}

	async wholeCopy(): Promise<string | undefined> {
		const row = await this.#again(() => this.#db.meta.get('whole'));
		return row && String(row.value);
	}

	importJobs(files: readonly JobFile[]): Promise<Kept<Imported[]>> {
		return this.#kept(() => this.#write(() => this.#import(files)));
	}

	async #import(files: readonly JobFile[]): Promise<Imported[]> {
		const { events: log, jobs, meta } = this.#db;
		const imported: Imported[] = [];
		for (const { exported, events, flows, pictures } of files) {
			const given = events[0]?.job ?? '';
			const copied = await this.#isHere(given, events);
			const job = copied ? this.#world.newId() : given;
			const added = copied ? await this.#copy(events, job) : events;
			for (const [hash, library] of Object.entries(flows)) await this.#keepFlow(hash, library);
			for (const picture of pictures) await this.#shelve(picture);
			await log.bulkAdd(added);
			await jobs.put(rowOf(added));
			// The file is a copy of what it brought.
			if (!copied) await meta.bulkPut(this.#copyRows(job, exported, events.length));
			imported.push({ job, copied });
		}
		return imported;
	}

	/** Within a transaction: true where the picture was not here before. */
	#shelve(picture: KeptPicture): PromiseExtended<boolean> {
		const { pictures } = this.#db;
		return pictures
			.where('hash')
			.equals(picture.hash)
			.count()
			.then((count) => (count > 0 ? false : pictures.add(picture).then(() => true)));
	}

	/** Within a transaction: the job, or any event of it, under whatever job it stands here. */
	#isHere(job: string, events: readonly JobEvent[]): PromiseExtended<boolean> {
		return this.#db
			.eventsOf(job)
			.count()
			.then((count) => count > 0 || this.#isAnyHere(events));
	}

	/** Within a transaction. A count for each bench says for most jobs that none is; else each is looked up. */
	#isAnyHere(events: readonly JobEvent[]): PromiseExtended<boolean> {
		const ranges = new Map<string, [first: number, last: number]>();
		for (const { bench, seq } of events) {
			const [first, last] = ranges.get(bench) ?? [seq, seq];
			ranges.set(bench, [Math.min(first, seq), Math.max(last, seq)]);
		}
		const near = [...ranges].map(([bench, [first, last]]) =>
			this.#db.events.where('[bench+seq]').between([bench, first], [bench, last], true, true).limit(1).count()
		);
		return Dexie.Promise.all(near).then((counts) =>
			counts.every((count) => count === 0)
				? false
				: this.#db.events
						.bulkGet(events.map(({ id }) => id))
						.then((known) => known.some((event) => event !== undefined))
		);
	}

	/** Within a transaction. */
	#copy(events: readonly JobEvent[], job: string): PromiseExtended<JobEvent[]> {
		return this.#bench().then((bench) =>
			this.#seqs(bench, events.length).then((firstSeq) => copyOf(events, { job, bench, firstSeq }))
		);
	}

	purge(...jobs: string[]): Promise<Kept<void>> {
		return this.#kept(() => this.#db.purge(jobs));
	}

	close(): void {
		this.#db.close();
	}
}

/**
 * Open the browser's database, and write to it once: a private window may open it and keep nothing. Refused, the page
 * takes the store in memory and says so.
 */
export async function openDexieStore({ name, idb, ...world }: DexieWorld): Promise<Kept<JobStore>> {
	const db = new JobDatabase(name, idb);
	const store = new DexieStore(db, world);
	try {
		await db.open();
		await store.claim();
		return { ok: true, value: store };
	} catch (error) {
		db.close();
		return refusalOf(error);
	}
}
