import { DUTIES, PART_LOOKS, VERDICTS } from '$lib/flow/part-terms.ts';
import type { Library } from '$lib/flow/library.ts';
import { partsOf, verdictFor } from '$lib/flow/parts.ts';
import { planOf } from '$lib/job/part-offers.ts';
import { partsFrom, unitOfPart, type Part } from '$lib/job/parts.ts';
import { decisionFor, type Decision } from '$lib/job/shopping.ts';
import type { JobState } from '$lib/job/state.ts';
import type { ScaleName } from '$lib/quantity/index.ts';
import { lookOf, type Look } from './part-marks.ts';

/** A part of the list as the page shows it. */
export interface PartView {
	part: Part;
	look: Look;
	decision: Decision;
	/** `Change`, `Measure`, `Leave`, `Done`. */
	word: string;
	reason: string;
	sources: string[];
	/** Kind, duty, place and what is marked on it. */
	about: string;
	/** The unit beside the field for what is read on it. */
	unit: ScaleName;
}

const WORDS: Readonly<Record<Decision, string>> = { ...VERDICTS, done: 'Done' };

/** From here on a value is read in microfarads. */
const MICRO_FROM = 0.5e-6;

export const unitBeside = ({ kind, value }: Pick<Part, 'kind' | 'value'>): ScaleName => {
	if (unitOfPart(kind) === 'ohm') return 'ohm';
	return kind === 'electrolytic' || (value ?? 0) >= MICRO_FROM ? 'uF' : 'nF';
};

export function partViews(state: JobState, library: Library): PartView[] {
	const plan = planOf(state, library);
	const hidden = new Map(plan ? partsOf(library, plan).map((part) => [part.id, part.hidden]) : []);
	return partsFrom(state.parts).map((part): PartView => {
		const { kind, duty, place, typed, rating } = part;
		const verdict = verdictFor(library, kind, duty);
		const decision = decisionFor(part, verdict);
		const stage = place === undefined ? undefined : (plan?.stages[place] ?? plan?.lines[place])?.title;
		const told = [PART_LOOKS[kind].title, duty && DUTIES[duty].title, stage, hidden.get(part.id)];
		// A duty may be called as its place is: the AVC line.
		const what = [...new Set(told.filter(Boolean))].join(', ');
		return {
			part,
			look: lookOf(part.state),
			decision,
			word: WORDS[decision],
			reason: verdict?.reason ?? '',
			sources: [verdict?.source ?? []].flat().map((key) => library.sources[key]?.title ?? key),
			about: [what, [typed, rating].filter(Boolean).join(' ')].filter(Boolean).join('; '),
			unit: unitBeside(part)
		};
	});
}
