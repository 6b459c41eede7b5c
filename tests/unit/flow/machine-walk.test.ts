import { describe, expect, test } from 'vitest';
import { getAdjacencyMap } from 'xstate/graph';
import { transition, type EventFromLogic, type SnapshotFrom } from 'xstate';
import {
	compileFlow,
	powerSuits,
	stepOfState,
	stepState,
	type FlowMachine
} from '../../../src/lib/flow/compile.ts';
import { outcomesOf } from '../../../src/lib/flow/evidence.ts';
import type { MachineEvent, Power } from '../../../src/lib/flow/machine-types.ts';
import { expectedAt, judgeReading } from '../../../src/lib/flow/reading.ts';
import type { ResolvedFlow } from '../../../src/lib/flow/resolve.ts';
import type { Step } from '../../../src/lib/flow/schema.ts';
import { parseWhen } from '../../../src/lib/flow/when.ts';
import { allShipped } from '../../library.ts';

type Snapshot = SnapshotFrom<FlowMachine>;

const POWERS: Power[] = ['off', 'unplugged', 'limiter', 'live'];
const DEAD: [number, number] = [3, 1];

/** Readings just below, at and just above each edge of a step's ranges. */
function edgeReadings(resolved: ResolvedFlow, step: Extract<Step, { kind: 'measure' }>): number[] {
	const scale = expectedAt(resolved.plan, step.at)?.value;
	return Object.values(step.outcomes).flatMap(({ when }) => {
		const parsed = when === undefined ? undefined : parseWhen(when);
		if (!parsed?.ok) return [];
		const { from, to, relative } = parsed.band;
		if (relative && scale === undefined) return [];
		return [from, to].filter(Number.isFinite).flatMap((edge) => {
			const at = relative ? edge * (scale ?? 1) : edge;
			const little = Math.max(Math.abs(at) * 1e-6, 1e-9);
			return [at - little, at, at + little];
		});
	});
}

function answers(resolved: ResolvedFlow, id: string): MachineEvent[] {
	const step = resolved.steps[id] as Step;
	const plain = outcomesOf(step).map((outcome): MachineEvent => ({ type: 'ANSWER', outcome }));
	if (step.kind !== 'measure') return plain;
	const read = edgeReadings(resolved, step).map((reading): MachineEvent => {
		const judged = judgeReading(step, reading, expectedAt(resolved.plan, step.at));
		return { type: 'ANSWER', outcome: judged?.outcome ?? '', reading };
	});
	return [...plain, ...read];
}

/** Everything that a person could do in this state, and some things that he should not be able to. */
function eventsIn(resolved: ResolvedFlow, snapshot: Snapshot): MachineEvent[] {
	const step = stepOfState(String(snapshot.value));
	return [
		...Object.keys(resolved.steps).map((id): MachineEvent => ({ type: 'TAKE', step: id })),
		...(step ? answers(resolved, step) : []),
		...POWERS.map((to): MachineEvent => ({ type: 'POWER', to, volts: DEAD })),
		{ type: 'POWER', to: 'unplugged', volts: [40, 2] },
		{ type: 'PREPARED' },
		{ type: 'CANNOT_TELL', reason: 'cannot reach it' },
		{ type: 'SKIP' },
		{ type: 'LEAVE' },
		{ type: 'SUSPECT', suspect: resolved.suspects[0]?.id ?? '' },
		{ type: 'REPAIR' },
		{ type: 'CHANGED' },
		...(['cured', 'unchanged', 'changed'] as const).map((symptom): MachineEvent => ({
			type: 'PROVE',
			symptom,
			partWas: 'bad'
		})),
		{ type: 'GIVE_UP' },
		{ type: 'GO_ON' },
		{ type: 'UNDO' }
	];
}

/** States by value and power, and by what a gate or a proof waits for. */
const key = ({ value, context }: Snapshot): string =>
	[
		value,
		context.power,
		context.limiterPassed,
		value === 'gate' ? `${context.wanted} ${context.prepared}` : ''
	].join(' | ');

interface Walked {
	state: Snapshot;
	/** Where each event leads. */
	next: Snapshot[];
}

function walk(resolved: ResolvedFlow, machine: FlowMachine): Walked[] {
	const map = getAdjacencyMap(machine, {
		input: { playing: false },
		events: (snapshot: Snapshot) => eventsIn(resolved, snapshot) as EventFromLogic<FlowMachine>[],
		serializeState: key as never,
		limit: 1e6
	});
	return Object.values(map).map(({ state, transitions }) => ({
		state: state as Snapshot,
		next: Object.values(transitions as Record<string, { state: Snapshot }>).map(({ state: led }) => led)
	}));
}

/** So many steps to a walk: states and events both grow with them. */
const AT_ONCE = 8;

