import { createActor, initialTransition } from 'xstate';
import { compileFlow, powerSuits, stepState, type FlowMachine } from '../flow/compile.ts';
import type { MachineContext, MachineEvent, MachineInput, Power } from '../flow/machine-types.ts';
import type { ServiceVolts } from '../flow/reading.ts';
import type { ResolvedFlow } from '../flow/resolve.ts';
import type { StepPower } from '../flow/terms.ts';
import type { Evidence } from '../flow/trace.ts';
import type { Situation } from '../flow/advice.ts';
import type { Instrument } from '../flow/terms.ts';
import { onceFor } from './once.ts';

type Snapshot = ReturnType<typeof initialTransition<FlowMachine>>[0];

/**
 * One flow on one set, moved by events. Immutable: `send` gives the next run, or `undefined` where the machine
 * has no transition for the event (a closed gate, an unknown step).
 */
export interface Run {
	readonly resolved: ResolvedFlow;
	readonly machine: FlowMachine;
	readonly snapshot: Snapshot;
}

const machineOf = onceFor<ResolvedFlow, FlowMachine>();

export function startRun(resolved: ResolvedFlow, input: MachineInput, service: ServiceVolts = {}): Run {
	const machine = machineOf(resolved, JSON.stringify(service), () => compileFlow(resolved, service));
	const [snapshot] = initialTransition(machine, input);
	return { resolved, machine, snapshot };
}

type Scope = Parameters<FlowMachine['transition']>[2];
const scopes = onceFor<FlowMachine, Scope>();
const nothing = () => undefined;

/**
 * What a transition is handed that starts nothing and tells nobody. XState's own `transition` makes one for each event,
 * with an actor and its first state: a third of a replay.
 */
function inertScope(machine: FlowMachine): Scope {
	const self = createActor(machine, { input: { playing: false, power: 'off' } });
	return {
		self,
		system: self.system,
		id: '',
		sessionId: '',
		logger: nothing,
		defer: nothing,
		emit: nothing,
		stopChild: nothing,
		actionExecutor: nothing
	};
}

export function send(run: Run, event: MachineEvent): Run | undefined {
	const { machine, snapshot } = run;
	if (!snapshot.can(event)) return undefined;
	const scope = scopes(machine, '', () => inertScope(machine));
	return { ...run, snapshot: machine.transition(snapshot, event, scope) };
}

export const stateOf = ({ snapshot }: Run): string => String(snapshot.value);
export const contextOf = ({ snapshot }: Run): MachineContext => snapshot.context;

/** Power state for the arithmetic of minutes: switched off costs as much as unplugged. */
export const stepPower = (power: Power): StepPower => (power === 'off' ? 'unplugged' : power);

/** What the reasoning needs of a run. */
export function evidenceOf(run: Run, instruments?: readonly Instrument[], service?: ServiceVolts): Evidence {
	const { answers, mended } = contextOf(run);
	return { answers, mended, ...(instruments ? { instruments } : {}), ...(service ? { service } : {}) };
}

export function situationOf(
	run: Run,
	instruments?: readonly Instrument[],
	reopened: readonly string[] = []
): Situation {
	const { answers, power, limiterPassed, skipped, unavailable } = contextOf(run);
	return {
		// A set that must go through the limiter again is switched off first, whatever it is on now.
		power: power === 'live' && !limiterPassed ? 'unplugged' : stepPower(power),
		answered: answers.map(({ step, outcome }) => ({ step, outcome })),
		skipped,
		unavailable: unavailable.map(({ step }) => step),
		reopened,
		...(instruments ? { instruments } : {})
	};
}

/** Two readings at the reservoir and after the smoothing that prove a set dead; a played history has none of its own. */
const PROVED_DEAD: [number, number] = [0, 0];

function sendAll(run: Run, events: readonly MachineEvent[]): Run {
	return events.reduce((now, event) => send(now, event) ?? now, run);
}

/** Bring the set to a power state the lawful way: proved dead, or up through the limiter. */
export function powerTo(run: Run, to: StepPower): Run {
	const { power, limiterPassed } = contextOf(run);
	if (power === to && (to !== 'live' || limiterPassed)) return run;
	if (to === 'unplugged') return sendAll(run, [{ type: 'POWER', to, volts: PROVED_DEAD }]);
	const limiter: MachineEvent[] = to === 'live' && !limiterPassed ? [{ type: 'POWER', to: 'limiter' }] : [];
	return sendAll(run, [...limiter, { type: 'POWER', to }]);
}

/** Take a step as a played history does: through its gate, with the connection made on the dead set where it asks. */
export function takeStep(run: Run, id: string): Run {
	const step = run.resolved.steps[id];
	if (!step) return run;
	const at = (now: Run) => stateOf(now) === stepState(id);
	let now = step.prepare || powerSuits(step, contextOf(run).power) ? run : powerTo(run, step.power);
	now = send(now, { type: 'TAKE', step: id }) ?? now;
	if (!at(now) && step.prepare) now = sendAll(powerTo(now, 'unplugged'), [{ type: 'PREPARED' }]);
	return at(now) ? now : powerTo(now, step.power);
}
