import type { Library } from '../flow/library.ts';
import { sheetProblem } from '../flow/provocation.ts';
import type { ServiceVolts } from '../flow/reading.ts';
import { resolveFlow, type ResolvedFlow } from '../flow/resolve.ts';
import type { Plan } from '../receiver/index.ts';
import { withPowerClock } from './clock.ts';
import { contradictionsIn } from './contradictions.ts';
import { differencesFrom } from './differences.ts';
import type { EventKind, EventOf, Intake, JobEvent } from './events.ts';
import { changeOnTheWay, checkPart, notedOn, testPart } from './ledger.ts';
import { growingFold } from './growing.ts';
import { withLessons } from './lessons.ts';
import { machineEventOf, misplaced, outcomeOf, type Move } from './machine-event.ts';
import { onceFor } from './once.ts';
import { sayPhase } from './phase-said.ts';
import { emptySetData, type SetData } from './set-data.ts';
import { reckoningOf } from './set-reckoning.ts';
import { inOrder } from './order.ts';
import { takePicture } from './pictured.ts';
import { contextOf, send, startRun, stateOf } from './run.ts';
import { snapshotOf } from './snapshot.ts';
import { afterChange, afterIntake, passTo, withPower } from './set-power.ts';
import { partIn } from './parts.ts';
import { emptyState, own, type FlowRun, type JobState, type Warning, type WarningKind } from './state.ts';
import { lineOf, type LineContext } from './trail.ts';

export { reopened } from './set-power.ts';

/** What a job is replayed from. */
export interface Shelf {
	/** The flows that the job has kept, by hash. */
	snapshots: Readonly<Record<string, Library>>;
	/** The library of today: differences from it are reported. */
	today?: Library;
}

interface Setting extends Shelf {
	/** Volts of the service sheet as known at the end: a sheet found later judges the earlier readings too. */
	service: ServiceVolts;
	/** The complaint comes and goes, as known at the end. */
	comesAndGoes: boolean;
}

/** The state after an event, and why the event does not count if it does not. */
interface Played {
	state: JobState;
	refused?: string;
	warning?: Omit<Warning, 'event'>;
}

type Handler<Kind extends EventKind> = (
	state: JobState,
	event: EventOf<Kind>,
	order: number,
	setting: Setting
) => Played;

/** Put a run in the place of the one that its flow had, if any; that one's answers still count. */
function withRun(state: JobState, opened: FlowRun): JobState {
	const existing = own(state.flows, opened.flow);
	const earlier = existing ? [...state.earlier, existing] : state.earlier;
	return { ...state, flows: { ...state.flows, [opened.flow]: opened }, earlier, open: opened.flow };
}

const resolvedOf = onceFor<Library, ResolvedFlow>();

const openFlow: Handler<'flow-opened'> = (state, { data }, openedAt, setting) => {
	const { snapshots, today, service, comesAndGoes } = setting;
	const { flow: id, plan: planId, hash } = data;
	const known = own(state.flows, id);
	if (known?.hash === hash)
		return { state: { ...state, flows: { ...state.flows, [id]: { ...known, openedAt } }, open: id } };
	const kept = own(snapshots, hash);
	const library = kept ?? today;
	const [flow, plan] = library ? [own(library.flows, id), own(library.plans, planId)] : [];
	if (!library || !flow || !plan)
		return {
			state,
			refused: `The flow "${id}" is not kept with this job. Import the job again from its file.`
		};
	const { limiterPassed: playing, now: power } = state.power;
	const resolved = resolvedOf(library, `${id} ${planId} ${comesAndGoes}`, () =>
		resolveFlow(library, flow, plan, comesAndGoes)
	);
	const run = startRun(resolved, { playing, power }, service);
	const shelved = kept ?? snapshotOf(library, flow, plan);
	const opened: FlowRun = { flow: id, hash, library: shelved, run, done: [], openedAt };
	return { state: withRun(state, opened), ...(kept ? {} : { warning: missing(flow.title) }) };
};

const missing = (title: string): Omit<Warning, 'event'> => ({
	kind: 'snapshot-missing',
	message: `The job's own copy of "${title}" is missing; it is replayed with the flow of today.`
});

