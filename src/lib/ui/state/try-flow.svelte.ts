import type { Finding } from '$lib/flow/finding.ts';
import { takeGiven, type GivenFile } from '$lib/flow/given.ts';
import { heardOn } from '$lib/flow/resolve.ts';
import type { Library } from '$lib/flow/library.ts';
import type { PathOutcome } from '$lib/flow/terms.ts';
import type { SourceText } from '$lib/flow/load.ts';
import { benchValues } from '$lib/ui/job/bench-values.ts';
import { bench } from './bench.svelte.ts';
import { checkFiles, type CheckedFiles } from './check-files.ts';
import { OpenJob } from './open-job.svelte.ts';
import { startChecker } from './start-worker.ts';
import { openLibrary, world } from './world.ts';

/** A finding with the line of the file that it is about. */
export interface PlacedFinding extends Finding {
	/** The file as it was given. */
	name: string;
	source: string;
}

/**
 * The flow that is being tried, and its trial job. It lives as long as the page is not reloaded or closed, through other
 * pages of the app too; nothing of it is written to the device.
 */
class TryFlow {
	given = $state.raw<GivenFile[]>([]);
	findings = $state.raw<PlacedFinding[]>([]);
	/** The library with the files in it; the shipped one while none is given. Nothing while the files do not hold together. */
	library = $state.raw<Library>();
	/** Flows among the given files. */
	own = $state.raw<string[]>([]);
	flow = $state('');
	plan = $state('');
	busy = $state(false);
	trouble = $state('');
	job = $state.raw<OpenJob>();
	#round = 0;

	/** The shipped library, while nothing is given. */
	async open(): Promise<void> {
		if (this.library || this.given.length > 0) return;
		await this.give([]);
	}

	/** Check these files, in place of those before. */
	async give(given: GivenFile[]): Promise<void> {
		const round = ++this.#round;
		const taken = takeGiven(given);
		this.trouble = taken.ok ? '' : taken.hint;
		if (!taken.ok) return;
		this.close();
		Object.assign(this, { given, findings: [], library: undefined, own: [], busy: true });
		const checked = await this.#check(taken.files);
		if (round !== this.#round) return;
		this.busy = false;
		if (checked) this.#show(taken.files, checked);
	}

	async #check(files: SourceText[]): Promise<CheckedFiles | undefined> {
		try {
			const library = await openLibrary();
			if (files.length === 0) return { ok: true, library, findings: [] };
			return await checkFiles(startChecker, { library, files });
		} catch (cause) {
			this.trouble = `${cause instanceof Error ? cause.message : String(cause)} Load the page again.`;
			return undefined;
		}
	}

	#show(files: readonly SourceText[], checked: CheckedFiles): void {
		this.findings = checked.findings.map((finding) => {
			const place = files.findIndex(({ path }) => path === finding.file);
			const source = files[place]?.text.split('\n')[finding.line - 1] ?? '';
			return { ...finding, name: this.given[place]?.name ?? finding.file, source: source.slice(0, 200) };
		});
		if (!checked.ok) return;
		this.library = checked.library;
		const ids = files.flatMap(({ text }) => /^id:\s*([a-z][a-z0-9-]*)\s*$/m.exec(text)?.[1] ?? []);
		this.own = ids.filter((id) => Object.hasOwn(checked.library.flows, id));
		this.flow = this.own[0] ?? (Object.hasOwn(checked.library.flows, this.flow) ? this.flow : '');
	}

	/** Play the flow as a job of its own: in memory, in a store that no other job is in. */
	async play(): Promise<void> {
		const { library } = this;
		const flow = library?.flows[this.flow];
		const plan = library?.plans[this.plan];
		if (!library || !flow || !plan) return;
		const { memoryStore } = await import('$lib/job/memory-store.ts');
		const store = memoryStore(world);
		const started = await store.start();
		if (!started.ok) return;
		const job = new OpenJob(started.value.job, store, library, true);
		await job.open();
		await job.add('intake', {
			title: `Trial of "${flow.title}"`,
			plan: plan.id,
			symptom: heardOn(flow, plan) as Record<string, PathOutcome>,
			signs: [...flow.signs],
			history: [],
			playing: false,
			...benchValues(bench.value)
		});
		await job.openFlow(flow.id);
		this.job = job;
	}

	/** End the trial: nothing of it is left. */
	close(): void {
		this.job?.close();
		this.job = undefined;
	}
}

export const tryFlow = new TryFlow();
