import { repairAdvice, suggest, suspectsOfRepair, type Suggestion } from '$lib/flow/advice.ts';
import { powerGate, stepOfState } from '$lib/flow/compile.ts';
import { nameOf, reasonsFor } from '$lib/flow/explain.ts';
import type { Library } from '$lib/flow/library.ts';
import type { Power } from '$lib/flow/machine-types.ts';
import { flowFits } from '$lib/flow/resolve.ts';
import { cleared, sectionStandings, standings, type Standing, type Trace } from '$lib/flow/trace.ts';
import type { EventData, EventKind, JobEvent } from '$lib/job/events.ts';
import { replay, reopened } from '$lib/job/replay.ts';
import { contextOf, stateOf, stepPower } from '$lib/job/run.ts';
import { situationIn, traceIn } from '$lib/job/shared-evidence.ts';
import { takeSnapshot } from '$lib/job/snapshot.ts';
import { differencesFrom } from '$lib/job/differences.ts';
import { openRun, undoTarget, type JobState, type Warning } from '$lib/job/state.ts';
import { hashesOf, type JobStore } from '$lib/job/store.ts';
import { describe } from '$lib/job/summary.ts';
import { standingNumber, standingWord } from '$lib/suspects/index.ts';
import { digest } from './world.ts';

/** One job on the page: its events, what they play to, and the ways to add to them. */
export class OpenJob {
	readonly id: string;
	readonly library: Library;
	readonly #store: JobStore;
	#events = $state.raw<JobEvent[]>([]);
	#snapshots = $state.raw<Record<string, Library>>({});
	/** Where today's flows differ from those that the job was begun with: told once, as it is opened. */
	differences = $state.raw<Warning[]>([]);
	/** Why the last entry could not be kept. */
	problem = $state<string>();
	ready = $state(false);
	#stop: (() => void) | undefined;

	constructor(id: string, store: JobStore, library: Library) {
		this.id = id;
		this.#store = store;
		this.library = library;
	}

	/** Read the log and follow it; a set under power when it was left counts as off, not proved dead. */
	async open(): Promise<void> {
		await this.#read();
		this.differences = differencesFrom(this.library, this.state);
		const off = this.#events.length > 0 ? reopened(this.state) : undefined;
		if (off) await this.add('power', off);
		this.#stop = this.#store.watch(this.id, () => void this.#read());
		this.ready = true;
	}

	close(): void {
		this.#stop?.();
	}