function otherwise(flow: FlowRun, event: Move, service: ServiceVolts): Omit<Warning, 'event'> | undefined {
	if (event.kind !== 'answered') return undefined;
	const data = event.data as EventOf<'answered'>['data'];
	const derived = outcomeOf(flow.run.resolved, data, service);
	if (derived === data.outcome) return undefined;
	const title = flow.run.resolved.steps[data.step]?.title ?? data.step;
	return {
		kind: 'reads-otherwise',
		message: `"${title}": ${data.reading?.typed ?? 'the sheet'} was recorded as "${data.outcome}" and is read as "${derived}" now. The reading counts.`
	};
}

/** Give an event to its flow's machine. */
const move: Handler<Move['kind']> = (state, event, order, { service }) => {
	const id = (event.data as { flow: string }).flow;
	const flow = own(state.flows, id);
	if (!flow) return { state, refused: `The flow "${id}" is not open in this job.` };
	const why = misplaced(flow.run, event as Move);
	if (why !== undefined) return { state, refused: why };
	const given = machineEventOf(flow.run, event as Move, service);
	const run = given && send(flow.run, given);
	if (!run)
		return {
			state,
			refused: `It does not fit where the flow stood (${stateOf(flow.run)}, set ${state.power.now}).`
		};
	const recorded = contextOf(run).past.length > contextOf(flow.run).past.length;
	const done = recorded ? [...flow.done, { event: event as JobEvent, order }] : flow.done;
	const moved = { ...state, flows: { ...state.flows, [id]: { ...flow, run, done } }, open: id };
	const { limiterPassed } = contextOf(run);
	const warning = otherwise(flow, event as Move, service);
	// A red anode: what had been proved on the limiter is proved no more, for the set and every flow of it.
	const told = limiterPassed ? moved : withPower(moved, { ...state.power, limiterPassed });
	return { state: told, ...(warning ? { warning } : {}) };
};

/** Whatever the machine says of it: once a part was changed, the next power is on the limiter. */
const changePart: Handler<'part-changed'> = (state, event, order, setting) => {
	const played: Played = event.data.flow === undefined ? { state } : move(state, event, order, setting);
	return { ...played, state: afterChange(changeOnTheWay(played.state, event, order)) };
};

/** A survey is read on full mains: a reading from any other power state says nothing of these volts. */
const takeReading: Handler<'read'> = (state, { id: event, at, data }, order) => {
	const wrong =
		data.reading.power !== 'live' || state.power.now !== 'live'
			? 'A survey is read on full mains, by the gate. This reading was taken on another power state and does not count.'
			: undefined;
	if (wrong !== undefined) return { state, refused: wrong };
	return { state: { ...state, readings: [...state.readings, { event, order, at, ...data }] } };
};

/** The sheet of a step, as it stands before it is recorded. */
const tally: Handler<'tallied'> = (state, { data: { flow, step: id, provoked } }, order) => {
	const step = own(own(state.flows, flow)?.run.resolved.steps ?? {}, id);
	const wrong = step ? sheetProblem(step, provoked) : `This job has no step "${id}" in hand.`;
	if (wrong !== undefined) return { state, refused: wrong };
	return { state: { ...state, sheets: { ...state.sheets, [id]: { provoked, order } } } };
};

const strike = (state: JobState, target: string): JobState => ({
	...state,
	trail: state.trail.map((line) => (line.event === target ? { ...line, undone: true } : line))
});

function undoMove(state: JobState, id: string, flow: FlowRun, target: string): Played {
	const run = send(flow.run, { type: 'UNDO' });
	if (!run) return { state, refused: 'There is nothing to undo.' };
	const flows = { ...state.flows, [id]: { ...flow, run, done: flow.done.slice(0, -1) } };
	const parts = state.parts.filter(({ event }) => event !== target);
	return { state: withPower(strike({ ...state, flows, parts, open: id }, target), state.power) };
}

/** Kinds of line that belong to no machine. */
const FREE: readonly EventKind[] = [
	'noted',
	'calculated',
	'closed',
	'resolved',
	'cause-sought',
	'heard',
	'guessed',
	'part-tested',
	'phase',
	'experience',
	'set-described',
	'read',
	'pictured',
	'part-checked'
];

