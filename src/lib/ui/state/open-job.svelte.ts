import {
	questionOf,
	repairAdvice,
	suggest,
	suggestionsOf,
	suspectsOfRepair,
	type Suggestion
} from '$lib/flow/advice.ts';
import { powerGate, stepOfState } from '$lib/flow/compile.ts';
import { nameOf, reasonsFor } from '$lib/flow/explain.ts';
import type { Library } from '$lib/flow/library.ts';
import type { Power } from '$lib/flow/machine-types.ts';
import { proceduresFor } from '$lib/flow/match.ts';
import { hasJobs } from '$lib/flow/own-jobs.ts';
import { flowFits } from '$lib/flow/resolve.ts';
import type { Provoked } from '$lib/flow/terms.ts';
import { beginsWith, wouldChange } from '$lib/flow/standing-words.ts';
import { bestWay, cleared, sectionStandings, standings, type Standing, type Trace } from '$lib/flow/trace.ts';
import type { whereIs, Where } from '$lib/flow/where.ts';
import { causeGate, listening, offersFor } from '$lib/job/after-repair.ts';
import { jobDoubts } from '$lib/job/doubts.ts';
import type { EventData, EventKind, JobEvent } from '$lib/job/events.ts';
import { asKnown } from '$lib/job/growing.ts';
import { latestAt } from '$lib/job/order.ts';
import { replay, reopened } from '$lib/job/replay.ts';
import { contextOf, stateOf, stepPower } from '$lib/job/run.ts';
import { ledgerWord } from '$lib/job/ledger.ts';
import type { SetData } from '$lib/job/set-data.ts';
import { loadReckoning, reckoningOf } from '$lib/job/set-reckoning.ts';
import { situationIn, traceIn } from '$lib/job/shared-evidence.ts';
import { takeSnapshot } from '$lib/job/snapshot.ts';
import { differencesFrom } from '$lib/job/differences.ts';
import { openRun, own, undoTarget, type Done, type JobState, type Warning } from '$lib/job/state.ts';
import { hashesOf, type Entry, type JobStore } from '$lib/job/store.ts';
import { describe } from '$lib/job/summary.ts';
import { standingNumber, standingWord, type Ranking } from '$lib/suspects/index.ts';
import { Adviser } from './adviser.ts';
import { bench } from './bench.svelte.ts';
import { flowsOf } from './shelf.ts';
import { startWorker } from './start-worker.ts';
import { markLeft, stillHere } from './visit.ts';
import { digest } from './world.ts';

/** One for the whole app: its worker is started with the first job. */
let adviser: Adviser | undefined;

/** One job on the page: its events, what they play to, and the ways to add to them. */
export class OpenJob {
	readonly id: string;
	readonly library: Library;
	readonly store: JobStore;
	#events = $state.raw<JobEvent[]>([]);
	#snapshots = $state.raw<Record<string, Library>>({});
	/** Where today's flows differ from those that the job was begun with: told once, as it is opened. */
	differences = $state.raw<Warning[]>([]);
	/** When the last entry was made before the job was opened now: ISO date and time. */
	leftAt = '';
	/** Why the last entry could not be kept. */
	problem = $state<string>();
	ready = $state(false);
	#stop: (() => void) | undefined;
	#whereIs: typeof whereIs | undefined;
	#underWay: Promise<boolean> | undefined;
	#played: { events: JobEvent[]; snapshots: Record<string, Library>; state: JobState } | undefined;
	/** The search for the next step, by the state that it was made for. */
	readonly #rankings = new WeakMap<JobState, Ranking>();
	/** How many searches came after their state was shown. */
	#late = $state(0);

	/** @param trial the job is played to try a flow: no other page knows of it */
	constructor(
		id: string,
		store: JobStore,
		library: Library,
		readonly trial = false
	) {
		this.id = id;
		this.store = store;
		this.library = library;
	}

