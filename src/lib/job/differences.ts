import type { Library } from '../flow/library.ts';
import { expectedAt, judgeReading } from '../flow/reading.ts';
import { onceFor } from './once.ts';
import { factsOf, type Fact } from './shared-evidence.ts';
import type { SetData } from './set-data.ts';
import { reckoningOf } from './set-reckoning.ts';
import { canonicalText, snapshotOf } from './snapshot.ts';
import { own, type FlowRun, type JobState, type Warning } from './state.ts';

/** How today's library would read an old job. The job goes on with its own snapshot; the person is told. */

const textOf = onceFor<Library, string>();

function aboutFlow(today: Library, run: FlowRun, event: string, data: SetData | undefined): Warning[] {
	const { flow, plan } = run.run.resolved;
	const [flowToday, shipped] = [own(today.flows, flow.id), own(today.plans, plan.id)];
	const planToday = shipped && (data ? reckoningOf().planOfSet(shipped, data) : shipped);
	if (!flowToday || !planToday)
		return [
			{
				event,
				kind: 'flow-gone',
				message: `"${flow.title}" is no longer in the library; this job goes on with its own copy.`
			}
		];
	const then = textOf(run.library, '', () => canonicalText(run.library));
	const now = textOf(today, `${flow.id} ${plan.id} ${JSON.stringify(data ?? '')}`, () =>
		canonicalText(snapshotOf(today, flowToday, planToday))
	);
	if (now === then) return [];
	return [
		{
			event,
			kind: 'flow-changed',
			message: `"${flow.title}" has changed since this job opened it; the job goes on with its own copy.`
		}
	];
}

function aboutReading(today: Library, run: FlowRun, { event, answer }: Fact, state: JobState): Warning[] {
	const flow = own(today.flows, run.flow);
	const plan = own(today.plans, run.run.resolved.plan.id);
	const step = flow && (own(flow.own.steps, answer.step) ?? own(today.steps, answer.step));
	if (!plan || step?.kind !== 'measure' || answer.reading === undefined) return [];
	const judged = judgeReading(step, answer.reading, expectedAt(plan, step.at, state.service, answer.ht));
	if (!judged || judged.outcome === answer.outcome) return [];
	const message = `"${step.title}": today's flow reads ${answer.typed ?? answer.reading} as "${judged.outcome}", this job's own as "${answer.outcome}".`;
	return [{ event, kind: 'reads-otherwise-today', message }];
}

/** The set's data as they were when a flow was opened last: its snapshot was made of them. */
const describedBefore = ({ described }: JobState, order: number): SetData | undefined =>
	described.findLast((one) => one.order < order)?.data;

export function differencesFrom(today: Library, state: JobState): Warning[] {
	const facts = factsOf(state);
	return Object.values(state.flows).flatMap((run) => {
		const opened =
			state.trail.find(({ kind, flow }) => kind === 'flow-opened' && flow === run.flow)?.event ?? '';
		const own = facts.filter(({ flow }) => flow === run.flow);
		return [
			...aboutFlow(today, run, opened, describedBefore(state, run.openedAt)),
			...own.flatMap((fact) => aboutReading(today, run, fact, state))
		];
	});
}