/** Lines of no machine; a part changed outside a flow is one too. */
function undoEntry(state: JobState, target: string): Played {
	const line = state.trail.find(({ event }) => event === target);
	const free = line && (FREE.includes(line.kind) || (line.kind === 'part-changed' && !line.flow));
	// Parts listed and marks set leave no line: there are dozens of them.
	const silent = !line && [...state.parts, ...state.marks].some(({ event }) => event === target);
	if (!silent && (!free || line.undone || line.refused !== undefined))
		return {
			state,
			refused:
				'Only the last entry of a flow, a note, a sum, a picture or the closing of the job can be undone.'
		};
	const left = <Entry extends { event: string }>(entries: Entry[]) =>
		entries.filter(({ event }) => event !== target);
	const lists = {
		notes: left(state.notes),
		pictures: left(state.pictures),
		heard: left(state.heard),
		causes: left(state.causes),
		guesses: left(state.guesses),
		phases: left(state.phases),
		experience: left(state.experience),
		described: left(state.described),
		readings: left(state.readings),
		ledger: left(state.ledger),
		parts: left(state.parts),
		marks: left(state.marks)
	};
	return {
		state: strike({ ...state, ...lists, closed: line?.kind === 'closed' ? undefined : state.closed }, target)
	};
}

const undo: Handler<'undone'> = (state, { data: { target } }) => {
	const last = Object.entries(state.flows).find(([, { done }]) => done.at(-1)?.event.id === target);
	return last ? undoMove(state, ...last, target) : undoEntry(state, target);
};

const HANDLERS: { [Kind in EventKind]: Handler<Kind> } = {
	started: (state) => ({ state }),
	intake: (state, { data }) => ({ state: { ...afterIntake(state, data), intake: data } }),
	'flow-opened': openFlow,
	took: move,
	left: move,
	prepared: move,
	power: (state, { data, at }) => {
		const passed = passTo(state, data);
		return { ...passed, state: withPowerClock(state, passed.state, at) };
	},
	answered: move,
	'cannot-tell': move,
	skipped: move,
	suspected: move,
	repairing: move,
	'part-changed': changePart,
	'part-tested': testPart,
	'part-listed': (state, event, order) => ({ state: notedOn(state, event as JobEvent, order) }),
	'part-checked': checkPart,
	marked: (state, { id: event, data }, order) => ({
		state: { ...state, marks: [...state.marks, { event, order, mark: data.mark, data }] }
	}),
	unmarked: (state, { id: event, data: { mark } }, order) => ({
		state: { ...state, marks: [...state.marks, { event, order, mark, data: undefined }] }
	}),
	tallied: tally,
	'clock-started': (state, { at, data: { step } }) => ({
		state: { ...state, clocks: { ...state.clocks, [step]: at } }
	}),
	proved: move,
	calculated: (state) => ({ state }),
	noted: (state, { id, at, data }) => ({
		state: { ...state, notes: [...state.notes, { event: id, at, ...data }] }
	}),
	'cause-sought': (state, { id: event, data }, order) => ({
		state: { ...state, causes: [...state.causes, { event, order, ...data }] }
	}),
	heard: (state, { id: event, data }, order) => ({
		state: { ...state, heard: [...state.heard, { event, order, ...data }] }
	}),
	guessed: (state, { id: event, data }, order) => ({
		state: { ...state, guesses: [...state.guesses, { event, order, ...data }] }
	}),
	'set-described': (state, { id: event, data }, order) => ({
		state: { ...state, described: [...state.described, { event, order, data }] }
	}),
	read: takeReading,
	pictured: takePicture,
	undone: undo,
	resolved: (state) => ({ state }),
	'gave-up': move,
	'went-on': move,
	closed: (state, { data }) => ({ state: { ...state, closed: data } }),
	phase: sayPhase,
	experience: (state, { id: event, data }, order) => ({
		state: { ...state, experience: [...state.experience, { event, order, ...data }] }
	})
};

/** Whether something was measured on a part, and noted, or the part was tested. */
const measuredBefore = (state: JobState, part: string | undefined, listed: string | undefined): boolean =>
	partIn(state.parts, listed)?.measured === true ||
	(part !== undefined &&
		(state.notes.some((note) => note.part === part) ||
			state.ledger.some((line) => line.suspect === part && line.state !== 'changed')));

function contextFor(state: JobState, event: JobEvent, { service, today, snapshots }: Setting): LineContext {
	const told = event.kind === 'pictured' ? event.data.of : event.data;
	const {
		flow: id,
		step,
		part,
		listed = part
	} = told as { flow?: string; step?: string; part?: string; listed?: string };
	const holder = Object.values(state.flows).find(
		({ run }) =>
			(step !== undefined && Object.hasOwn(run.resolved.steps, step)) ||
			run.resolved.suspects.some((suspect) => suspect.id === part)
	);
	const flow = own(state.flows, id) ?? holder;
	const planId = event.kind === 'intake' ? event.data.plan : state.intake?.plan;
	return {
		resolved: flow?.run.resolved,
		plan: planOf({ snapshots, ...(today ? { today } : {}) }, planId),
		suspect: flow && contextOf(flow.run).suspect,
		measured: measuredBefore(state, part, listed),
		listed: partIn(state.parts, listed)?.name,
		...(flow && event.kind === 'answered'
			? { outcome: outcomeOf(flow.run.resolved, event.data, service) }
			: {})
	};
}

