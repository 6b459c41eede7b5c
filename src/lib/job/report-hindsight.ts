import { standingNumber, standingWord } from '../suspects/index.ts';
import { hindsights, type Hindsight } from './hindsight.ts';
import type { ReportLine } from './report-lines.ts';
import type { JobState } from './state.ts';
import { lowerFirst } from './words.ts';

const minutesWords = (minutes: number) => `about ${Math.round(minutes)} min`;

/** Below "probably" the answers had pointed to the part, and no more; see `standingWord`. */
const POINTED = 0.6;

/** How the shortest way compares with the one that was gone. */
export function shortestWords(hindsight: Hindsight): string {
	const { reached } = hindsight;
	const so = shortest(hindsight);
	if (!hindsight.shortest || reached >= POINTED) return so;
	return `${so} They put the part first, but only as ${standingWord(reached)} (${standingNumber(reached)}); the proof after the change decided.`;
}

function shortest({ shortest, answers, minutes }: Hindsight): string {
	if (!shortest)
		return 'The answers had not put this part before all others; the proof after the change decided.';
	const all = `${answers} ${answers === 1 ? 'answer' : 'answers'}, ${minutesWords(minutes)}`;
	if (shortest.steps.length === 0) return `The complaint alone pointed there. Given were ${all}.`;
	if (shortest.steps.length === answers) return `Every answer was needed: ${all}.`;
	return `${shortest.steps.length} of ${all} would have done, in ${minutesWords(shortest.minutes)}: ${shortest.steps.join('; ')}.`;
}

/** The restorer's own suspicion beside what it was. */
export function guessWords({ guess }: Hindsight): string | undefined {
	if (!guess) return undefined;
	const when =
		guess.answersBefore === 0
			? 'before the first answer'
			: `after ${guess.answersBefore} ${guess.answersBefore === 1 ? 'answer' : 'answers'}`;
	return `You said "${guess.text}" ${when}. ${guess.right ? 'That was it.' : 'It was another part.'}`;
}

/** What an answer did to the cause. */
export const decidingWords = ({ found, before, after }: Hindsight['deciding'][number]): string =>
	before === after
		? `${found}. It raised the cause within "${before}".`
		: `${found}. It took the cause from ${before} to ${after}.`;

function linesOfOne(hindsight: Hindsight): ReportLine[] {
	const { title, cause, deciding, wrongParts } = hindsight;
	const guess = guessWords(hindsight);
	return [
		{ text: `${title}: the cause was ${lowerFirst(cause)}` },
		...deciding.map((answer): ReportLine => ({ text: 'Decided by', meaning: decidingWords(answer) })),
		{ text: 'The shortest way', meaning: shortestWords(hindsight) },
		...wrongParts.map((part): ReportLine => ({ text: 'Changed without curing it', meaning: part })),
		...(guess ? [{ text: 'Own suspicion', meaning: guess }] : [])
	];
}

export const hindsightLines = (state: JobState): ReportLine[] => hindsights(state).flatMap(linesOfOne);
