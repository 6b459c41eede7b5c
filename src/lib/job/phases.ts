import { isCapacitor } from '../flow/part-terms.ts';
import { PHASES, type Phase } from './events.ts';
import { partsFrom } from './parts.ts';
import { safetyLines } from './report-safety.ts';
import { contextOf, stateOf } from './run.ts';
import { factsOf } from './shared-evidence.ts';
import { allRuns, own, type FlowRun, type JobState, type PhaseSaid } from './state.ts';
import { changesIn, unprovedChanges } from './unproved.ts';

/**
 * The whole job as a list of its parts. What the log shows is read from it; what it cannot show is said by hand. Each is
 * open at any time, and what is done in one counts in the others, as all look at one log.
 */

export type PhaseState = 'to do' | 'begun' | 'done' | 'not needed';

export interface PhaseRow {
	id: Phase;
	title: string;
	state: PhaseState;
	/** What the state rests on, in a sentence. */
	because: string;
	/** The entry by which it was set by hand; undone, the log speaks again. */
	said?: string;
}

type Found = Pick<PhaseRow, 'state' | 'because'>;

/** Work in a fixed order that belongs to a phase: flows by id, the first that fits the set is opened. */
export const PHASE_FLOWS: Partial<Record<Phase, readonly string[]>> = {
	'cold-checks': ['wake-after-storage', 'wake-battery-set'],
	'first-power': ['wake-after-storage', 'wake-battery-set'],
	alignment: ['align-am', 'align-fm'],
	closing: ['closing-tests', 'closing-battery-set']
};

/** What was said by hand of these ends with the next change of a part. */
const UNTIL_CHANGED: readonly Phase[] = ['first-power', 'closing'];

const CAPACITORS: readonly (string | undefined)[] = ['paper-capacitor', 'electrolytic', 'mica-capacitor'];

const count = (number: number, one: string, many = `${one}s`) => `${number} ${number === 1 ? one : many}`;

/** How many steps of these flows were told, and how many are left; a step that cannot be told is told. */
function stepsOf(runs: readonly FlowRun[], only: (power: string) => boolean = () => true) {
	let [told, left] = [0, 0];
	for (const { run } of runs) {
		const { answers, unavailable } = contextOf(run);
		const known = new Set([...answers, ...unavailable].map(({ step }) => step));
		const steps = Object.entries(run.resolved.steps).filter(([, { power }]) => only(power));
		const done = steps.filter(([id]) => known.has(id)).length;
		told += done;
		left += steps.length - done;
	}
	return { told, left };
}

const opened = (state: JobState, phase: Phase): FlowRun[] =>
	(PHASE_FLOWS[phase] ?? []).flatMap((id) => own(state.flows, id) ?? []);

function byProcedure(state: JobState, phase: Phase, only?: (power: string) => boolean): Found | undefined {
	const runs = opened(state, phase);
	const { told, left } = stepsOf(runs, only);
	if (told === 0) return undefined;
	return left === 0
		? { state: 'done', because: `${count(told, 'step')} told.` }
		: { state: 'begun', because: `${count(told, 'step')} told, ${left} left.` };
}

function intake({ intake: taken }: JobState): Found {
	return taken
		? { state: 'done', because: 'Kind of set, complaint and past are written down.' }
		: { state: 'to do', because: 'Nothing is known of the set yet.' };
}

function makeSafe({ power, trail }: JobState): Found {
	if (power.now === 'unplugged')
		return { state: 'done', because: 'Unplugged, and proved dead by two readings.' };
	const proved = trail.some((line) => line.kind === 'power' && line.reading && line.refused === undefined);
	if (power.now !== 'off') return { state: proved ? 'begun' : 'to do', because: 'The set is under power.' };
	return proved
		? { state: 'begun', because: 'It was proved dead before. Prove it again before a hand goes in.' }
		: { state: 'to do', because: 'Never proved dead in this job.' };
}

function coldChecks(state: JobState): Found {
	const found = byProcedure(state, 'cold-checks', (power) => power === 'unplugged');
	if (found) return found;
	const cold = factsOf(state).filter(({ answer }) => answer.power === 'unplugged').length;
	return cold
		? { state: 'begun', because: `${count(cold, 'answer')} from the cold set.` }
		: { state: 'to do', because: 'Nothing was measured cold yet.' };
}

function capacitors(state: JobState): Found {
	const listed = partsFrom(state.parts).filter(({ kind }) => isCapacitor(kind));
	const untouched = listed.filter((part) => part.state === 'untouched').length;
	if (listed.length > untouched)
		return untouched === 0
			? { state: 'done', because: `${count(listed.length, 'capacitor')} on the list, each settled.` }
			: { state: 'begun', because: `${listed.length - untouched} of ${listed.length} on the list settled.` };
	const told = capacitorsOnTheWay(state);
	if (told > 0) return { state: 'begun', because: `${count(told, 'capacitor')} tested or changed.` };
	const because = listed.length
		? `${count(listed.length, 'capacitor')} on the list, none touched yet.`
		: 'No capacitor was tested or changed yet.';
	return { state: 'to do', because };
}

/** Capacitors tested or changed by their suspects, without a list. */
function capacitorsOnTheWay(state: JobState): number {
	const kinds = new Map(
		allRuns(state).flatMap(({ run }) => run.resolved.suspects.map(({ id, suspect }) => [id, suspect.kind]))
	);
	const changed = allRuns(state).flatMap(({ done }) =>
		done.flatMap(({ event }) => (event.kind === 'part-changed' ? [event.data.part] : []))
	);
	const parts = new Set([...state.ledger.map(({ suspect }) => suspect), ...changed]);
	return [...parts].filter((part) => CAPACITORS.includes(kinds.get(part))).length;
}

