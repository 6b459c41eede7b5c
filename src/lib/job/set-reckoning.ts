import type * as InForce from './set-in-force.ts';

/**
 * What of a set's data needs the valve data. They are large, so a page loads them while it reads the job, not before it can
 * do anything.
 */
let reckoning: typeof InForce | undefined;

/** To be awaited before a job is played. */
export async function loadReckoning(): Promise<void> {
	reckoning ??= await import('./set-in-force.ts');
}

/** Throws where a page has forgotten to load it: the job would be judged by other volts than it was. */
export function reckoningOf(): typeof InForce {
	if (!reckoning)
		throw new Error('loadReckoning() comes before the first replay of a job with data of its set');
	return reckoning;
}
