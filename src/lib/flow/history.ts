import { raiseToFirst, SHIFTS, type ShiftWord } from '../suspects/index.ts';
import type { PlacedSuspect, ResolvedFlow } from './resolve.ts';
import type { History } from './schema.ts';
import { HISTORY, type HistoryWord } from './terms.ts';

/** What the past of a set does to the weights of its suspects: before any answer, and apart from every answer. */

/** One word of a set's past, as far as it concerns a suspect. */
export interface PastShift {
	word: HistoryWord;
	shift: ShiftWord;
	why: string;
	source: string[];
}

/** The key that speaks of a suspect: itself before its family before its kind. */
function shiftOf({ shifts }: History, { id, family, suspect }: PlacedSuspect): ShiftWord | undefined {
	const key = [id, family, suspect.kind].find((name) => name !== undefined && Object.hasOwn(shifts, name));
	return key === undefined ? undefined : shifts[key];
}

/** What each word of the past says of one suspect; nothing where the library knows the word no more. */
export const pastShifts = (
	{ history }: Pick<ResolvedFlow, 'history'>,
	placed: PlacedSuspect,
	words: readonly HistoryWord[]
): PastShift[] =>
	[...new Set(words)].flatMap((word) => {
		const told = Object.hasOwn(history, word) ? history[word] : undefined;
		const shift = told && shiftOf(told, placed);
		if (!told || shift === undefined) return [];
		return [{ word, shift, why: told.why, source: [told.source].flat() }];
	});

/** The weights of a flow's suspects after the past of the set: each word multiplies. */
export const weightsByPast = (
	resolved: ResolvedFlow,
	words: readonly HistoryWord[],
	weights: readonly number[] = resolved.suspects.map(({ weight }) => weight)
): number[] =>
	resolved.suspects.map((placed, index) =>
		pastShifts(resolved, placed, words).reduce(
			(weight, { shift }) => (shift === 'comes first' ? weight : weight * SHIFTS[shift]),
			weights[index] ?? 0
		)
	);

/**
 * What comes first by the past of the set is raised to the heaviest other hypothesis, after the complaint has spoken.
 *
 * @param weights of the flow's suspects and of "not listed" last, summing to one
 */
export function firstByPast(
	resolved: ResolvedFlow,
	words: readonly HistoryWord[],
	weights: readonly number[]
): number[] {
	const first = resolved.suspects.map((placed) =>
		pastShifts(resolved, placed, words).some(({ shift }) => shift === 'comes first')
	);
	const raised = raiseToFirst(weights, first);
	const sum = raised.reduce((a, b) => a + b, 0);
	return raised.map((weight) => weight / sum);
}

/** The shift of one suspect as sentences for people, each with its reason. */
export const pastSentences = (shifts: readonly PastShift[]): string[] =>
	shifts.map(({ word, shift, why }) => {
		const what = shift === 'comes first' ? 'this comes first' : `this is ${shift}`;
		return `${HISTORY[word]}, so ${what}. ${why}`;
	});
