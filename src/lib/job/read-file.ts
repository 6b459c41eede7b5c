import './no-jit.ts';
import { z } from 'zod';
import type { Library } from '../flow/library.ts';
import { Caution, Flow, History, Source, Step, Suspect } from '../flow/schema.ts';
import { checkPlan } from '../receiver/index.ts';
import { Plan } from '../receiver/plan.ts';
import { DATA, Envelope, EVENT_KINDS } from './event-schema.ts';
import { eventId, type EventData, type JobEvent } from './events.ts';
import { FORMAT, LARGEST_FILE, VERSION } from './file.ts';
import { inOrder } from './order.ts';
import { replay } from './replay.ts';
import { loadReckoning } from './set-reckoning.ts';
import { own } from './state.ts';
import { matchesHash, type Digest } from './snapshot.ts';
import { hashesOf, type JobFile } from './store.ts';

// No code is made at run time: the page's policy forbids it, and the probe for it would be reported.
z.config({ jitless: true });

/** A file is taken whole or not at all: where it fails, and why. */
export interface FileRefusal {
	ok: false;
	/** `line 14, event k3v9.12, data.outcome`. */
	place: string;
	hint: string;
}
export type FileResult = { ok: true; file: JobFile } | FileRefusal;

const refuse = (place: string, hint: string): FileRefusal => ({ ok: false, place, hint });

const lineAt = (text: string, index: number): number => text.slice(0, index).split('\n').length;

/** Where an event stands in the file, by its id; files that were edited may hold it elsewhere or not at all. */
function placeOfEvent(text: string, id: unknown, index: number): string {
	const found = typeof id === 'string' ? text.indexOf(`"id":${JSON.stringify(id)}`) : -1;
	const event = typeof id === 'string' ? `event ${id.slice(0, 100)}` : `event number ${index + 1}`;
	return found < 0 ? event : `line ${lineAt(text, found)}, ${event}`;
}

const firstIssue = (error: z.ZodError): { path: string; message: string } => {
	const [issue] = error.issues;
	return { path: issue?.path.join('.') ?? '', message: issue?.message ?? '' };
};

/** The file as JSON. An engine that names the position of the fault lets us name the line. */
function parse(text: string): { ok: true; data: unknown } | FileRefusal {
	try {
		return { ok: true, data: JSON.parse(text) };
	} catch (error) {
		const position = /position (\d+)/.exec(String(error))?.[1];
		const line = lineAt(text, position === undefined ? text.length : Number(position));
		return refuse(
			`line ${line}`,
			'The file breaks off or is damaged here. Take it again from where it was saved.'
		);
	}
}

const Frame = z.strictObject({
	format: z.literal(FORMAT),
	version: z.literal(VERSION),
	exported: z.iso.datetime(),
	events: z.array(z.unknown()).min(1),
	flows: z.record(z.string(), z.unknown())
});
type Frame = z.infer<typeof Frame>;

function frameOf(data: unknown): { ok: true; frame: Frame } | FileRefusal {
	const head = (typeof data === 'object' && data !== null ? data : {}) as Record<string, unknown>;
	if (head['format'] !== FORMAT)
		return refuse(
			'the beginning',
			'This is not a job of this program. Choose a file that was saved from a job.'
		);
	if (head['version'] !== VERSION)
		return refuse(
			'version',
			`The file is of version ${String(head['version'])}; this program reads version ${VERSION}. Reload the page to get the newest program, then try again.`
		);
	const parsed = Frame.safeParse(data);
	if (parsed.success) return { ok: true, frame: parsed.data };
	const { path, message } = firstIssue(parsed.error);
	return refuse(
		path || 'the beginning',
		`The file is not as it was saved: ${message}. Take it again from where it was saved.`
	);
}

function readEvent(text: string, raw: unknown, index: number): JobEvent | FileRefusal {
	const place = placeOfEvent(text, (raw as { id?: unknown } | null)?.id, index);
	const envelope = Envelope.safeParse(raw);
	if (!envelope.success) return refuseEvent(place, envelope.error);
	const kind = EVENT_KINDS.find((known) => known === envelope.data.kind);
	if (!kind)
		return refuse(
			`${place}, kind`,
			`This program knows no entry of the kind "${envelope.data.kind.slice(0, 60)}". Reload the page to get the newest program, then try again.`
		);
	const data = DATA[kind].safeParse(envelope.data.data);
	if (!data.success) return refuseEvent(`${place}, data`, data.error);
	// As it was written, key for key: an event never changes, not even on its way through a file.
	return raw as JobEvent;
}

function refuseEvent(place: string, error: z.ZodError): FileRefusal {
	const { path, message } = firstIssue(error);
	return refuse(
		path ? `${place}, ${path}` : place,
		`The entry cannot be read: ${message}. Take the file again from where it was saved.`
	);
}

function readEvents(text: string, raw: readonly unknown[]): { ok: true; events: JobEvent[] } | FileRefusal {
	const events: JobEvent[] = [];
	for (const [index, one] of raw.entries()) {
		const event = readEvent(text, one, index);
		if ('ok' in event) return event;
		events.push(event);
	}
	return brokenLog(text, events) ?? { ok: true, events };
}

