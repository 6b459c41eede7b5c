import type { Calculation, Problem } from './define.ts';
import { keysOf } from './inputs.ts';

/** Labels by every key under which something may be given, columns of typed tables included. */
function labelsOf({ inputs }: Calculation): Map<string, string> {
	const entries = Object.values(inputs).flatMap((input) => {
		const columns = input.kind === 'rows' ? Object.values(input.columns) : [];
		const own = keysOf(input).map((key) => [key, input.label] as const);
		return [...own, ...columns.map(({ key, label }) => [key, label] as const)];
	});
	return new Map(entries);
}

/** A key as a word of its own, not the same letters as a unit: the V in "V is missing", not in "5 V" or "(V)". */
const keyPattern = (keys: readonly string[]): RegExp =>
	new RegExp(`(?<![\\w("]|\\d )(${keys.join('|')})(?![\\w"])`, 'g');

/** A message with every key of the calculation put in other words; `at` is the place of the key in the message. */
export function putKeys(
	calculation: Calculation,
	message: string,
	words: (key: string, label: string, at: number) => string
): string {
	const labels = labelsOf(calculation);
	const longestFirst = [...labels.keys()].sort((a, b) => b.length - a.length);
	return message.replace(keyPattern(longestFirst), (key, _, at: number) =>
		words(key, labels.get(key) ?? key, at)
	);
}

/** The message of a problem with the label behind each key where it is first named: `R_ohm (resistor, measured cold)`. */
export function withLabels(calculation: Calculation, { message }: Problem): string {
	const told = new Set<string>();
	return putKeys(calculation, message, (key, label) => {
		if (told.has(key)) return key;
		told.add(key);
		return `${key} (${label})`;
	});
}
