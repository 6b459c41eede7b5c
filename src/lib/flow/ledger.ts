import { SHIFTS } from '../suspects/index.ts';
import { repairKey, type ResolvedFlow } from './resolve.ts';

/** What the parts ledger of a job says of its suspects: tested and found good or bad, or changed on the way. */

/** A part by the suspect that was tested or changed, as it stands last. */
export interface LedgerEntry {
	suspect: string;
	state: 'good' | 'bad' | 'changed';
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

/**
 * P(this entry | hypothesis) for each hypothesis of a flow, "not listed" last; scaled, as only the ratios count.
 * `undefined` where the flow has no such suspect.
 */
export function ledgerRow({ suspects }: ResolvedFlow, { suspect, state }: LedgerEntry): number[] | undefined {
	const own = suspects.find(({ id }) => id === suspect);
	if (!own) return undefined;
	const isOwn = (id: string) => id === suspect;
	const row = suspects.map((placed) => {
		if (state === 'good') return isOwn(placed.id) ? PASSES : 1;
		if (state === 'bad') return isOwn(placed.id) ? 1 : BAD_BY_THE_WAY;
		if (repairKey(placed) === repairKey(own)) return PASSES;
		return placed.suspect.kind === 'work' && placed.place === own.place ? NEW_WORK : 1;
	});
	return [...row, state === 'bad' ? BAD_BY_THE_WAY : 1];
}