	/** Read the log and follow it; a set under power when it was left counts as off, not proved dead. */
	async open(): Promise<void> {
		adviser ??= new Adviser(startWorker);
		// The valve data are needed before the log is played.
		const [events, { whereIs }] = await Promise.all([
			this.#fetch(),
			import('$lib/flow/where.ts'),
			loadReckoning()
		]);
		this.#whereIs = whereIs;
		this.leftAt = latestAt(events);
		const state = this.#play(events, this.#snapshots);
		this.differences = differencesFrom(this.library, state);
		const asLeft = stillHere(this.id, Date.now());
		const off = events.length > 0 && !asLeft ? reopened(state) : undefined;
		// Either way the search is made once, for what is shown.
		if (off) await this.add('power', off);
		else await this.#read();
		this.#stop = this.store.watch(this.id, (events) => void this.#follow(events));
		this.ready = true;
	}

	/** The page of the job is left; until it is long ago, the set is known to be as it was. */
	close(): void {
		if (this.ready) markLeft(this.id, Date.now());
		this.#stop?.();
	}

	/** What another tab has added; a deed of our own is shown whole, and was read by then. */
	async #follow(onDisk: readonly JobEvent[]): Promise<void> {
		while (this.#underWay) await this.#underWay;
		if (onDisk.length > this.#events.length) await this.#read();
	}

	/** Show what was added, and keep the row of the list up with it. */
	async #show(): Promise<void> {
		await this.#read();
		if (this.exists) void this.store.describe(this.id, describe(this.state));
	}