	async #read(): Promise<void> {
		const events = await this.#store.events(this.id);
		// The same snapshots as before, unless a flow was opened: what was worked out from them is kept with them.
		if (hashesOf(events).some((hash) => !Object.hasOwn(this.#snapshots, hash)))
			this.#snapshots = await this.#store.flows(this.id);
		this.#events = events;
	}

	get exists(): boolean {
		return this.#events.length > 0;
	}

	readonly state: JobState = $derived.by(() => replay(this.#events, { snapshots: this.#snapshots }));
	readonly flow = $derived.by(() => openRun(this.state));
	readonly resolved = $derived.by(() => this.flow?.run.resolved);
	readonly context = $derived.by(() => this.flow && contextOf(this.flow.run));
	readonly machine = $derived.by(() => (this.flow ? stateOf(this.flow.run) : 'none'));
	readonly trace: Trace | undefined = $derived.by(() =>
		this.flow ? traceIn(this.state, this.flow.flow) : undefined
	);

	readonly suggestions: Suggestion[] = $derived.by(() => {
		const situation = this.flow && situationIn(this.state, this.flow.flow);
		return this.trace && situation ? suggest(this.trace, situation) : [];
	});

	readonly repair = $derived.by(() =>
		this.trace ? repairAdvice(this.trace, this.suggestions, stepPower(this.state.power.now)) : undefined
	);

	/** The suspect whose repair is proposed, where checking more would only cost time. */
	readonly proposed: Standing | undefined = $derived.by(() => {
		const advice = this.repair;
		if (!advice?.stop || advice.repair === undefined || !this.trace) return undefined;
		return suspectsOfRepair(this.trace, advice.repair)[0];
	});

	/** The step that the page is about: in hand, behind the gate, or suggested. */
	readonly stepId: string | undefined = $derived.by(() => {
		const inHand = stepOfState(this.machine);
		if (inHand !== undefined) return inHand;
		if (this.machine === 'gate') return this.context?.wanted;
		return this.machine === 'choosing' ? this.suggestions[0]?.id : undefined;
	});

	readonly suspects = $derived.by(() => {
		const { trace } = this;
		if (!trace) return [];
		return standings(trace).map((standing) => ({
			id: standing.id,
			name: nameOf(standing.placed),
			section: standing.section,
			probability: standing.probability,
			word: standingWord(standing.probability),
			number: standingNumber(standing.probability),
			reasons: () => reasonsFor(trace, standing.id),
			proof: standing.placed?.suspect.proof,
			repair: standing.placed?.suspect.repair.do
		}));
	});

	readonly sections = $derived.by(() => (this.trace ? sectionStandings(this.trace) : {}));
	readonly cleared = $derived.by(() => (this.trace ? cleared(this.trace) : { sections: [], places: [] }));

	/** Shares of stages and lines, for the drawing. */
	readonly places: Record<string, number> = $derived.by(() => {
		const sums: Record<string, number> = {};
		this.trace?.resolved.suspects.forEach(({ place }, index) => {
			sums[place] = (sums[place] ?? 0) + (this.trace?.now[index] ?? 0);
		});
		return sums;
	});

	/** Stages and lines of sections that are cleared as a whole. */
	readonly clearedPlaces: string[] = $derived.by(() => {
		const { plan } = this.resolved ?? {};
		const { sections } = this.cleared;
		return Object.entries({ ...plan?.stages, ...plan?.lines }).flatMap(([id, { section }]) =>
			sections.includes(section) ? [id] : []
		);
	});

	/** What the last answer, or the complaint, has taught. */
	readonly learnt: string = $derived.by(
		() => this.state.trail.findLast(({ undone, learnt }) => !undone && learnt)?.learnt ?? ''
	);

	/** Flows that this set can have at all, today. */
	readonly fitting = $derived.by(() => {
		const plan = this.library.plans[this.state.intake?.plan ?? ''];
		return plan ? Object.values(this.library.flows).filter((flow) => flowFits(flow, plan)) : [];
	});

	/** Add one event; it counts once it is on disk. */
	async add<Kind extends EventKind>(kind: Kind, data: EventData[Kind]): Promise<boolean> {
		const kept = await this.#store.append(this.id, kind, data);
		this.problem = kept.ok ? undefined : kept.hint;
		if (!kept.ok) return false;
		await this.#read();
		void this.#store.describe(this.id, describe(this.state));
		return true;
	}

	/** Several events as one deed: it stops at the first that cannot be kept. */
	async addAll(entries: readonly (() => Promise<boolean>)[]): Promise<void> {
		for (const entry of entries) if (!(await entry())) return;
	}

	async openFlow(flowId: string): Promise<void> {
		const flow = this.library.flows[flowId];
		const plan = this.library.plans[this.state.intake?.plan ?? ''];
		if (!flow || !plan) return;
		const snapshot = await takeSnapshot(this.library, flow, plan, digest());
		const kept = await this.#store.keepFlow(snapshot);
		if (!kept.ok) this.problem = kept.hint;
		else await this.add('flow-opened', { flow: flowId, plan: plan.id, hash: snapshot.hash });
	}

	#flowId(): string {
		return this.flow?.flow ?? '';
	}

	/** Make sure that the machine is at this step before it is answered. */
	#take(step: string): (() => Promise<boolean>)[] {
		const flow = this.#flowId();
		return stepOfState(this.machine) === step ? [] : [() => this.add('took', { flow, step })];
	}

	take = (step: string) => this.addAll(this.#take(step));

	async answer(step: string, outcome: string, extra: Partial<EventData['answered']> = {}): Promise<void> {
		const flow = this.#flowId();
		await this.addAll([
			...this.#take(step),
			() => this.add('answered', { flow, step, outcome, sure: true, ...extra })
		]);
	}

	async cannotTell(step: string, reason: string): Promise<void> {
		const flow = this.#flowId();
		const here = this.machine === 'gate' && this.context?.wanted === step ? [] : this.#take(step);
		await this.addAll([...here, () => this.add('cannot-tell', { flow, step, reason })]);
	}

	async skip(step: string): Promise<void> {
		const flow = this.#flowId();
		await this.addAll([...this.#take(step), () => this.add('skipped', { flow, step })]);
	}

	/** Why the set may not pass to this power state now; nothing where it may. */
	refuse = (to: Power, volts?: [number, number]): string | undefined => {
		const { now, limiterPassed } = this.state.power;
		return powerGate({ power: now, limiterPassed }, to, volts);
	};

	power = (to: Power, volts?: [number, number]) => this.add('power', volts ? { to, volts } : { to });
	prepared = () => this.add('prepared', { flow: this.#flowId() });
	leave = () => this.add('left', { flow: this.#flowId() });
	suspect = (suspect: string) => this.add('suspected', { flow: this.#flowId(), suspect });
	repairing = () => this.add('repairing', { flow: this.#flowId() });
	changed = () => this.add('part-changed', { flow: this.#flowId(), part: this.context?.suspect ?? '' });
	proved = (symptom: EventData['proved']['symptom'], partWas: EventData['proved']['partWas']) =>
		this.add('proved', { flow: this.#flowId(), symptom, partWas });
	giveUp = () => this.add('gave-up', { flow: this.#flowId() });
	goOn = () => this.add('went-on', { flow: this.#flowId() });
	note = (text: string) => this.add('noted', { text, ...(this.stepId ? { step: this.stepId } : {}) });

	get canUndo(): boolean {
		return undoTarget(this.state) !== undefined;
	}

	/** Take back the last answer, and the step that was only opened for it. */
	async undo(): Promise<void> {
		const target = undoTarget(this.state);
		if (target !== undefined) await this.add('undone', { target });
	}
}
