import type { Library } from '../flow/library.ts';
import { isFit, matchFlows } from '../flow/match.ts';
import { nameOf } from '../flow/explain.ts';
import type { Power } from '../flow/machine-types.ts';
import { resolveFlow } from '../flow/resolve.ts';
import type { Flow } from '../flow/schema.ts';
import { standings, trace, type Standing } from '../flow/trace.ts';
import type { EventData } from './events.ts';
import { contextOf, stateOf } from './run.ts';
import { evidenceFor, proofsIn, type Proof } from './shared-evidence.ts';
import { allRuns, own, type Heard, type JobState } from './state.ts';
import { LOUD } from './unproved.ts';

/**
 * What a change of a part asks for next: the cause behind it before power goes back on, the bands again after a cure or
 * a change of symptom, and the flows that what is heard now leads to.
 */

/** A changed part that fails because of another, while nobody has said what was found behind it. */
export interface CauseWanted {
	flow: string;
	/** The suspect that was changed. */
	part: string;
	name: string;
	/** What to look for, Markdown. */
	text: string;
}

/** Of a part that has been changed and not proved yet. */
export function causeWanted(state: JobState): CauseWanted | undefined {
	for (const flow of allRuns(state)) {
		if (stateOf(flow.run) !== 'proving') continue;
		const part = contextOf(flow.run).suspect;
		const placed = flow.run.resolved.suspects.find(({ id }) => id === part);
		const changed = flow.done.findLast(({ event }) => event.kind === 'part-changed');
		const text = placed?.suspect.behind;
		if (part === undefined || text === undefined || !changed) continue;
		const told = state.causes.some((cause) => cause.part === part && cause.order > changed.order);
		if (!told) return { flow: flow.flow, part, name: nameOf(placed), text };
	}
	return undefined;
}

/** Why the set gets no power yet, as far as the change of a part is concerned. */
export function causeGate(state: JobState, to: Power): string | undefined {
	const wanted = to === 'limiter' || to === 'live' ? causeWanted(state) : undefined;
	return (
		wanted &&
		`Look for the cause first. This part fails because of another: ${wanted.name}. Say what you found behind it, then power may go back on.`
	);
}

/** The proof made last, over all flows. */
export const lastProof = (state: JobState): Proof | undefined =>
	proofsIn(state).reduce<Proof | undefined>((a, b) => (a && a.order > b.order ? a : b), undefined);

/** What was heard after a place in the order of the job; a quick listen that is as before asks for nothing. */
const heardSince = (state: JobState, order: number): Heard | undefined =>
	state.heard.findLast(
		(heard) => heard.order > order && (heard.listened === undefined || LOUD.includes(heard.listened))
	);

/** Whether a flow has moved, or another was opened, after a place in the order. */
const movedSince = (state: JobState, order: number): boolean =>
	allRuns(state).some((flow) => flow.openedAt > order || flow.done.some((done) => done.order > order));

export type Listening =
	/** The bands are to be heard again. */
	| { wanted: 'cured' | 'changed'; heard?: never }
	/** They were: what each does now. */
	| { wanted?: never; heard: Heard };

/**
 * What the open flow's page has to ask or show about the bands: after a cure until each was heard, after a changed
 * symptom until the trace goes on, and whenever the restorer has said that the complaint is another one.
 */
export function listening(state: JobState): Listening | undefined {
	const open = own(state.flows, state.open);
	if (!open) return undefined;
	const proof = lastProof(state);
	const cured = stateOf(open.run) === 'cured';
	const since = cured ? (proofsIn(state).findLast(({ flow }) => flow === open.flow)?.order ?? -1) : -1;
	const last = heardSince(state, Math.max(since, proof?.order ?? -1));
	if (cured) return last ? { heard: last } : { wanted: 'cured' };
	if (stateOf(open.run) !== 'choosing') return undefined;
	if (last) return movedSince(state, last.order) ? undefined : { heard: last };
	return proof?.symptom === 'changed' && !movedSince(state, proof.order) ? { wanted: 'changed' } : undefined;
}

/** A flow that what is heard now leads to, and what the job knows of it already. */
export interface Offer {
	flow: Flow;
	/** It says just what is heard. */
	fits: boolean;
	/** It is the one that is open. */
	open: boolean;
	/** Answers of this job that count there, and parts that are out of question there. */
	answers: number;
	parts: number;
	/** Who leads there by all that is known. */
	first: Standing | undefined;
}

/** How many flows are offered where none fits. */
const NEAREST = 3;

/** Every band was heard, and plays. */
export const allGood = (bands: EventData['heard']['bands'], all: readonly string[]): boolean =>
	all.every((band) => bands[band] === 'good');

/** The flows for what is heard now, those that fit first; where none does, the nearest. */
export function offersFor(library: Library, state: JobState, heard: EventData['heard']): Offer[] {
	const plan = own(library.plans, state.intake?.plan);
	if (!plan) return [];
	const matches = matchFlows(library, plan, heard.bands, heard.signs);
	const fitting = matches.filter(isFit);
	const shown = fitting.length ? fitting : matches.slice(0, NEAREST);
	return shown.map((match): Offer => {
		const resolved = own(state.flows, match.flow.id)?.run.resolved ?? resolveFlow(library, match.flow, plan);
		const evidence = evidenceFor(state, resolved);
		const ids = new Set(resolved.suspects.map(({ id }) => id));
		const now = trace(resolved, evidence);
		return {
			flow: match.flow,
			fits: isFit(match),
			open: state.open === match.flow.id,
			answers: now.answers.length,
			parts: new Set(evidence.mended.flatMap(({ suspect }) => (ids.has(suspect) ? [suspect] : []))).size,
			first: standings(now)[0]
		};
	});
}
