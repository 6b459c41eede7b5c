import type { Calculation, Problem } from './define.ts';
import { keysOf } from './inputs.ts';
import type { GivenByKey } from './read-input.ts';

/**
 * A number, word or text may be given as a list: the sum is then done once for each entry. Returns one set of inputs for each
 * row (a single one when there is no list), or the problem of lists that do not match.
 */
export function rowsOf(
	{ inputs }: Calculation,
	given: GivenByKey
): { rows: GivenByKey[] } | { problem: Problem } {
	const single = Object.values(inputs)
		.filter(({ kind }) => kind === 'number' || kind === 'choice' || kind === 'text')
		.flatMap(keysOf);
	const columns = single.flatMap((key) => {
		const value = given[key];
		return Array.isArray(value) ? [{ key, entries: value as unknown[] }] : [];
	});
	const [first] = columns;
	if (!first) return { rows: [given] };
	const odd = columns.find(({ entries }) => entries.length !== first.entries.length || entries.length === 0);
	if (odd)
		return { problem: { key: odd.key, message: unequal(first.key, first.entries, odd.key, odd.entries) } };
	const row = (_: unknown, i: number): GivenByKey => ({
		...given,
		...Object.fromEntries(columns.map(({ key, entries }) => [key, entries[i]]))
	});
	return { rows: first.entries.map(row) };
}

function unequal(
	key: string,
	entries: readonly unknown[],
	other: string,
	others: readonly unknown[]
): string {
	if (others.length === 0) return `${other} is an empty list. Give one figure, or a list of them.`;
	return `${key} has ${entries.length} entries and ${other} has ${others.length}. Give as many in each.`;
}

/** Equal, or tables of equal content; both are plain data. */
const alike = (one: unknown, other: unknown): boolean =>
	one === other || JSON.stringify(one) === JSON.stringify(other);

/** Joins the outputs of several rows, key by key: null where a row has none. What is the same in every row is given once. */
export function joinRows<Value>(
	rows: readonly Readonly<Record<string, Value>>[]
): Record<string, Value | (Value | null)[]> {
	const keys = [...new Set(rows.flatMap((row) => Object.keys(row)))];
	const joined = (values: (Value | null)[]): Value | (Value | null)[] => {
		const [first = null, ...rest] = values;
		return first !== null && rest.every((value) => alike(value, first)) ? first : values;
	};
	return Object.fromEntries(keys.map((key) => [key, joined(rows.map((row) => row[key] ?? null))]));
}
