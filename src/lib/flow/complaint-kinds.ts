import type { Flow } from './schema.ts';
import { SIGN_KINDS, SIGNS } from './terms.ts';

/** How a complaint is noticed: by what each band does, or by the first of its signs. */
export const COMPLAINT_KINDS = { bands: 'By what each band does', ...SIGN_KINDS } as const;
export type ComplaintKind = keyof typeof COMPLAINT_KINDS;

export const complaintKind = ({ signs: [first] }: Pick<Flow, 'signs'>): ComplaintKind =>
	first ? SIGNS[first].kind : 'bands';

/** The complaints of each kind that has any, by title. */
export function byKind<One extends { title: string }>(
	complaints: readonly One[],
	kindOf: (one: One) => ComplaintKind
): { title: string; complaints: One[] }[] {
	const sorted = [...complaints].sort((one, other) => one.title.localeCompare(other.title));
	return Object.entries(COMPLAINT_KINDS)
		.map(([kind, title]) => ({ title, complaints: sorted.filter((one) => kindOf(one) === kind) }))
		.filter((group) => group.complaints.length > 0);
}
