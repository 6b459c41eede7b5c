import { setup } from 'xstate';
import { outcomesOf } from './evidence.ts';
import {
	DEAD_BELOW_VOLTS,
	type Findings,
	type MachineContext,
	type MachineEvent,
	type MachineInput,
	type Power
} from './machine-types.ts';
import { expectedAt, judgeReading, type ServiceVolts } from './reading.ts';
import type { ResolvedFlow } from './resolve.ts';
import type { Step } from './schema.ts';

/** States that are not steps. A step's state is `step:` and its id, so that no step can take one of these names. */
export const stepState = (id: string): string => `step:${id}`;
export const stepOfState = (state: string): string | undefined =>
	state.startsWith('step:') ? state.slice(5) : undefined;

const POWERS: readonly Power[] = ['off', 'unplugged', 'limiter', 'live'];

/** Whether this outcome says: switch off now, and back only through the limiter. */
export const switchesOff = (step: Step, outcome: string): boolean =>
	'outcomes' in step && step.outcomes[outcome]?.['switch-off'] === true;

const fresh: Findings = {
	answers: [],
	unavailable: [],
	skipped: [],
	mended: [],
	suspect: undefined,
	wanted: undefined,
	prepared: false
};

const findingsOf = (c: MachineContext): Findings => ({
	answers: c.answers,
	unavailable: c.unavailable,
	skipped: c.skipped,
	mended: c.mended,
	suspect: c.suspect,
	wanted: c.wanted,
	prepared: c.prepared
});

/** Whether this power state lets the step be done. Readings on the limiter never stand for full mains. */
export function powerSuits(step: Step, power: Power): boolean {
	if (step.power !== 'unplugged') return power === step.power;
	return power === 'unplugged' || (step['hands-off'] && power === 'off');
}

/** Whether a step may be worked on now: in its power state, and on full mains only once the limiter has been passed. */
const isOpen = (step: Step, c: Pick<MachineContext, 'power' | 'limiterPassed'>): boolean =>
	powerSuits(step, c.power) && (step.power !== 'live' || c.limiterPassed);

/** Whether the set may pass to this power state now, and why not. */
export function powerGate(
	c: Pick<MachineContext, 'power' | 'limiterPassed'>,
	to: Power,
	volts?: readonly number[]
): string | undefined {
	if (to === 'unplugged') {
		if (!volts || volts.length < 2 || volts.some((v) => !Number.isFinite(v)))
			return 'Measure at the reservoir and after the smoothing, to HT negative, and type both readings.';
		if (volts.some((v) => Math.abs(v) >= DEAD_BELOW_VOLTS))
			return `Not dead yet: discharge again and measure until both points are below ${DEAD_BELOW_VOLTS} V.`;
	}
	// Full mains straight from the limiter says that the lamp behaved; switching off there says nothing.
	if (to === 'live' && !c.limiterPassed && c.power !== 'limiter')
		return 'Bring the set up on the limiter first; it has not been proved there since it came in or since the last change.';
	return undefined;
}

/**
 * A flow and a plan as an XState machine: a state for each step, a choosing state between them, then suspected,
 * repairing, proving, and cured or unresolved. Any step can be taken from anywhere; one behind a safety gate
 * opens the gate, not the step. The machine never asks the engine.
 */
