import type { Found } from '$lib/job/copies.ts';
import type { JobStore } from '$lib/job/store.ts';
import { count as counted, figure } from '$lib/ui/count.ts';
import { digest } from '$lib/ui/state/world.ts';
import { breather } from './breathe.ts';

/** The way of one file into the store: looked into, asked about where it holds several jobs, taken in. */
export class TakingIn {
	/** What is being done, and how far it is; the last thing, after a stop, cannot be stopped again. */
	work = $state.raw<{ label: string; done: number; all: number; last?: true }>();
	/** A file of several jobs that waits for an answer. */
	found = $state.raw<Found>();
	/** What became of the last file. */
	told = $state('');
	#file: File | undefined;
	#stopped = false;

	/** @param ontaken called with the job where the file has brought a single new one */
	constructor(
		readonly store: JobStore,
		readonly ontaken: (job: string) => void
	) {}

	stop = (): void => {
		this.#stopped = true;
	};

	#onpiece(label: string): (done: number, all: number) => Promise<boolean> {
		const breathe = breather();
		this.#stopped = false;
		this.work = { label, done: 0, all: 1 };
		return async (done, all) => {
			await breathe(() => (this.work = { label, done, all }));
			return !this.#stopped;
		};
	}

	/** What was written goes out again. */
	#onback(): (done: number, all: number) => Promise<boolean> {
		const breathe = breather();
		return async (done, all) => {
			await breathe(() => (this.work = { label: 'Removing what was taken in', done, all, last: true }));
			return true;
		};
	}

	/** Look into a file; one job is taken in at once. */
	async look(file: File): Promise<void> {
		[this.found, this.told, this.#file] = [undefined, '', file];
		this.told = await tooLarge(file);
		if (this.told) return;
		const { lookInto } = await import('$lib/job/copies.ts');
		const looked = await lookInto(this.store, file, digest(), this.#onpiece('Reading the file'));
		this.work = undefined;
		if (!looked.ok) {
			const place = looked.place ? `${looked.place}. ` : '';
			this.told = `${file.name} was not taken in: ${place}${looked.hint}`;
		} else if (looked.found.jobs.length === 1) await this.take(false);
		else this.found = looked.found;
	}

	/** @param others leave out what is here as it is in the file */
	async take(others: boolean): Promise<void> {
		const file = this.#file;
		if (!file) return;
		const same = (this.found?.jobs ?? []).filter(({ here }) => here === 'same').map(({ job }) => job);
		this.found = undefined;
		const { takeIn } = await import('$lib/job/copies.ts');
		const taken = await takeIn(
			this.store,
			file,
			others ? same : [],
			this.#onpiece('Taking in'),
			this.#onback()
		);
		this.work = undefined;
		if (!taken.ok) {
			this.told = `${file.name} was not taken in: ${taken.hint}`;
			return;
		}
		this.told = takenWords(taken.jobs);
		const [only, more] = taken.jobs;
		if (only && !more && !only.copied) this.ontaken(only.job);
	}

	leave(): void {
		[this.found, this.#file] = [undefined, undefined];
	}
}

function takenWords(jobs: readonly { copied: boolean }[]): string {
	const copies = jobs.filter(({ copied }) => copied).length;
	if (jobs.length === 1)
		return copies
			? 'The job was here already; the file was taken in as a copy of it.'
			: 'The job was taken in.';
	const as = copies ? `, ${figure(copies)} of them as copies of jobs that are here` : '';
	return `${counted(jobs.length, 'job')} taken in${as}.`;
}

/** A file that has no room here is not begun with. */
async function tooLarge({ name, size }: File): Promise<string> {
	// There is no such manager over plain http, except on localhost.
	const manager = navigator.storage as StorageManager | undefined;
	const { quota, usage = 0 } = (await manager?.estimate?.()) ?? {};
	if (quota === undefined || size < quota - usage) return '';
	return `${name} was not taken in: it has ${Math.ceil(size / 1e6)} MB, and the browser gives this page ${Math.max(0, Math.floor((quota - usage) / 1e6))} MB more. Free some space, then choose it again.`;
}

/** What a file holds, against what is here. */
export function foundWords({ jobs, pictures }: Found): string {
	const count = (here: string) => jobs.filter((job) => job.here === here).length;
	const parts = [
		`${figure(count('new'))} are new`,
		`${figure(count('same'))} are here already with the same entries`,
		`${figure(count('other'))} are here with other entries`
	].filter((_, index) => count(['new', 'same', 'other'][index] ?? '') > 0);
	return `${counted(jobs.length, 'job')} and ${counted(pictures, 'picture')}: ${parts.join(', ')}.`;
}
