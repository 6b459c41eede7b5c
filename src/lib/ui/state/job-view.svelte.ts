import { repairAdvice, suggest, suggestionsOf, suspectsOfRepair, type Suggestion } from '$lib/flow/advice.ts';
import { stepOfState } from '$lib/flow/compile.ts';
import { nameOf, reasonsFor } from '$lib/flow/explain.ts';
import { proceduresFor } from '$lib/flow/match.ts';
import { flowFits } from '$lib/flow/resolve.ts';
import { beginsWith, wouldChange } from '$lib/flow/standing-words.ts';
import { cleared, sectionStandings, standings, type Standing, type Trace } from '$lib/flow/trace.ts';
import type { Where } from '$lib/flow/where.ts';
import { listening, offersFor } from '$lib/job/after-repair.ts';
import { jobDoubts } from '$lib/job/doubts.ts';
import { contextOf, stateOf, stepPower } from '$lib/job/run.ts';
import { ledgerWord } from '$lib/job/ledger.ts';
import { reckoningOf } from '$lib/job/set-reckoning.ts';
import { situationIn, traceIn } from '$lib/job/shared-evidence.ts';
import { openRun } from '$lib/job/state.ts';
import { standingNumber, standingWord } from '$lib/suspects/index.ts';
import { JobLog } from './job-log.svelte.ts';

/** What the page shows of a job: the step, what is suspected, and what is to be asked or warned of. */
export class JobView extends JobLog {
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
		const { ranking } = this;
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
	protected planToday() {
		if (this.state.described.length > 0) return reckoningOf().planOfJob(this.library, this.state);
		return this.library.plans[this.state.intake?.plan ?? ''];
	}

	/** Valves that do not belong where they are, to be settled before the set gets power. */
	readonly clashes = $derived.by(() =>
		this.state.described.length > 0 ? reckoningOf().clashesOfJob(this.library, this.state) : []
	);

	/** Where a test point is: its name, and the pin where one may be named. */
	where(point: string): Where | undefined {
		if (!this.resolved) return undefined;
		const data = this.state.described.at(-1)?.data;
		// A flow that was opened before the valves were told goes on from its own copy; the pins are those of the set.
		const plan = data ? reckoningOf().planOfSet(this.resolved.plan, data) : this.resolved.plan;
		return this.whereIs?.(plan, point);
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
		const plan = this.planToday();
		const flows = Object.values(this.library.flows).filter(({ procedure }) => !procedure);
		return plan ? flows.filter((flow) => flowFits(flow, plan)) : [];
	});

	/** Work in a fixed order that this set can be given, today. */
	readonly procedures = $derived.by(() => {
		const plan = this.planToday();
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
}
