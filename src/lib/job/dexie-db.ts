import Dexie, { type Table, type Transaction } from 'dexie';
import type { Library } from '../flow/library.ts';
import type { JobEvent } from './events.ts';
import type { JobRow } from './row.ts';

/** What the browser's database is reached by; left out, the browser's own. */
export interface IndexedDb {
	indexedDB: IDBFactory;
	IDBKeyRange: typeof globalThis.IDBKeyRange;
}

export interface FlowRow {
	hash: string;
	library: Library;
}

/** `format`: form of the data. `bench`: this bench's name. `seq`: the highest number given out, purged jobs included. `exported:<job>`: a date. */
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
	meta!: Table<MetaRow, string>;
	#purging = new WeakMap<Transaction, string>();

	constructor(name: string, idb?: IndexedDb) {
		super(name, { chromeTransactionDurability: 'strict', ...idb });
		this.version(1).stores({ events: 'id, [job+at], &[bench+seq]', jobs: 'job', flows: 'hash', meta: 'key' });
		this.#guard();
	}

	#guard(): void {
		const purging = this.#purging;
		this.events.hook('updating', (_changes, id) => {
			throw new Error(`The log is append-only: event ${id} cannot be changed.`);
		});
		this.events.hook('deleting', (id, event, transaction) => {
			if (purging.get(transaction) !== event.job)
				throw new Error(`The log is append-only: event ${id} cannot be removed by itself.`);
		});
	}

	eventsOf(job: string) {
		return this.events.where('[job+at]').between([job, Dexie.minKey], [job, Dexie.maxKey]);
	}

	/** Everything that is told of one job, in one transaction. */
	async purge(job: string): Promise<void> {
		await this.transaction('rw', this.events, this.jobs, this.flows, this.meta, async (transaction) => {
			this.#purging.set(transaction, job);
			const gone = await this.eventsOf(job).toArray();
			await this.events.bulkDelete(gone.map(({ id }) => id));
			await this.jobs.delete(job);
			await this.meta.delete(`exported:${job}`);
			const named = new Set<string>();
			await this.events.each((event) => event.kind === 'flow-opened' && named.add(event.data.hash));
			const orphans = gone.flatMap((event) => (event.kind === 'flow-opened' ? [event.data.hash] : []));
			await this.flows.bulkDelete(orphans.filter((hash) => !named.has(hash)));
		});
	}
}
