import { pastSentences, pastShifts } from './history.ts';
import { ownJobsSentence } from './own-jobs.ts';
import { closest, type PlacedSuspect, type ResolvedFlow } from './resolve.ts';
import { inTheWay, settlersOf } from './settle.ts';
import type { Trace } from './trace.ts';

/** Where a standing comes from besides the answers, and what would change it. */

/** How common the flow calls a suspect under its complaint. */
function commonWords({ flow }: ResolvedFlow, placed: PlacedSuspect): string {
	const key = placed.named ? closest(Object.keys(flow.suspects), placed) : undefined;
	const named = key === undefined ? undefined : flow.suspects[key];
	if (named === undefined)
		return 'The flow does not name it. It takes part because it acts on a band that misbehaves.';
	const word = typeof named === 'string' ? named : named.common;
	return `With this complaint the flow calls it ${word}${key === placed.id ? '' : ', all its places together'}.`;
}

const LEDGER = {
	good: 'It was tested good.',
	bad: 'It was tested bad.',
	changed: 'It was changed on the way.',
	blamed: 'It was worked on, and the set did worse when it was heard next: this comes first.'
} as const;

/** What a suspect's standing began with: the flow's word, the restorer's own jobs, the past of the set, the parts ledger. */
export function beginsWith(trace: Trace, id: string): string[] {
	const placed = trace.resolved.suspects[trace.ids.indexOf(id)];
	if (!placed) return ['It is always in the list: nobody has thought of everything.'];
	return [
		commonWords(trace.resolved, placed),
		...(trace.ownJobs ? [ownJobsSentence(trace.ownJobs, placed.id)] : []),
		...pastSentences(pastShifts(trace.resolved, placed, trace.history)),
		...trace.ledger
			.filter(({ entry, likelihood }) =>
				entry.state === 'blamed'
					? (likelihood[trace.ids.indexOf(id)] ?? 0) > 1
					: entry.suspect === id || entry.also?.includes(id)
			)
			.map(({ entry }) => LEDGER[entry.state])
	];
}

/** The step that would move a suspect most, of those not answered yet; `undefined` where none would. */
export function wouldChange(
	trace: Trace,
	id: string,
	known: Omit<Parameters<typeof settlersOf>[2], 'answered'>
): string | undefined {
	const answered = new Set(trace.answers.map(({ answer }) => answer.step));
	const settlers = settlersOf(trace, id, { ...known, answered });
	const [first] = settlers.filter((settler) => inTheWay(settler) === '');
	const best = first ?? settlers[0];
	if (!best) return undefined;
	const way = inTheWay(best);
	return way ? `${best.title} (${way}).` : `${best.title}, ${best.minutes} min.`;
}
