import { SHIFTS } from '../suspects/index.ts';
import { repairKey, type PlacedSuspect, type ResolvedFlow } from './resolve.ts';

/** What the parts ledger of a job says of its suspects: tested and found good or bad, or changed on the way. */

/**
 * A part by the suspects that were tested or changed with it, as it stands last. `blamed`: it was changed, and the set did
 * worse when it was heard next.
 */
export interface LedgerEntry {
	suspect: string;
	/** Other ways in which the same part fails. */
	also?: readonly string[];
	state: 'good' | 'bad' | 'changed' | 'blamed';
	/** Of a blamed one: how many answers stood when the set was heard. */
	after?: number;
}

/** How often a part that is the fault passes its test, or is changed for one with the same fault. Our own choice. */
const PASSES = 0.02;
/**
 * How often a part is found bad that is not the fault at hand, beside one that is. Our own choice: low enough that a part
 * found bad is nearly certain wherever it was suspected at all.
 */
const BAD_BY_THE_WAY = 0.001;
/** A part changed without a proof: the work on its stage may have gone wrong. */
const NEW_WORK = SHIFTS.likelier;
/** How far the work on a blamed part stands before the next suspect, when the set is heard. Our own choice. */
const LEADS_BY = 2;

const ownOf = ({ suspects }: ResolvedFlow, { suspect, also = [] }: LedgerEntry): PlacedSuspect[] =>
	suspects.filter(({ id }) => id === suspect || also.includes(id));

/**
 * P(this entry | hypothesis) for each hypothesis of a flow, "not listed" last; scaled, as only the ratios count.
 * `undefined` where the flow has no such suspect.
 */
export function ledgerRow(resolved: ResolvedFlow, entry: LedgerEntry): number[] | undefined {
	const own = ownOf(resolved, entry);
	if (own.length === 0) return undefined;
	const { state } = entry;
	const keys = new Set(own.map(repairKey));
	const places = new Set(own.map(({ place }) => place));
	const row = resolved.suspects.map((placed) => {
		if (state === 'good') return own.includes(placed) ? PASSES : 1;
		if (state === 'bad') return own.includes(placed) ? 1 : BAD_BY_THE_WAY;
		if (keys.has(repairKey(placed))) return PASSES;
		return placed.suspect.kind === 'work' && places.has(placed.place) ? NEW_WORK : 1;
	});
	return [...row, state === 'bad' ? BAD_BY_THE_WAY : 1];
}

/**
 * The row of a blamed change: the work on its stage leads the list, the new part itself gets likelier. Where no suspect
 * stands for that work, the part leads.
 *
 * @param before standings by all that was known when the set was heard, "not listed" last
 */
export function blameRow(
	resolved: ResolvedFlow,
	entry: LedgerEntry,
	before: readonly number[]
): number[] | undefined {
	const own = ownOf(resolved, entry);
	const places = new Set(own.map(({ place }) => place));
	const at = (index: number) => before[index] ?? 0;
	const indices = resolved.suspects.map((_, index) => index).filter((index) => at(index) > 0);
	const isWork = (index: number) =>
		resolved.suspects[index]?.suspect.kind === 'work' && places.has(resolved.suspects[index].place);
	const isOwn = (index: number) => own.some((placed) => placed === resolved.suspects[index]);
	const work = indices.filter(isWork);
	const leaders = work.length > 0 ? work : indices.filter(isOwn);
	const top = Math.max(0, ...leaders.map(at));
	if (top === 0) return undefined;
	const others = before.filter((_, index) => !leaders.includes(index));
	const factor = Math.max(NEW_WORK, (LEADS_BY * Math.max(0, ...others) * NEW_WORK) / top);
	return before.map((_, index) => (leaders.includes(index) ? factor : isOwn(index) ? NEW_WORK : 1));
}