/** A flow with some of its steps only: with those that their outcomes name, and one of each kind that passes a gate. */
function withSteps(resolved: ResolvedFlow, ids: readonly string[]): ResolvedFlow {
	const named = ids.flatMap((id) => {
		const step = resolved.steps[id] as Step;
		return 'outcomes' in step ? Object.values(step.outcomes).flatMap(({ next }) => next ?? []) : [];
	});
	const ofPower = POWERS.flatMap(
		(power) => Object.keys(resolved.steps).find((id) => resolved.steps[id]?.power === power) ?? []
	);
	const prepared = Object.keys(resolved.steps).find((id) => resolved.steps[id]?.prepare) ?? [];
	const wanted = new Set([...ids, ...named, ...ofPower, ...[prepared].flat()]);
	const steps = Object.fromEntries(Object.entries(resolved.steps).filter(([id]) => wanted.has(id)));
	return { ...resolved, steps };
}

/** Every step of the library, in the first flow and on the first plan that has it. */
function walks(): { name: string; resolved: ResolvedFlow }[] {
	const seen = new Set<string>();
	return allShipped().flatMap((resolved) => {
		const fresh = Object.keys(resolved.steps).filter((id) => !seen.has(id));
		for (const id of fresh) seen.add(id);
		const parts = Math.ceil(fresh.length / AT_ONCE);
		return Array.from({ length: parts }, (_, part) => ({
			name: `${resolved.flow.id} on ${resolved.plan.id}, part ${part + 1} of ${parts}`,
			resolved: withSteps(resolved, fresh.slice(part * AT_ONCE, (part + 1) * AT_ONCE))
		}));
	});
}

describe.each(walks())('$name', ({ resolved }) => {
	const machine = compileFlow(resolved);
	const walked = walk(resolved, machine);
	const snapshots = walked.map(({ state }) => state);

	test('every state is reached', () => {
		const reached = new Set(snapshots.map(({ value }) => String(value)));
		expect(Object.keys(machine.states).filter((state) => !reached.has(state))).toEqual([]);
	});

	test('every transition is taken', () => {
		const taken = new Set<unknown>();
		const take = (snapshot: Snapshot, event: MachineEvent) => {
			for (const definition of machine.getTransitionData(snapshot, event) ?? []) taken.add(definition);
		};
		for (const snapshot of snapshots) for (const event of eventsIn(resolved, snapshot)) take(snapshot, event);
		// The way back from every edge, at once and after each change of the power state.
		for (const next of walked.flatMap((one) => one.next)) {
			take(next, { type: 'UNDO' });
			for (const to of POWERS)
				take(transition(machine, next, { type: 'POWER', to, volts: DEAD })[0], { type: 'UNDO' });
		}
		const nodes = [machine.root, ...Object.values(machine.states)];
		const all = nodes.flatMap((node) => [...node.transitions.values()].flat());
		// Where no connection is made beforehand, none is told to be made.
		const connects = Object.values(resolved.steps).some(({ prepare }) => prepare);
		const missed = all
			.filter((definition) => !taken.has(definition))
			.filter(({ eventType }) => connects || eventType !== 'PREPARED');
		expect(
			missed.map(({ source, eventType, target }) => `${source.key} ${eventType} ${target?.[0]?.key ?? ''}`)
		).toEqual([]);
	});

	test('every step is entered through the gate where another power state stands in the way', () => {
		const edges = walked.flatMap(({ state, next }) =>
			state.value === 'gate' ? next.map(({ value }) => String(value)) : []
		);
		expect(Object.keys(resolved.steps).filter((id) => !edges.includes(stepState(id)))).toEqual([]);
	});

	test('no step is ever open in another power state than its own', () => {
		for (const { value, context } of snapshots) {
			const id = stepOfState(String(value));
			if (id === undefined) continue;
			expect(powerSuits(resolved.steps[id] as Step, context.power), `${id} while ${context.power}`).toBe(
				true
			);
		}
	});

	test('full mains only after the limiter, and dead only by two readings below 10 V', () => {
		for (const snapshot of snapshots) {
			if (!snapshot.context.limiterPassed && snapshot.context.power !== 'limiter')
				expect(snapshot.can({ type: 'POWER', to: 'live' })).toBe(false);
			expect(snapshot.can({ type: 'POWER', to: 'unplugged' })).toBe(false);
			expect(snapshot.can({ type: 'POWER', to: 'unplugged', volts: [9.9, 10] })).toBe(false);
		}
	});

	test('a part is changed only on a set proved dead', () => {
		for (const snapshot of snapshots.filter(({ value }) => value === 'repairing'))
			expect(snapshot.can({ type: 'CHANGED' })).toBe(snapshot.context.power === 'unplugged');
	});

	test('every step takes "cannot tell" and "skip"', () => {
		for (const id of Object.keys(resolved.steps)) {
			const open = snapshots.find(({ value }) => value === stepState(id));
			expect(open?.can({ type: 'CANNOT_TELL', reason: 'no access' })).toBe(true);
			expect(open?.can({ type: 'SKIP' })).toBe(true);
		}
	});
});
