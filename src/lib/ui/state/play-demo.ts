import { demo } from '$lib/job/demo.ts';
import { OpenJob } from './open-job.svelte.ts';
import { openLibrary, openStore } from './world.ts';

export type PlayedDemo = { ok: true; job: string } | { ok: false; hint: string };

/** Enter the demo as a person would, into the store that all jobs are in; it is deleted like any of them. */
export async function playDemo(): Promise<PlayedDemo> {
	const [{ store }, library] = await Promise.all([openStore(), openLibrary()]);
	const started = await store.start();
	if (!started.ok) return { ok: false, hint: started.hint };
	const { intake, flow, entries } = demo();
	const job = new OpenJob(started.value.job, store, library);
	await job.open();
	const kept = (await job.add('intake', intake)) && (await job.openFlow(flow), await job.addAll(entries));
	job.close();
	return kept ? { ok: true, job: job.id } : { ok: false, hint: job.problem ?? '' };
}
