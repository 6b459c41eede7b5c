import type { Library } from '../flow/library.ts';
import { standings } from '../flow/trace.ts';
import type { Case, Given } from './case.ts';
import { give, openCase, viewOf, type Play, type PlayProblem } from './play.ts';

/** How a case went when the program was given only what it asked for. */
export interface Score {
	case: string;
	/** Place of the real cause among the suspects at the end, from 1; 0 where it is no suspect of the trace. */
	rank: number;
	/** Share of the real cause at the end. */
	probability: number;
	/** Whether the section of the cause leads. */
	sectionFirst: boolean;
	/** Steps that the program asked for, and those of them which the history answers. */
	asked: string[];
	answered: string[];
	/** What the answered steps take, changes of power state and setting up included. */
	minutes: number;
	leaders: { id: string; probability: number }[];
}

export type ScoreResult = { ok: true; score: Score } | { ok: false; problem: PlayProblem };

/** No trace of one flow comes near it; it only keeps a faulty library from turning for ever. */
const MOST_STEPS = 200;

type StepAnswer = Extract<Given, { step: string }>;

type Interview = Pick<Score, 'asked' | 'answered' | 'minutes'>;

/**
 * Answer only what the program asks; everything else is "cannot tell". It goes on until nothing more can be
 * learnt on what the history offers.
 */
function interview(
	start: Play
): ({ ok: true; play: Play } & Interview) | { ok: false; problem: PlayProblem } {
	const answers = new Map(
		start.case.answers.flatMap((given, index): [string, { given: StepAnswer; index: number }][] =>
			'step' in given ? [[given.step, { given, index }]] : []
		)
	);
	const asked: string[] = [];
	const answered: string[] = [];
	let minutes = 0;
	let play = start;
	while (asked.length < MOST_STEPS) {
		const next = viewOf(play).suggestions[0];
		if (!next) break;
		asked.push(next.id);
		const told = answers.get(next.id);
		if (told && !('cannot-tell' in told.given)) {
			answered.push(next.id);
			minutes += next.minutes;
		}
		const given = told?.given ?? { step: next.id, 'cannot-tell': 'the history does not say' };
		const result = give(play, given, ['answers', told?.index ?? 0]);
		if (!result.ok) return result;
		play = result.play;
	}
	return { ok: true, play, asked, answered, minutes };
}

/** The cause as the trace names it: itself, or its family in the section that the case names. */
const isCause = (
	{ cause }: { cause: NonNullable<Case['cause']> },
	id: string,
	section: string | undefined
) => {
	const [family] = id.split('@');
	if (id === cause.suspect) return true;
	return family === cause.suspect && [cause.section, ...cause.also].includes(section as never);
};

/** Play a case blind and rank its real cause. A score on histories that the library was written with is a training score. */
export function scoreCase(library: Library, played: Case): ScoreResult {
	const { cause } = played;
	if (!cause)
		return {
			ok: false,
			problem: {
				path: ['ends'],
				message: 'A procedure has no cause to be ranked.',
				remedy: 'Name a flow that traces a fault, and its  cause:'
			}
		};
	const opened = openCase(library, played);
	if (!opened.ok) return opened;
	const end = interview(opened.play);
	if (!end.ok) return end;
	const ranked = standings(viewOf(end.play).trace);
	const index = ranked.findIndex(({ id, section }) => isCause({ cause }, id, section));
	const sums = new Map<string, number>();
	for (const { section, probability } of ranked)
		if (section) sums.set(section, (sums.get(section) ?? 0) + probability);
	const [leading] = [...sums].sort((a, b) => b[1] - a[1] || a[0].localeCompare(b[0]));
	return {
		ok: true,
		score: {
			case: played.id,
			rank: index + 1,
			probability: ranked[index]?.probability ?? 0,
			sectionFirst: leading !== undefined && [cause.section, ...cause.also].includes(leading[0] as never),
			asked: end.asked,
			answered: end.answered,
			minutes: end.minutes,
			leaders: ranked.slice(0, 3).map(({ id, probability }) => ({ id, probability }))
		}
	};
}
