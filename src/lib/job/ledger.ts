import { nameOf } from '../flow/explain.ts';
import type { LedgerEntry } from '../flow/ledger.ts';
import type { PlacedSuspect } from '../flow/resolve.ts';
import type { EventOf } from './events.ts';
import { allRuns, type JobState, type Warning } from './state.ts';

/** The parts ledger: what was tested or changed on the way, outside the proof of a flow. */

/** One entry of the ledger, oldest first in the state. */
export interface LedgerLine extends LedgerEntry {
	event: string;
	order: number;
}

interface Kept {
	state: JobState;
	refused?: string;
	warning?: Omit<Warning, 'event'>;
}

const placedIn = (state: JobState, part: string): PlacedSuspect | undefined =>
	allRuns(state)
		.flatMap(({ run }) => run.resolved.suspects)
		.find(({ id }) => id === part);

const withLine = (state: JobState, line: LedgerLine): JobState => ({
	...state,
	ledger: [...state.ledger, line]
});

/** A part good in one test and bad in the next, with no change between: one of the two tests was wrong. */
function contradiction(state: JobState, placed: PlacedSuspect, result: 'good' | 'bad') {
	const before = state.ledger.findLast(({ suspect }) => suspect === placed.id);
	if (!before || before.state === 'changed' || before.state === result) return undefined;
	return {
		kind: 'ledger-contradicts' as const,
		message: `"${nameOf(placed)}" was tested ${before.state} and then ${result}. The later test counts. Test it once more, and undo the test that was wrong.`
	};
}

/** A part was tested on the way. */
export function testPart(state: JobState, event: EventOf<'part-tested'>, order: number): Kept {
	const { part, result } = event.data;
	const placed = placedIn(state, part);
	if (!placed)
		return {
			state,
			refused: `No flow of this job knows the part "${part}". Open the flow that has it, then enter the test.`
		};
	const warning = contradiction(state, placed, result);
	const kept = withLine(state, { event: event.id, order, suspect: part, state: result });
	return { state: kept, ...(warning ? { warning } : {}) };
}

/** A part was changed on the way, without a proof; one that no flow knows by name says nothing of its suspects. */
export const changeOnTheWay = (
	state: JobState,
	{ id, data }: EventOf<'part-changed'>,
	order: number
): JobState =>
	data.flow === undefined && placedIn(state, data.part)
		? withLine(state, { event: id, order, suspect: data.part, state: 'changed' })
		: state;

/** Each part once, as it stood last at that place in the order of the job. */
export const ledgerUpTo = ({ ledger }: JobState, upTo: number): LedgerEntry[] => [
	...new Map(
		ledger
			.filter(({ order }) => order <= upTo)
			.map(({ suspect, state }): [string, LedgerEntry] => [suspect, { suspect, state }])
	).values()
];

/** How a part stands in the ledger, in words; `undefined` where it is not in it. */
export function ledgerWord({ ledger }: JobState, part: string): string | undefined {
	const last = ledger.findLast(({ suspect }) => suspect === part);
	return last && (last.state === 'changed' ? 'changed' : `tested ${last.state}`);
}
