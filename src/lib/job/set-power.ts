import { powerGate } from '../flow/compile.ts';
import type { MachineContext } from '../flow/machine-types.ts';
import type { EventData, Intake } from './events.ts';
import { contextOf, send, type Run } from './run.ts';
import type { FlowRun, JobState, SetPower } from './state.ts';

/**
 * Power belongs to the set, not to a flow: it is kept once and told to every machine of the job.
 */

function withContext(run: Run, change: Partial<MachineContext>): Run {
	const { machine, snapshot } = run;
	return {
		...run,
		snapshot: machine.resolveState({ value: snapshot.value, context: { ...snapshot.context, ...change } })
	};
}

/** The gate was passed by the set, so each machine is told with volts that its own gate takes. */
const DEAD: [number, number] = [0, 0];

function tell(run: Run, { now, limiterPassed }: SetPower): Run {
	const known = contextOf(run).limiterPassed === limiterPassed ? run : withContext(run, { limiterPassed });
	if (contextOf(known).power === now) return known;
	return send(known, { type: 'POWER', to: now, volts: DEAD }) ?? known;
}

export function withPower(state: JobState, power: SetPower): JobState {
	const told = (flow: FlowRun): FlowRun => ({ ...flow, run: tell(flow.run, power) });
	return {
		...state,
		power,
		flows: Object.fromEntries(Object.entries(state.flows).map(([id, flow]) => [id, told(flow)])),
		earlier: state.earlier.map(told)
	};
}

/** Pass to another power state, or say why not. */
export function passTo(
	state: JobState,
	{ to, volts }: EventData['power']
): { state: JobState; refused?: string } {
	const { power } = state;
	if (to === power.now) return { state };
	const refused = powerGate({ power: power.now, limiterPassed: power.limiterPassed }, to, volts);
	if (refused !== undefined) return { state, refused };
	return {
		state: withPower(state, { ...power, now: to, limiterPassed: power.limiterPassed || to === 'live' })
	};
}

/** A part was changed: the next power is on the limiter, whichever flow is open. */
export const afterChange = (state: JobState): JobState =>
	withPower(state, { ...state.power, limiterPassed: false, partChanged: true });

/** A set that came in playing needs no limiter, until a part is changed. */
export function afterIntake(state: JobState, { playing }: Intake): JobState {
	const { power } = state;
	const limiterPassed = power.limiterPassed || (playing && !power.partChanged);
	return limiterPassed === power.limiterPassed ? state : withPower(state, { ...power, limiterPassed });
}

/**
 * What has to be appended before anything else when a job is opened again: nobody knows what happened to the set
 * since, so it counts as switched off and not proved dead. `undefined` where the log says so already.
 */
export const reopened = (state: JobState): EventData['power'] | undefined =>
	state.power.now === 'off' ? undefined : { to: 'off' };
