import { powerGate, stepOfState } from '$lib/flow/compile.ts';
import type { Power } from '$lib/flow/machine-types.ts';
import { hasJobs } from '$lib/flow/own-jobs.ts';
import type { Provoked } from '$lib/flow/terms.ts';
import { bestWay } from '$lib/flow/trace.ts';
import { causeGate } from '$lib/job/after-repair.ts';
import type { EventData } from '$lib/job/events.ts';
import { stateOf } from '$lib/job/run.ts';
import type { SetData } from '$lib/job/set-data.ts';
import { reckoningOf } from '$lib/job/set-reckoning.ts';
import { takeSnapshot } from '$lib/job/snapshot.ts';
import { openRun, own, undoTarget, type Done } from '$lib/job/state.ts';
import type { Entry } from '$lib/job/store.ts';
import { bench } from './bench.svelte.ts';
import { digest } from './world.ts';
import { JobView } from './job-view.svelte.ts';

/** A job on its page: what it shows, and what the restorer can do in it. */
export class OpenJob extends JobView {
	/** What is settled of the set's valves: the latest data hold. */
	describeSet = (change: (data: SetData) => SetData): Promise<boolean> => {
		const data = this.state.described.at(-1)?.data;
		return data ? this.deed(['set-described', change(data)]) : Promise.resolve(false);
	};

	async openFlow(flowId: string): Promise<void> {
		const flow = this.library.flows[flowId];
		const plan = this.planToday();
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
		await this.keep(ended ? [opened, ['went-on', { flow }]] : [opened]);
	}

	#flowId(): string {
		return this.flow?.flow ?? '';
	}

	/** Make sure that the machine is at this step before it is answered. */
	#take(step: string): Entry[] {
		const flow = this.#flowId();
		return stepOfState(this.machine) === step ? [] : [['took', { flow, step }]];
	}

	take = (step: string) => this.deed(...this.#take(step));

	answer(step: string, outcome: string, extra: Partial<EventData['answered']> = {}): Promise<boolean> {
		const flow = this.#flowId();
		const taken = this.resolved?.steps[step];
		const way = taken && bestWay(taken, this.state.intake?.instruments);
		const data = { flow, step, outcome, sure: true, ...(way === undefined ? {} : { way }), ...extra };
		return this.deed(...this.#take(step), ['answered', data]);
	}

	cannotTell(step: string, reason: string): Promise<boolean> {
		const flow = this.#flowId();
		const here = this.machine === 'gate' && this.context?.wanted === step ? [] : this.#take(step);
		return this.deed(...here, ['cannot-tell', { flow, step, reason }]);
	}

	skip(step: string): Promise<boolean> {
		return this.deed(...this.#take(step), ['skipped', { flow: this.#flowId(), step }]);
	}

	#clashGate = (to: Power): string | undefined =>
		this.clashes.length > 0 ? reckoningOf().clashGate(this.clashes, to) : undefined;

	/** Why the set may not pass to this power state now; nothing where it may. */
	refuse = (to: Power, volts?: [number, number]): string | undefined => {
		const { now, limiterPassed } = this.state.power;
		return (
			causeGate(this.state, to) ?? this.#clashGate(to) ?? powerGate({ power: now, limiterPassed }, to, volts)
		);
	};

	power = (to: Power, volts?: [number, number]) => this.deed(['power', volts ? { to, volts } : { to }]);
	prepared = () => this.deed(['prepared', { flow: this.#flowId() }]);
	leave = () => this.deed(['left', { flow: this.#flowId() }]);
	suspect = (suspect: string) => this.deed(['suspected', { flow: this.#flowId(), suspect }]);
	repairing = () => this.deed(['repairing', { flow: this.#flowId() }]);
	/** @param fitted what was put in its place, in words; empty where nothing is said */
	changed = (fitted: string) =>
		this.deed([
			'part-changed',
			{ flow: this.#flowId(), part: this.context?.suspect ?? '', ...(fitted ? { fitted } : {}) }
		]);
	proved = (symptom: EventData['proved']['symptom'], partWas: EventData['proved']['partWas']) =>
		this.deed(['proved', { flow: this.#flowId(), symptom, partWas }]);
	giveUp = () => this.deed(['gave-up', { flow: this.#flowId() }]);
	goOn = () => this.deed(['went-on', { flow: this.#flowId() }]);
	heard = (bands: EventData['heard']['bands'], signs: EventData['heard']['signs'] = []) =>
		this.deed(['heard', { bands, ...(signs.length ? { signs } : {}) }]);
	causeSought = (
		{ flow, part }: Pick<EventData['cause-sought'], 'flow' | 'part'>,
		result: EventData['cause-sought']['result'],
		found: string
	) => this.deed(['cause-sought', { flow, part, result, ...(found ? { found } : {}) }]);
	guessed = (guess: Omit<EventData['guessed'], 'flow'>) =>
		this.deed(['guessed', { flow: this.#flowId(), ...guess }]);
	/** Of answers made apart from each other the one that stands. */
	settle = (step: string, keep: string) => this.deed(['resolved', { step, keep }]);
	finish = (result: EventData['closed']['result']) => this.deed(['closed', { result }]);
	/** The sheet of a step, before it is recorded. */
	tally = (step: string, provoked: Provoked) =>
		this.deed(['tallied', { flow: this.#flowId(), step, provoked }]);
	startClock = (step: string) => this.deed(['clock-started', { flow: this.#flowId(), step }]);
	/** A part tested or changed on the way, outside a proof. */
	tested = (part: string, result: EventData['part-tested']['result'], found: string) =>
		this.deed(['part-tested', { part, result, ...(found ? { found } : {}) }]);
	changedOnTheWay = (part: string) => this.deed(['part-changed', { part }]);
	/** What was measured on the part in hand before it is changed. */
	measured = (text: string) => this.add('noted', { text, part: this.context?.suspect ?? '' });
	note = (text: string) => this.add('noted', { text, ...(this.stepId ? { step: this.stepId } : {}) });

	get canUndo(): boolean {
		return undoTarget(this.state) !== undefined;
	}

	/** Take back the last answer, and the step that was only opened for it; a deed under way comes to its end first. */
	async undo(): Promise<void> {
		await this.settled();
		const target = undoTarget(this.state);
		const [latest, opened] = openRun(this.state)?.done.slice(-2).reverse() ?? [];
		if (target === undefined) return;
		if (latest?.event.id !== target) {
			await this.deed(['undone', { target }]);
			return;
		}
		const opener = opened && openedFor(opened, latest) ? [opened] : [];
		await this.deed(...[latest, ...opener].map(({ event }): Entry => ['undone', { target: event.id }]));
	}
}

/** Whether the step was opened by the very deed that answered it. */
const openedFor = ({ event: opened, order }: Done, { event, order: next }: Done): boolean =>
	opened.kind === 'took' &&
	'step' in event.data &&
	event.data.step === opened.data.step &&
	next === order + 1;
