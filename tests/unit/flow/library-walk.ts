import { getInitialSnapshot, transition, type EventFromLogic, type SnapshotFrom } from 'xstate';
import { offeredSteps, type Situation } from '../../../src/lib/flow/advice.ts';
import {
	compileFlow,
	powerSuits,
	stepState,
	switchesOff,
	type FlowMachine
} from '../../../src/lib/flow/compile.ts';
import { normalOf, outcomesOf } from '../../../src/lib/flow/evidence.ts';
import type { MachineEvent, Power } from '../../../src/lib/flow/machine-types.ts';
import { expectedAt, judgeReading } from '../../../src/lib/flow/reading.ts';
import type { ResolvedFlow } from '../../../src/lib/flow/resolve.ts';
import type { Step } from '../../../src/lib/flow/schema.ts';
import { parseWhen } from '../../../src/lib/flow/when.ts';

/**
 * A restorer who gives every answer there is. He takes only steps that are offered, the author's order first, goes through every
 * gate as it asks, and comes back to the bench until each step has been answered in each of its ways. The advice orders what is
 * offered and adds nothing to it, so nothing is searched here: that is where the time of an earlier walk went.
 */

type Snapshot = SnapshotFrom<FlowMachine>;
type Answered = { step: string; outcome: string };

const DEAD: [number, number] = [3, 1];
const RANK = { unplugged: 0, limiter: 1, live: 2 } as const;

export interface Walk {
	/** Step and outcome, each pair that was answered. */
	pairs: Set<string>;
	/** What went wrong, in words; nothing where all is well. */
	faults: string[];
}

export const pairOf = (step: string, outcome: string): string => `${step}: ${outcome}`;

export const allPairs = ({ steps }: ResolvedFlow): string[] =>
	Object.entries(steps).flatMap(([id, step]) => outcomesOf(step).map((outcome) => pairOf(id, outcome)));

/** A reading that means this outcome, where the outcome is a range and something is expected. */
function readingFor(resolved: ResolvedFlow, step: Step, outcome: string): number | undefined {
	if (step.kind !== 'measure') return undefined;
	const parsed = parseWhen(step.outcomes[outcome]?.when ?? '');
	const expected = expectedAt(resolved.plan, step.at);
	if (!parsed.ok || (parsed.band.relative && !expected?.value)) return undefined;
	const { from, to, relative } = parsed.band;
	const scale = relative ? (expected?.value ?? 1) : 1;
	const far = Math.max(1, Math.abs(Number.isFinite(from) ? from : 0), Math.abs(Number.isFinite(to) ? to : 0));
	const low = Number.isFinite(from) ? from : to - far;
	const high = Number.isFinite(to) ? to : from + far;
	return ((low + high) / 2) * scale;
}

/** One sitting: a machine from its first state, and what has been answered in it. */
class Sitting {
	readonly answered: Answered[] = [];
	private now: Snapshot;
	private readonly resolved: ResolvedFlow;
	private readonly machine: FlowMachine;
	private readonly walk: Walk;

	constructor(resolved: ResolvedFlow, machine: FlowMachine, walk: Walk) {
		this.resolved = resolved;
		this.machine = machine;
		this.walk = walk;
		this.now = getInitialSnapshot(machine, { playing: false });
	}

	private get situation(): Situation {
		const { power } = this.now.context;
		return {
			power: power === 'off' ? 'unplugged' : power,
			answered: this.answered,
			skipped: [],
			unavailable: []
		};
	}

	private fault(words: string) {
		this.walk.faults.push(`${this.resolved.flow.id} on ${this.resolved.plan.id}: ${words}`);
	}

	private send(event: MachineEvent) {
		[this.now] = transition(this.machine, this.now, event as EventFromLogic<FlowMachine>);
	}

	private power(to: Power) {
		if (this.now.context.power === to) return;
		this.send({ type: 'POWER', to, ...(to === 'unplugged' ? { volts: DEAD } : {}) });
	}

	/** Through the gate as it asks: connect with the set dead, then the limiter, then full mains. */
	private pass(step: Step) {
		if (step.prepare) {
			this.power('unplugged');
			this.send({ type: 'PREPARED' });
		}
		if (step.power !== 'live') return this.power(step.power);
		if (!this.now.context.limiterPassed && this.now.context.power !== 'limiter') {
			const refused = !this.now.can({ type: 'POWER', to: 'live' });
			if (!refused) this.fault('full mains without the limiter');
			this.power('limiter');
		}
		this.power('live');
	}

	/** What stands before the step by its own word and by the flow's: answered, unless this plan has no such step. */
	private unmet(id: string, step: Step, done: ReadonlySet<string>): string[] {
		const { before } = this.resolved.flow;
		const first = [
			...step.needs,
			...(step.power === 'unplugged' ? [] : (before?.limiter ?? [])),
			...(step.power === 'live' ? (before?.live ?? []) : [])
		];
		return first.filter((one) => one !== id && this.resolved.steps[one] && !done.has(one));
	}