	/** The log as it is on disk, with the flows that it opens. */
	async #fetch(): Promise<JobEvent[]> {
		// What stays the same object is not played again.
		const events = asKnown(this.#events, await this.store.events(this.id));
		// The same snapshots as before, unless a flow was opened: what was worked out from them is kept with them.
		if (hashesOf(events).some((hash) => !Object.hasOwn(this.#snapshots, hash)))
			this.#snapshots = await flowsOf(this.store, events);
		return events;
	}

	async #read(): Promise<void> {
		const events = await this.#fetch();
		// The log only grows: as many entries are the same ones, and fewer were read before those that are shown.
		if (events.length <= this.#events.length) return;
		await this.#advise(events);
		if (events.length > this.#events.length) this.#events = events;
	}

	/** What these events play to; worked out once, for the search and for the page. */
	#play(events: JobEvent[], snapshots: Record<string, Library>): JobState {
		const known = this.#played;
		if (known?.events === events && known.snapshots === snapshots) return known.state;
		const state = replay(events, { snapshots });
		this.#played = { events, snapshots, state };
		return state;
	}

	/** Search for the next step before anything is shown, so that it does not change under a finger. */
	async #advise(events: JobEvent[]): Promise<void> {
		const state = this.#play(events, this.#snapshots);
		const flow = openRun(state)?.flow;
		const trace = flow === undefined ? undefined : traceIn(state, flow);
		if (trace?.resolved.flow.procedure) return;
		const situation = flow === undefined ? undefined : situationIn(state, flow);
		if (!trace || !situation) return;
		adviser ??= new Adviser(startWorker);
		const { now, later } = await adviser.ask(questionOf(trace, situation));
		this.#rankings.set(state, now);
		void later?.then((whole) => {
			this.#rankings.set(state, whole);
			this.#late++;
		});
	}

	get exists(): boolean {
		return this.#events.length > 0;
	}

	readonly state: JobState = $derived.by(() => this.#play(this.#events, this.#snapshots));
	readonly flow = $derived.by(() => openRun(this.state));
	readonly resolved = $derived.by(() => this.flow?.run.resolved);
	readonly context = $derived.by(() => this.flow && contextOf(this.flow.run));
	readonly machine = $derived.by(() => (this.flow ? stateOf(this.flow.run) : 'none'));
	readonly trace: Trace | undefined = $derived.by(() =>
		this.flow ? traceIn(this.state, this.flow.flow) : undefined
	);

	/** Work in a fixed order: nothing is traced, and nobody is suspected. */
	readonly procedure = $derived.by(() => this.resolved?.flow.procedure === true);

	readonly suggestions: Suggestion[] = $derived.by(() => {
		const situation = this.flow && situationIn(this.state, this.flow.flow);
		if (!this.trace || !situation) return [];
		// Read, so that a search which came late is shown.
		const ranking = this.#late >= 0 ? this.#rankings.get(this.state) : undefined;
		return ranking ? suggestionsOf(this.trace, situation, ranking) : suggest(this.trace, situation);
	});

	readonly repair = $derived.by(() =>
		this.trace ? repairAdvice(this.trace, this.suggestions, stepPower(this.state.power.now)) : undefined
	);

	/** The suspect whose repair is proposed, where checking more would only cost time. */
	readonly proposed: Standing | undefined = $derived.by(() => {
		const advice = this.repair;
		if (this.procedure || !advice?.stop || advice.repair === undefined || !this.trace) return undefined;
		return suspectsOfRepair(this.trace, advice.repair)[0];
	});

	/** The step that the page is about: in hand, behind the gate, or suggested. */
	readonly stepId: string | undefined = $derived.by(() => {
		const inHand = stepOfState(this.machine);
		if (inHand !== undefined) return inHand;
		if (this.machine === 'gate') return this.context?.wanted;
		return this.machine === 'choosing' ? this.suggestions[0]?.id : undefined;
	});

	/** What the bench has, and what was left out before. */
	readonly within = $derived.by(() => {
		const { instruments } = this.state.intake ?? {};
		return { unavailable: this.context?.unavailable ?? [], ...(instruments ? { instruments } : {}) };
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
			begins: () => beginsWith(trace, standing.id),
			change: () => wouldChange(trace, standing.id, this.within),
			proof: standing.placed?.suspect.proof,
			repair: standing.placed?.suspect.repair.do,
			ledger: ledgerWord(this.state, standing.id)
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

	/** The kind of set by today's library, with the valves of the set at hand. */
	#plan() {
		if (this.state.described.length > 0) return reckoningOf().planOfJob(this.library, this.state);
		return this.library.plans[this.state.intake?.plan ?? ''];
	}

	#clashGate = (to: Power): string | undefined =>
		this.clashes.length > 0 ? reckoningOf().clashGate(this.clashes, to) : undefined;

	/** Valves that do not belong where they are, to be settled before the set gets power. */
	readonly clashes = $derived.by(() =>
		this.state.described.length > 0 ? reckoningOf().clashesOfJob(this.library, this.state) : []
	);

	/** What is settled of the set's valves: the latest data hold. */
	describeSet = (change: (data: SetData) => SetData): Promise<boolean> => {
		const data = this.state.described.at(-1)?.data;
		return data ? this.#deed(['set-described', change(data)]) : Promise.resolve(false);
	};

	/** Where a test point is: its name, and the pin where one may be named. */
	where(point: string): Where | undefined {
		if (!this.resolved) return undefined;
		const data = this.state.described.at(-1)?.data;
		// A flow that was opened before the valves were told goes on from its own copy; the pins are those of the set.
		const plan = data ? reckoningOf().planOfSet(this.resolved.plan, data) : this.resolved.plan;
		return this.#whereIs?.(plan, point);
	}

	/** What does not go together in this job, in words. */
	readonly doubts = $derived.by(() => jobDoubts(this.state));

	/** What is to be asked, or shown, of the bands now: after a cure, a change of symptom, another complaint. */
	readonly listening = $derived.by(() => listening(this.state));

	/** The flows for what is heard now. */
	readonly offers = $derived.by(() => {
		const heard = this.listening?.heard;
		return heard ? offersFor(this.library, this.state, heard) : [];
	});

	/** Flows that this set can have at all, today. */
	readonly fitting = $derived.by(() => {
		const plan = this.#plan();
		const flows = Object.values(this.library.flows).filter(({ procedure }) => !procedure);
		return plan ? flows.filter((flow) => flowFits(flow, plan)) : [];
	});

	/** Work in a fixed order that this set can be given, today. */
	readonly procedures = $derived.by(() => {
		const plan = this.#plan();
		return plan ? proceduresFor(this.library, plan) : [];
	});

	/** Every flow of this job that has not come to its end, the open one too. */
	readonly inHand = $derived.by(() => {
		const going = Object.values(this.state.flows).filter(
			({ run }) => !['cured', 'unresolved'].includes(stateOf(run))
		);
		return going.map(({ flow, run }) => ({ id: flow, title: run.resolved.flow.title }));
	});

	/** The flow for what the last answer of a procedure has found, unless it is in hand already. */
	readonly leadsTo = $derived.by(() => {
		const last = this.procedure ? this.context?.answers.at(-1) : undefined;
		const step = last && this.resolved?.steps[last.step];
		const opens = step && 'outcomes' in step ? step.outcomes[last.outcome]?.opens : undefined;
		return this.fitting.find(({ id }) => id === opens && !this.state.flows[id]);
	});

	/** Add one event; it counts once it is on disk. */
	add = <Kind extends EventKind>(kind: Kind, data: EventData[Kind]): Promise<boolean> =>
		this.#keep([[kind, data] as Entry]);

	/** A row of entries, as a person would make them. */
	addAll = (entries: readonly Entry[]): Promise<boolean> => this.#keep(entries);

	/** The entries of one deed, shown when they are on disk. */
	async #keep(entries: readonly Entry[]): Promise<boolean> {
		const kept = await this.store.appendAll(this.id, entries);
		this.problem = kept.ok ? undefined : kept.hint;
		await this.#show();
		return kept.ok;
	}

	/** Move the flow. While one deed is under way there is no other: a second tap is no second answer. */
	async #deed(...entries: Entry[]): Promise<boolean> {
		if (this.#underWay) return false;
		const kept = this.#keep(entries);
		this.#underWay = kept;
		try {
			return await kept;
		} finally {
			this.#underWay = undefined;
		}
	}

	async openFlow(flowId: string): Promise<void> {
		const flow = this.library.flows[flowId];
		const plan = this.#plan();
		if (!flow || !plan) return;
		const snapshot = await takeSnapshot(this.library, flow, plan, digest());
		const kept = await this.store.keepFlow(snapshot);
		if (!kept.ok) {
			this.problem = kept.hint;
			return;
		}
		await this.#enter(flowId, plan.id, snapshot.hash);
		if (bench.value.ownJobs && !this.trial && !flow.procedure) await this.letInOwnJobs(flowId);
	}

	/** Own closed jobs with this complaint count in it, as they stand today. */
	async letInOwnJobs(flow: string): Promise<void> {
		const { ownJobsFor } = await import('$lib/job/experience.ts');
		const jobs = ownJobsFor(await this.store.jobs(), flow, this.id);
		if (hasJobs(jobs)) await this.add('experience', { flow, ...jobs });
	}

	/** They count no more. */
	leaveOutOwnJobs = (flow: string) => this.add('experience', { flow, proved: {}, untested: {} });

	/** Back to another flow of this job, as it was left. */
	async turnTo(flowId: string): Promise<void> {
		const known = own(this.state.flows, flowId);
		if (known) await this.#enter(flowId, known.run.resolved.plan.id, known.hash);
	}

	/** The open flow stays the one that is traced, whatever was heard. */
	async stay(): Promise<void> {
		if (this.flow) await this.#enter(this.flow.flow, this.flow.run.resolved.plan.id, this.flow.hash);
	}

	/** A complaint that is back is traced on, with all that is known of it. */
	async #enter(flow: string, plan: string, hash: string): Promise<void> {
		const known = own(this.state.flows, flow);
		const ended = known?.hash === hash && ['cured', 'unresolved'].includes(stateOf(known.run));
		const opened: Entry = ['flow-opened', { flow, plan, hash }];
		await this.#keep(ended ? [opened, ['went-on', { flow }]] : [opened]);
	}

	#flowId(): string {
		return this.flow?.flow ?? '';
	}

	/** Make sure that the machine is at this step before it is answered. */
	#take(step: string): Entry[] {
		const flow = this.#flowId();
		return stepOfState(this.machine) === step ? [] : [['took', { flow, step }]];
	}

