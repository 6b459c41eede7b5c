import { normalOf } from '../flow/evidence.ts';
import type { Library } from '../flow/library.ts';
import type { Case, Given } from './case.ts';
import { give, openCase, viewOf, type Play, type PlayProblem } from './play.ts';

/** How work in a fixed order went, when the program was given a sound set save for what the case tells. */
export interface Worked {
	case: string;
	/** Steps in the order in which they came. */
	asked: string[];
	/** Steps of the case that never came, or came in another order than it tells. */
	missed: string[];
	/** The flow that the last finding leads to; nothing where all was worked through. */
	opens?: string;
	/** Whether it ended as the case tells, every finding of it asked for. */
	asTold: boolean;
}

export type WorkedResult = { ok: true; worked: Worked } | { ok: false; problem: PlayProblem };

type StepAnswer = Extract<Given, { step: string }>;

/** The flow that an answer of a run leads to, if it does. */
function opened({ run }: Play, step: string): string | undefined {
	const outcome = run.snapshot.context.answers.findLast((answer) => answer.step === step)?.outcome;
	const found = run.resolved.steps[step];
	return found && 'outcomes' in found && outcome !== undefined ? found.outcomes[outcome]?.opens : undefined;
}

/** Whether these stand in that order in the list, whatever stands between them. */
function inOrder(told: readonly string[], asked: readonly string[]): string[] {
	let from = 0;
	return told.filter((step) => {
		const at = asked.indexOf(step, from);
		if (at >= 0) from = at + 1;
		return at < 0;
	});
}

/** Work a procedure through on a case: what it tells is answered so, every other step as on a sound set. */
export function workThrough(library: Library, played: Case): WorkedResult {
	const start = openCase(library, played);
	if (!start.ok) return start;
	if (!start.play.run.resolved.flow.procedure)
		return {
			ok: false,
			problem: {
				path: ['ends'],
				message: `The flow "${played.flow ?? ''}" traces a fault, so it ends in a cause.`,
				remedy: 'Write  cause:  in place of  ends:  or name a procedure.'
			}
		};
	const told = new Map(
		played.answers.flatMap((given, index): [string, { given: StepAnswer; index: number }][] =>
			'step' in given ? [[given.step, { given, index }]] : []
		)
	);
	const asked: string[] = [];
	let { play } = start;
	let opens: string | undefined;
	while (opens === undefined) {
		const next = viewOf(play).suggestions[0];
		if (!next) break;
		asked.push(next.id);
		const answer = told.get(next.id);
		const given = answer?.given ?? { step: next.id, outcome: normalOf(next.step) };
		const result = give(play, given, ['answers', answer?.index ?? 0]);
		if (!result.ok) return result;
		play = result.play;
		opens = opened(play, next.id);
	}
	const missed = inOrder([...told.keys()], asked);
	const end = played.ends === 'through' ? undefined : played.ends?.opens;
	const asTold = opens === end && missed.length === 0;
	return { ok: true, worked: { case: played.id, asked, missed, ...(opens && { opens }), asTold } };
}