/** What no single entry shows: one job, ids that fit, one beginning, and every parent there. */
function brokenLog(text: string, events: readonly JobEvent[]): FileRefusal | undefined {
	const at = (event: JobEvent) => placeOfEvent(text, event.id, events.indexOf(event));
	const job = events[0]?.job;
	const ids = new Set<string>();
	for (const event of events) {
		if (event.job !== job)
			return refuse(
				at(event),
				'The entry belongs to another job than those before it. Save each job to a file of its own.'
			);
		if (event.id !== eventId(event.bench, event.seq))
			return refuse(at(event), `Its id does not go with bench "${event.bench}" and number ${event.seq}.`);
		if (ids.has(event.id))
			return refuse(at(event), 'Two entries have this id. Take the file again from where it was saved.');
		if ((event.kind === 'started') !== (event.parents.length === 0))
			return refuse(at(event), 'A job has one beginning, and every other entry follows one before it.');
		ids.add(event.id);
	}
	const starts = events.filter(({ kind }) => kind === 'started');
	if (starts.length !== 1)
		return refuse('events', `A job begins once; this file has ${starts.length} beginnings.`);
	const [stray] = inOrder(events).stray;
	return (
		stray &&
		refuse(
			at(stray),
			'What came before this entry is missing from the file, or follows it. Take the file again from where it was saved.'
		)
	);
}

const Id = z.string().regex(/^[a-z][a-z0-9-]*$/);
const Kept = z.strictObject({
	suspects: z.record(Id, Suspect),
	steps: z.record(Id, Step),
	cautions: z.record(Id, Caution),
	sources: z.record(z.string(), Source),
	plans: z.record(Id, Plan),
	flows: z.record(Id, Flow),
	/** Files from before there was one have none. */
	history: z.record(Id, History).optional()
});

/** The flow as it was kept: what the schema adds of its own would change its hash. */
async function readFlow(hash: string, raw: unknown, digest: Digest): Promise<Library | FileRefusal> {
	const place = `flow ${hash.slice(0, 18)}`;
	const parsed = Kept.safeParse(raw);
	if (!parsed.success) {
		const { path, message } = firstIssue(parsed.error);
		return refuse(`${place}, ${path}`, `The flow kept with this job cannot be read: ${message}`);
	}
	for (const plan of Object.values(parsed.data.plans)) {
		const [problem] = checkPlan(plan);
		if (problem)
			return refuse(
				`${place}, plans.${plan.id}.${problem.path.join('.')}`,
				`${problem.message} ${problem.remedy}`
			);
	}
	const library = raw as Library;
	if ((await matchesHash({ hash, library }, digest)) === false)
		return refuse(
			place,
			'This flow is not the one that the job was worked with: it has been changed since. Take the file again from where it was saved.'
		);
	return library;
}

async function readFlows(
	raw: Record<string, unknown>,
	digest: Digest
): Promise<{ ok: true; flows: Record<string, Library> } | FileRefusal> {
	const flows: Record<string, Library> = {};
	for (const [hash, one] of Object.entries(raw)) {
		const library = await readFlow(hash, one, digest);
		if ('ok' in library) return library;
		flows[hash] = library;
	}
	return { ok: true, flows };
}

const isKept = ({ flow, plan, hash }: EventData['flow-opened'], flows: JobFile['flows']): boolean => {
	const library = own(flows, hash);
	return (
		library !== undefined && own(library.flows, flow)?.id === flow && own(library.plans, plan)?.id === plan
	);
};

/** Every flow that the job opens is in the file, and plays. */
function unplayable(text: string, { events, flows }: JobFile): FileRefusal | undefined {
	const without = events.find((event) => event.kind === 'flow-opened' && !isKept(event.data, flows));
	if (without)
		return refuse(
			placeOfEvent(text, without.id, events.indexOf(without)),
			'The flow that is opened here is not in the file.'
		);
	const named = hashesOf(events);
	const foreign = Object.keys(flows).find((hash) => !named.includes(hash));
	if (foreign) return refuse(`flow ${foreign.slice(0, 18)}`, 'The job never opens this flow.');
	try {
		replay(events, { snapshots: flows });
		return undefined;
	} catch (error) {
		// Only a flow whose names lead nowhere can stop a replay: written by hand, or changed under the same hash.
		return refuse(
			'flows',
			`A flow in the file does not hold together: ${error instanceof Error ? error.message : String(error)}`
		);
	}
}

/**
 * Read a job from the text of a file. Everything is checked before anything is taken; nothing is stored here.
 *
 * @param digest SHA-256 of the page; without it a flow named by `sha256:` is taken unproved
 */
export async function readJobFile(text: string, digest: Digest): Promise<FileResult> {
	await loadReckoning();
	if (new TextEncoder().encode(text).length > LARGEST_FILE)
		return refuse(
			'the file',
			`It is larger than ${LARGEST_FILE / 1e6} MB, which no job comes near. Choose a file that was saved from a job.`
		);
	const parsed = parse(text);
	if (!parsed.ok) return parsed;
	const framed = frameOf(parsed.data);
	if (!framed.ok) return framed;
	const { exported, events: rawEvents, flows: rawFlows } = framed.frame;
	const events = readEvents(text, rawEvents);
	if (!events.ok) return events;
	const flows = await readFlows(rawFlows, digest);
	if (!flows.ok) return flows;
	const file: JobFile = {
		format: FORMAT,
		version: VERSION,
		exported,
		events: events.events,
		flows: flows.flows
	};
	return unplayable(text, file) ?? { ok: true, file };
}