	take = (step: string) => this.#deed(...this.#take(step));

	answer(step: string, outcome: string, extra: Partial<EventData['answered']> = {}): Promise<boolean> {
		const flow = this.#flowId();
		const taken = this.resolved?.steps[step];
		const way = taken && bestWay(taken, this.state.intake?.instruments);
		const data = { flow, step, outcome, sure: true, ...(way === undefined ? {} : { way }), ...extra };
		return this.#deed(...this.#take(step), ['answered', data]);
	}

	cannotTell(step: string, reason: string): Promise<boolean> {
		const flow = this.#flowId();
		const here = this.machine === 'gate' && this.context?.wanted === step ? [] : this.#take(step);
		return this.#deed(...here, ['cannot-tell', { flow, step, reason }]);
	}

	skip(step: string): Promise<boolean> {
		return this.#deed(...this.#take(step), ['skipped', { flow: this.#flowId(), step }]);
	}

	/** Why the set may not pass to this power state now; nothing where it may. */
	refuse = (to: Power, volts?: [number, number]): string | undefined => {
		const { now, limiterPassed } = this.state.power;
		return (
			causeGate(this.state, to) ?? this.#clashGate(to) ?? powerGate({ power: now, limiterPassed }, to, volts)
		);
	};

	power = (to: Power, volts?: [number, number]) => this.#deed(['power', volts ? { to, volts } : { to }]);
	prepared = () => this.#deed(['prepared', { flow: this.#flowId() }]);
	leave = () => this.#deed(['left', { flow: this.#flowId() }]);
	suspect = (suspect: string) => this.#deed(['suspected', { flow: this.#flowId(), suspect }]);
	repairing = () => this.#deed(['repairing', { flow: this.#flowId() }]);
	/** @param fitted what was put in its place, in words; empty where nothing is said */
	changed = (fitted: string) =>
		this.#deed([
			'part-changed',
			{ flow: this.#flowId(), part: this.context?.suspect ?? '', ...(fitted ? { fitted } : {}) }
		]);
	proved = (symptom: EventData['proved']['symptom'], partWas: EventData['proved']['partWas']) =>
		this.#deed(['proved', { flow: this.#flowId(), symptom, partWas }]);
	giveUp = () => this.#deed(['gave-up', { flow: this.#flowId() }]);
	goOn = () => this.#deed(['went-on', { flow: this.#flowId() }]);
	heard = (bands: EventData['heard']['bands'], signs: EventData['heard']['signs'] = []) =>
		this.#deed(['heard', { bands, ...(signs.length ? { signs } : {}) }]);
	causeSought = (
		{ flow, part }: Pick<EventData['cause-sought'], 'flow' | 'part'>,
		result: EventData['cause-sought']['result'],
		found: string
	) => this.#deed(['cause-sought', { flow, part, result, ...(found ? { found } : {}) }]);
	guessed = (guess: Omit<EventData['guessed'], 'flow'>) =>
		this.#deed(['guessed', { flow: this.#flowId(), ...guess }]);
	/** Of answers made apart from each other the one that stands. */
	settle = (step: string, keep: string) => this.#deed(['resolved', { step, keep }]);
	finish = (result: EventData['closed']['result']) => this.#deed(['closed', { result }]);
	/** The sheet of a step, before it is recorded. */
	tally = (step: string, provoked: Provoked) =>
		this.#deed(['tallied', { flow: this.#flowId(), step, provoked }]);
	startClock = (step: string) => this.#deed(['clock-started', { flow: this.#flowId(), step }]);
	/** A part tested or changed on the way, outside a proof. */
	tested = (part: string, result: EventData['part-tested']['result'], found: string) =>
		this.#deed(['part-tested', { part, result, ...(found ? { found } : {}) }]);
	changedOnTheWay = (part: string) => this.#deed(['part-changed', { part }]);
	/** What was measured on the part in hand before it is changed. */
	measured = (text: string) => this.add('noted', { text, part: this.context?.suspect ?? '' });
	note = (text: string) => this.add('noted', { text, ...(this.stepId ? { step: this.stepId } : {}) });

	get canUndo(): boolean {
		return undoTarget(this.state) !== undefined;
	}

	/** Take back the last answer, and the step that was only opened for it; a deed under way comes to its end first. */
	async undo(): Promise<void> {
		while (this.#underWay) await this.#underWay;
		const target = undoTarget(this.state);
		const [latest, opened] = openRun(this.state)?.done.slice(-2).reverse() ?? [];
		if (target === undefined) return;
		if (latest?.event.id !== target) {
			await this.#deed(['undone', { target }]);
			return;
		}
		const opener = opened && openedFor(opened, latest) ? [opened] : [];
		await this.#deed(...[latest, ...opener].map(({ event }): Entry => ['undone', { target: event.id }]));
	}
}

/** Whether the step was opened by the very deed that answered it. */
const openedFor = ({ event: opened, order }: Done, { event, order: next }: Done): boolean =>
	opened.kind === 'took' &&
	'step' in event.data &&
	event.data.step === opened.data.step &&
	next === order + 1;