	/** What may be taken now. Each of them is open by right, whichever of them the advice would put first. */
	offered(): string[] {
		const done = new Set(this.answered.map(({ step }) => step));
		const offered = offeredSteps(this.resolved, this.situation);
		for (const { id, step } of offered) {
			const unmet = this.unmet(id, step, done);
			if (unmet.length) this.fault(`${id} is offered before ${unmet.join(', ')}`);
		}
		return offered.map(({ id }) => id);
	}

	answer(id: string, outcome: string) {
		const step = this.resolved.steps[id] as Step;
		this.send({ type: 'TAKE', step: id });
		if (this.now.value === 'gate') this.pass(step);
		if (this.now.value !== stepState(id)) return this.fault(`${id} never opens`);
		const { power, limiterPassed } = this.now.context;
		if (!powerSuits(step, power)) this.fault(`${id} is open while ${power}`);
		if (step.power === 'live' && !limiterPassed) this.fault(`${id} is open before the limiter`);
		const reading = readingFor(this.resolved, step, outcome);
		if (reading !== undefined && step.kind === 'measure') {
			const judged = judgeReading(step, reading, expectedAt(this.resolved.plan, step.at))?.outcome;
			if (judged !== outcome) this.fault(`${id}: ${reading} means ${judged}, not ${outcome}`);
		}
		this.send({ type: 'ANSWER', outcome, ...(reading === undefined ? {} : { reading }) });
		if (this.now.value !== 'choosing') return this.fault(`${id} does not take "${outcome}"`);
		if (switchesOff(step, outcome) && this.now.context.limiterPassed)
			this.fault(`${id}: "${outcome}" says switch off, and the limiter still counts as passed`);
		this.answered.push({ step: id, outcome });
		this.walk.pairs.add(pairOf(id, outcome));
	}

	/** A sitting may always end: in a part that is suspected, or unresolved. */
	close() {
		const suspect = this.resolved.suspects[0]?.id;
		if (suspect !== undefined && !this.now.can({ type: 'SUSPECT', suspect }))
			this.fault('nobody can be suspected');
		if (!this.now.can({ type: 'GIVE_UP' })) this.fault('it cannot be given up');
	}
}

/** Steps that still have an answer to give, with all that must be answered before them. */
function wantedSteps({ steps }: ResolvedFlow, pairs: ReadonlySet<string>): Set<string> {
	const wanted = new Set<string>();
	const want = (id: string) => {
		const step = steps[id];
		if (!step || wanted.has(id)) return;
		wanted.add(id);
		step.needs.forEach(want);
	};
	for (const [id, step] of Object.entries(steps))
		if (outcomesOf(step).some((outcome) => !pairs.has(pairOf(id, outcome)))) want(id);
	return wanted;
}

/** What comes next of the wanted steps: named by the last answer, then the opening, then with the least switching. */
function nextStep(resolved: ResolvedFlow, sitting: Sitting, wanted: ReadonlySet<string>) {
	const { steps, flow } = resolved;
	const { answered } = sitting;
	const open = sitting.offered().filter((id) => wanted.has(id));
	const last = answered.at(-1);
	const step = last && steps[last.step];
	const named = step && 'outcomes' in step ? step.outcomes[last.outcome]?.next : undefined;
	const rank = (id: string) => RANK[steps[id]?.power ?? 'unplugged'] + (steps[id]?.prepare ? 0.5 : 0);
	const ordered = [...open.sort((a, b) => rank(a) - rank(b)), ...byChoice(resolved, answered, wanted)];
	return [named, ...flow.opening, ...ordered].find((id) => id !== undefined && ordered.includes(id));
}

/** Steps to which nobody is sent, but which may be chosen. */
function byChoice(
	{ steps, flow }: ResolvedFlow,
	answered: readonly Answered[],
	wanted: ReadonlySet<string>
): string[] {
	const done = new Set(answered.map(({ step }) => step));
	return [...wanted].filter((id) => {
		const step = steps[id];
		const ready = step?.needs.every((need) => done.has(need) || !steps[need]);
		return step?.['by-choice'] && !flow.procedure && ready && !done.has(id);
	});
}

/** Sitting after sitting until every answer has been given, or nothing new can be. */
export function walkThrough(resolved: ResolvedFlow): Walk {
	const walk: Walk = { pairs: new Set(), faults: [] };
	const machine = compileFlow(resolved);
	for (;;) {
		const before = walk.pairs.size;
		const wanted = wantedSteps(resolved, walk.pairs);
		if (wanted.size === 0) return walk;
		const sitting = new Sitting(resolved, machine, walk);
		for (;;) {
			const id = nextStep(resolved, sitting, wanted);
			if (id === undefined) break;
			const step = resolved.steps[id] as Step;
			const fresh = outcomesOf(step).find((outcome) => !walk.pairs.has(pairOf(id, outcome)));
			const given = sitting.answered.length;
			sitting.answer(id, fresh ?? normalOf(step));
			if (sitting.answered.length === given) return walk;
		}
		sitting.close();
		if (walk.pairs.size === before) return walk;
	}
}
