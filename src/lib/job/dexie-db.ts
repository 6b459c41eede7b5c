import Dexie, { type PromiseExtended, type Table, type Transaction } from 'dexie';
import type { Library } from '../flow/library.ts';
import type { JobEvent } from './events.ts';
import type { KeptPicture } from './picture.ts';
import type { JobRow } from './row.ts';
import { hashesOf, picturesIn } from './store.ts';

/** What the browser's database is reached by; left out, the browser's own. */
export interface IndexedDb {
	indexedDB: IDBFactory;
	IDBKeyRange: typeof globalThis.IDBKeyRange;
}

export interface FlowRow {
	hash: string;
	library: Library;
}

/**
 * `format`: form of the data. `bench`: this bench's name. `seq`: the highest number given out, purged jobs included.
 * `exported:<job>`: date of the last copy in a file; `copied:<job>`: how many entries it holds; `whole`: date of the last
 * copy of every job. `loose:<hash>`: when a picture was kept that no event has named yet, in milliseconds.
 */
export interface MetaRow {
	key: string;
	value: string | number;
}

/**
 * The tables. Events are only added: the hooks refuse every change, and every removal that is not the purge of the
 * whole job.
 */
export class JobDatabase extends Dexie {
	events!: Table<JobEvent, string>;
	/** Rows of the list; made again from the events when in doubt. */
	jobs!: Table<JobRow, string>;
	flows!: Table<FlowRow, string>;
	/** Each once, whichever jobs name it. */
	pictures!: Table<KeptPicture, string>;
	meta!: Table<MetaRow, string>;
	#purging = new WeakMap<Transaction, ReadonlySet<string>>();

	constructor(name: string, idb?: IndexedDb) {
		super(name, { chromeTransactionDurability: 'strict', ...idb });
		this.version(1).stores({ events: 'id, [job+at], &[bench+seq]', jobs: 'job', flows: 'hash', meta: 'key' });
		// Which events name a flow or a picture is asked of the table itself: a purge must not read every job.
		this.version(2).stores({
			events: 'id, [job+at], &[bench+seq], data.hash, data.picture',
			pictures: 'hash'
		});
		this.#guard();
	}

	#guard(): void {
		const purging = this.#purging;
		this.events.hook('updating', (_changes, id) => {
			throw new Error(`The log is append-only: event ${id} cannot be changed.`);
		});
		this.events.hook('deleting', (id, event, transaction) => {
			if (!purging.get(transaction)?.has(event.job))
				throw new Error(`The log is append-only: event ${id} cannot be removed by itself.`);
		});
	}

	eventsOf(job: string) {
		return this.events.where('[job+at]').between([job, Dexie.minKey], [job, Dexie.maxKey]);
	}

	/** Of these flows or pictures, those that no event names. Within a transaction. */
	#unnamed(by: 'data.hash' | 'data.picture', hashes: readonly string[]): PromiseExtended<string[]> {
		const named = hashes.map((hash) => this.events.where(by).equals(hash).limit(1).primaryKeys());
		return Dexie.Promise.all(named).then((found) => hashes.filter((_, index) => found[index]?.length === 0));
	}

	/** Everything that is told of these jobs, in one transaction. */
	async purge(jobs: readonly string[]): Promise<void> {
		const tables = [this.events, this.jobs, this.flows, this.pictures, this.meta];
		await this.transaction('rw', tables, async (transaction) => {
			this.#purging.set(transaction, new Set(jobs));
			const logs = await Dexie.Promise.all(jobs.map((job) => this.eventsOf(job).toArray()));
			const gone = logs.flat();
			await this.events.bulkDelete(gone.map(({ id }) => id));
			await this.jobs.bulkDelete([...jobs]);
			await this.meta.bulkDelete(jobs.flatMap((job) => [EXPORTED + job, COPIED + job]));
			await this.flows.bulkDelete(await this.#unnamed('data.hash', hashesOf(gone)));
			await this.pictures.bulkDelete(await this.#unnamed('data.picture', picturesIn(gone)));
		});
	}

	/** Drop the pictures that were kept before this time and that no event has named since. Within a transaction. */
	dropLoose(before: number): PromiseExtended<void> {
		return this.meta
			.where('key')
			.startsWith(LOOSE)
			.filter(({ value }) => Number(value) < before)
			.primaryKeys()
			.then((keys) =>
				this.#unnamed(
					'data.picture',
					keys.map((key) => key.slice(LOOSE.length))
				)
					.then((hashes) => this.pictures.bulkDelete(hashes))
					.then(() => this.meta.bulkDelete(keys))
			);
	}
}

/** Keys of the rows for the last copy of a job: its date, and the number of its entries. */
export const EXPORTED = 'exported:';
export const COPIED = 'copied:';
/** Key of the row for a picture that no event has named yet. */
export const LOOSE = 'loose:';