export function compileFlow(resolved: ResolvedFlow, service: ServiceVolts = {}) {
	const { steps } = resolved;
	const stepIds = Object.keys(steps);
	const suspects = new Set(resolved.suspects.map(({ id }) => id));
	const base = setup({
		types: { context: {} as MachineContext, events: {} as MachineEvent, input: {} as MachineInput }
	});

	/** An assignment that first keeps the way back. */
	const record = (state: string, change: (c: MachineContext, e: MachineEvent) => Partial<MachineContext>) =>
		base.assign(({ context, event }) => ({
			past: [...context.past, { state, findings: findingsOf(context) }],
			...change(context, event)
		}));

	const stepOf = (id: string | undefined) => (id === undefined ? undefined : steps[id]);
	const ready = (step: Step, c: MachineContext, id: string) =>
		isOpen(step, c) && (!step.prepare || (c.wanted === id && c.prepared));

	/** Steps that can be open at once with this state: a step's power state rules out those that want another. */
	const neighbours = (state: string) => {
		const own = stepOf(stepOfState(state));
		const together = (step: Step) =>
			!own || POWERS.some((power) => powerSuits(own, power) && powerSuits(step, power));
		return stepIds.filter((id) => !steps[id]?.prepare && together(steps[id] as Step));
	};

	const take = (state: string) => [
		...neighbours(state).map((id) => ({
			guard: ({ context, event }: { context: MachineContext; event: MachineEvent }) =>
				event.type === 'TAKE' && event.step === id && ready(steps[id] as Step, context, id),
			target: `#flow.${stepState(id)}`,
			actions: record(state, () => ({ wanted: id }))
		})),
		{
			guard: ({ event }: { event: MachineEvent }) => event.type === 'TAKE' && steps[event.step] !== undefined,
			target: '#flow.gate',
			actions: record(state, (_, e) => ({ wanted: e.type === 'TAKE' ? e.step : undefined, prepared: false }))
		}
	];

	/** The outcome must be the step's own, and a typed reading must lie in that outcome's band. */
	const answerFits =
		(id: string) =>
		({ event }: { event: MachineEvent }) => {
			const step = steps[id] as Step;
			if (event.type !== 'ANSWER' || !outcomesOf(step).includes(event.outcome)) return false;
			if (event.reading === undefined || step.kind !== 'measure') return true;
			const judged = judgeReading(step, event.reading, expectedAt(resolved.plan, step.at, service, event.ht));
			return judged === undefined || judged.outcome === event.outcome;
		};

	const answer =
		(id: string) =>
		(c: MachineContext, e: MachineEvent): Partial<MachineContext> => {
			if (e.type !== 'ANSWER') return {};
			const { type: _, ...given } = e;
			return {
				answers: [...c.answers, { step: id, ...given, power: c.power }],
				// A glowing anode: whatever had been proved on the limiter is proved no more.
				limiterPassed: c.limiterPassed && !switchesOff(steps[id] as Step, e.outcome),
				skipped: c.skipped.filter((s) => s !== id),
				unavailable: c.unavailable.filter((u) => u.step !== id),
				wanted: undefined,
				prepared: false
			};
		};

	const stepNode = (id: string) => ({
		on: {
			ANSWER: { guard: answerFits(id), target: '#flow.choosing', actions: record(stepState(id), answer(id)) },
			CANNOT_TELL: {
				target: '#flow.choosing',
				actions: record(stepState(id), (c, e) => ({
					unavailable: [
						...c.unavailable.filter((u) => u.step !== id),
						{ step: id, reason: e.type === 'CANNOT_TELL' ? e.reason : '' }
					],
					wanted: undefined,
					prepared: false
				}))
			},
			SKIP: {
				target: '#flow.choosing',
				actions: record(stepState(id), (c) => ({
					skipped: [...c.skipped.filter((s) => s !== id), id],
					wanted: undefined,
					prepared: false
				}))
			},
			LEAVE: leave(stepState(id)),
			TAKE: take(stepState(id)),
			// The step ends when its power state does: nothing may be answered on another one.
			POWER: power(stepState(id), '#flow.gate')
		}
	});

	function leave(state: string) {
		return {
			target: '#flow.choosing',
			actions: record(state, () => ({ wanted: undefined, prepared: false }))
		};
	}

	function power(state: string, target?: string) {
		return {
			guard: ({ context, event }: { context: MachineContext; event: MachineEvent }) =>
				event.type === 'POWER' &&
				event.to !== context.power &&
				powerGate(context, event.to, event.volts) === undefined,
			...(target ? { target } : {}),
			actions: base.assign(({ context, event }) =>
				event.type === 'POWER'
					? { power: event.to, limiterPassed: context.limiterPassed || event.to === 'live' }
					: {}
			)
		};
	}

	/** Out of the gate as soon as the power state, and the preparation, are those of the wanted step. */
	const gateNode = {
		always: stepIds.map((id) => ({
			guard: ({ context }: { context: MachineContext }) =>
				context.wanted === id && ready(steps[id] as Step, context, id),
			target: `#flow.${stepState(id)}`
		})),
		on: {
			POWER: power('gate'),
			PREPARED: {
				guard: ({ context }: { context: MachineContext }) =>
					stepOf(context.wanted)?.prepare !== undefined && context.power === 'unplugged',
				actions: base.assign({ prepared: true })
			},
			CANNOT_TELL: {
				target: '#flow.choosing',
				actions: record('gate', (c, e) => ({
					unavailable: [
						...c.unavailable,
						{ step: c.wanted ?? '', reason: e.type === 'CANNOT_TELL' ? e.reason : '' }
					],
					wanted: undefined,
					prepared: false
				}))
			},
			LEAVE: leave('gate'),
			TAKE: take('gate')
		}
	};

	const proved = (c: MachineContext, e: MachineEvent): Partial<MachineContext> => ({
		suspect: e.type === 'PROVE' && e.symptom === 'cured' ? c.suspect : undefined,
		mended:
			e.type === 'PROVE' && e.symptom !== 'cured' && c.suspect !== undefined
				? [...c.mended, { suspect: c.suspect, was: e.partWas, after: c.answers.length }]
				: c.mended
	});
	const onFullMains = ({ context }: { context: MachineContext }) => context.power === 'live';
	const prove = (symptom: string, target: string) => ({
		guard: ({ context, event }: { context: MachineContext; event: MachineEvent }) =>
			event.type === 'PROVE' && event.symptom === symptom && onFullMains({ context }),
		target,
		actions: record('proving', proved)
	});

	const suspect = (state: string) => ({
		guard: ({ event }: { event: MachineEvent }) => event.type === 'SUSPECT' && suspects.has(event.suspect),
		target: '#flow.suspected',
		actions: record(state, (_, e) => ({ suspect: e.type === 'SUSPECT' ? e.suspect : undefined }))
	});

	const states = {
		choosing: {
			on: {
				TAKE: take('choosing'),
				POWER: power('choosing'),
				SUSPECT: suspect('choosing'),
				GIVE_UP: { target: '#flow.unresolved', actions: record('choosing', () => ({})) }
			}
		},
		gate: gateNode,
		...Object.fromEntries(stepIds.map((id) => [stepState(id), stepNode(id)])),
		suspected: {
			on: {
				REPAIR: { target: '#flow.repairing', actions: record('suspected', () => ({})) },
				LEAVE: { target: '#flow.choosing', actions: record('suspected', () => ({ suspect: undefined })) },
				TAKE: take('suspected'),
				POWER: power('suspected')
			}
		},
		repairing: {
			on: {
				POWER: power('repairing'),
				// A part is changed only in a set proved dead, and after it the set goes through the limiter again.
				CHANGED: {
					guard: ({ context }: { context: MachineContext }) => context.power === 'unplugged',
					target: '#flow.proving',
					actions: record('repairing', () => ({ limiterPassed: false }))
				},
				LEAVE: { target: '#flow.choosing', actions: record('repairing', () => ({ suspect: undefined })) }
			}
		},
		proving: {
			on: {
				POWER: power('proving'),
				PROVE: [
					prove('cured', '#flow.cured'),
					prove('unchanged', '#flow.choosing'),
					prove('changed', '#flow.choosing')
				]
			}
		},
		cured: {
			on: { POWER: power('cured'), GO_ON: { target: '#flow.choosing', actions: record('cured', () => ({})) } }
		},
		unresolved: {
			on: {
				POWER: power('unresolved'),
				GO_ON: { target: '#flow.choosing', actions: record('unresolved', () => ({})) }
			}
		}
	};

	/**
	 * Undo goes back to the state and findings before the last event. The power state stays as it is, so a step
	 * that wants another one opens its gate; a change of a part keeps its demand for the limiter.
	 */
	const undo = Object.keys(states).map((state) => {
		const id = stepOfState(state);
		const step = stepOf(id);
		const open = (c: MachineContext) => !step || isOpen(step, c);
		const back = base.assign(({ context }) => ({
			...(context.past.at(-1)?.findings ?? fresh),
			past: context.past.slice(0, -1)
		}));
		const comesBack = ({ context }: { context: MachineContext }) => context.past.at(-1)?.state === state;
		const straight = {
			guard: (x: { context: MachineContext }) => comesBack(x) && open(x.context),
			target: `#flow.${state}`,
			actions: back
		};
		const toGate = {
			guard: comesBack,
			target: '#flow.gate',
			actions: [back, base.assign({ wanted: id, prepared: false })]
		};
		return step ? [straight, toGate] : [straight];
	});

	return base.createMachine({
		id: 'flow',
		context: ({ input }) => ({
			...fresh,
			power: input.power ?? 'off',
			limiterPassed: input.playing,
			past: []
		}),
		initial: 'choosing',
		states,
		on: { UNDO: undo.flat() }
	});
}

export type FlowMachine = ReturnType<typeof compileFlow>;