const warned = (state: JobState, event: string, kind: WarningKind, message: string): JobState => ({
	...state,
	warnings: [...state.warnings, { event, kind, message }]
});

/** An entry that a newer program has written. */
const unknown: Handler<EventKind> = (state, { kind }) => ({
	state,
	refused: `This program knows no entry of the kind "${kind}". Reload the page to get the newest program.`
});

function play(before: JobState, event: JobEvent, order: number, setting: Setting): JobState {
	const handler = (own(HANDLERS, event.kind) ?? unknown) as Handler<EventKind>;
	const { state, refused, warning } = handler(before, event, order, setting);
	const line = lineOf(event, contextFor(state, event, setting), refused);
	let after = line ? { ...state, trail: [...state.trail, line] } : state;
	if (refused !== undefined) after = warned(after, event.id, 'refused', refused);
	return warning ? warned(after, event.id, warning.kind, warning.message) : after;
}

/** Owned by the snapshots of the job: a page that reads them once replays only what was added. */
const playAll = growingFold<object, JobEvent, JobState>();

const lastIntake = (events: readonly JobEvent[]): Intake | undefined =>
	events.findLast((event) => event.kind === 'intake')?.data;

/** The set's data that hold at the end: an entry that was taken back does not. A survey alone makes a set without a sheet. */
function lastSetData(events: readonly JobEvent[]): SetData | undefined {
	const undone = new Set(events.flatMap((event) => (event.kind === 'undone' ? [event.data.target] : [])));
	const standing = events.filter(({ id }) => !undone.has(id));
	const last = standing.findLast((event) => event.kind === 'set-described');
	if (last) return last.data;
	return standing.some(({ kind }) => kind === 'read') ? emptySetData() : undefined;
}

/** The plan that the job's own flows have kept, else today's: a replay goes by what the job was begun with. */
const keptPlan = ({ today, snapshots }: Shelf, id: string | undefined): Plan | undefined =>
	planOf({ snapshots }, id) ?? (today && own(today.plans, id));

/** A plan by its id, today's first; one that only an old flow of the job has kept will do. */
function planOf({ today, snapshots }: Shelf, id: string | undefined): Plan | undefined {
	const libraries = [today, ...Object.values(snapshots)];
	return libraries.map((library) => library && own(library.plans, id)).find((plan) => plan);
}

/**
 * Play a job from its events. Pure: the same events, in whatever order they are handed over, give the same state.
 * What cannot be played is reported in `warnings` and stays in the trail.
 */
export function replay(events: readonly JobEvent[], shelf: Shelf): JobState {
	const state = withLessons(playThrough(events, shelf));
	return shelf.today
		? { ...state, warnings: [...state.warnings, ...differencesFrom(shelf.today, state)] }
		: state;
}

/** The job played, without what each answer has taught: that is reasoned anew from every answer. */
export function playThrough(events: readonly JobEvent[], shelf: Shelf): JobState {
	const { events: ordered, stray } = inOrder(events);
	const intake = lastIntake(ordered);
	const data = lastSetData(ordered);
	const service = data
		? reckoningOf().serviceInForce(keptPlan(shelf, intake?.plan), intake, data)
		: (intake?.service ?? {});
	const comesAndGoes = Object.values(intake?.symptom ?? {}).includes('intermittent');
	const setting: Setting = { ...shelf, service, comesAndGoes };
	const job = ordered[0]?.job ?? '';
	const played = playAll(
		// With a library beside the snapshots nothing is remembered.
		shelf.today ? {} : shelf.snapshots,
		JSON.stringify([job, service, comesAndGoes]),
		ordered,
		() => ({ ...emptyState(job), service }),
		(state, event, order) => play(state, event, order, setting)
	);
	const complete = stray.reduce(
		(state, { id }) =>
			warned(state, id, 'parent-missing', 'What came before this entry is missing from the log.'),
		played
	);
	return contradictionsIn(ordered, complete);
}