function firstPower(state: JobState): Found {
	const { now, limiterPassed, partChanged } = state.power;
	if (limiterPassed)
		return state.intake?.playing && !partChanged
			? { state: 'not needed', because: 'It was running on full mains when it came in.' }
			: { state: 'done', because: 'It has come through the limiter to full mains.' };
	if (now === 'limiter') return { state: 'begun', because: 'It is on the limiter now.' };
	if (partChanged)
		return { state: 'begun', because: 'A part was changed: the next power is on the limiter again.' };
	const tried = factsOf(state).some(({ answer }) => answer.power === 'limiter');
	return tried
		? { state: 'begun', because: 'It was on the limiter, and has not gone on to full mains.' }
		: { state: 'to do', because: 'It had no power in this job yet.' };
}

function voltages(state: JobState): Found {
	const points = new Set(state.readings.map(({ point }) => point));
	let all: string[] = [];
	for (const { run } of allRuns(state)) {
		all = Object.entries(run.resolved.plan.points).flatMap(([id, { volts }]) => (volts ? [id] : []));
		for (const { step: id } of contextOf(run).answers) {
			const step = run.resolved.steps[id];
			if (step?.kind === 'measure' && step.measure === 'DC volts') points.add(step.at);
		}
	}
	if (points.size === 0) return { state: 'to do', because: 'No voltage was read yet.' };
	const left = all.filter((point) => !points.has(point)).length;
	return left === 0
		? { state: 'done', because: `Read at ${count(points.size, 'point')}.` }
		: { state: 'begun', because: `Read at ${count(points.size, 'point')}, ${left} left.` };
}

function trace(state: JobState): Found {
	const runs = Object.values(state.flows).filter(({ run }) => !run.resolved.flow.procedure);
	if (runs.length === 0) {
		const { symptom = {}, signs = [] } = state.intake ?? {};
		const plays = Object.values(symptom);
		return plays.length > 0 && signs.length === 0 && plays.every((heard) => heard === 'good')
			? { state: 'not needed', because: 'Every band plays.' }
			: { state: 'to do', because: 'No complaint is traced yet.' };
	}
	const open = runs.filter(({ run }) => stateOf(run) !== 'cured');
	if (open.length === 0) return { state: 'done', because: `${count(runs.length, 'complaint')} cured.` };
	return {
		state: 'begun',
		because: `In hand: ${open.map(({ run }) => run.resolved.flow.title).join('; ')}.`
	};
}

function parts(state: JobState): Found {
	const changes = changesIn(state);
	const unproved = unprovedChanges(state).length;
	if (changes.length === 0)
		return state.closed
			? { state: 'not needed', because: 'No part was changed.' }
			: { state: 'to do', because: 'No part was changed yet.' };
	return unproved
		? { state: 'begun', because: `${count(unproved, 'change')} not heard since.` }
		: { state: 'done', because: `${count(changes.length, 'change')}, the set heard after each.` };
}

function alignment(state: JobState): Found {
	return (
		byProcedure(state, 'alignment') ?? { state: 'to do', because: 'Comes last, when every fault is cured.' }
	);
}

function closing(state: JobState): Found {
	const found = byProcedure(state, 'closing');
	if (!found) return { state: 'to do', because: 'Not tested.' };
	const open = safetyLines(state).filter((line) => line.open).length;
	if (open > 0) return { state: 'begun', because: `${count(open, 'part')} not passed or not tested.` };
	return found;
}

function report({ closed }: JobState): Found {
	return closed
		? { state: 'done', because: 'The job is closed.' }
		: { state: 'to do', because: 'Stands at any time; the job is not closed.' };
}

const FOUND: Record<Phase, (state: JobState) => Found> = {
	intake,
	'make-safe': makeSafe,
	'cold-checks': coldChecks,
	capacitors,
	'first-power': firstPower,
	voltages,
	trace,
	parts,
	alignment,
	closing,
	report
};

/** Place in the order of the job of the last change of a part; -1 where none was changed. */
const lastChange = (state: JobState): number =>
	Math.max(
		-1,
		...state.parts.filter(({ kind }) => kind === 'part-changed').map(({ order }) => order),
		...state.ledger.filter((line) => line.state === 'changed').map(({ order }) => order),
		...allRuns(state).flatMap(({ done }) =>
			done.filter(({ event }) => event.kind === 'part-changed').map(({ order }) => order)
		)
	);

const SAID: Record<PhaseSaid['state'], PhaseState> = {
	'to-do': 'to do',
	done: 'done',
	'not-needed': 'not needed'
};

function saidOf(state: JobState, id: Phase): PhaseSaid | undefined {
	const said = state.phases.findLast(({ phase }) => phase === id);
	return said && UNTIL_CHANGED.includes(id) && said.order < lastChange(state) ? undefined : said;
}

/** Every part of the job in the order of the trade. */
export function phasesOf(state: JobState): PhaseRow[] {
	return (Object.keys(PHASES) as Phase[]).map((id): PhaseRow => {
		const said = saidOf(state, id);
		if (!said) return { id, title: PHASES[id], ...FOUND[id](state) };
		return {
			id,
			title: PHASES[id],
			state: SAID[said.state],
			because: said.reason ? `Said by hand: ${said.reason}` : 'Said by hand; no entry shows it.',
			said: said.event
		};
	});
}
