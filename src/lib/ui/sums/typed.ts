import { type Calculation, type Input, keysOf } from '$lib/calculations/index.ts';
import { toBase, unitOfKey } from '$lib/quantity/index.ts';
import { typedValue } from '../value.ts';
import type { Typed } from './fields.ts';
import { textOfRows } from './rows-text.ts';

/** A number in the unit of its key as it would be typed; a text stays as it is. */
export function typedEntry(key: string, entry: unknown): string {
	const { unit, name } = unitOfKey(key);
	if (typeof entry === 'number') return typedValue(toBase(entry, name), unit);
	return typeof entry === 'string' ? entry : '';
}

function typedInput(input: Input, key: string, value: unknown): string {
	// On the page a figure that does not count is left out.
	if (input.kind === 'number' && input.large && value === 'large') return '';
	// One word or text at a time has room on the page: of a list of them the first.
	if ((input.kind === 'choice' || input.kind === 'text') && Array.isArray(value))
		return typedEntry(key, value[0]);
	if (input.kind !== 'rows') {
		const named = typeof value === 'object' && value !== null && !Array.isArray(value);
		const entries = named
			? Object.entries(value).map(([name, entry]) => `${name} ${typedEntry(key, entry)}`)
			: [value].flat().map((entry) => typedEntry(key, entry));
		return entries.join(input.kind === 'list' ? ',' : '; ');
	}
	const columns = Object.values(input.columns);
	const rows = [value].flat().length > 0 ? (value as unknown[]) : [];
	const cellOf = (row: unknown, column: string, i: number): unknown =>
		Array.isArray(row) ? (row as unknown[])[i] : (row as Readonly<Record<string, unknown>>)[column];
	const texts = rows.map((row) => columns.map(({ key: own }, i) => typedEntry(own, cellOf(row, own, i))));
	return textOfRows(texts);
}

/** What was given to a calculation, in the units of its keys, as somebody would type it into the form. */
export function typedOf({ inputs }: Calculation, given: Readonly<Record<string, unknown>>): Typed {
	const typed = Object.entries(given).flatMap(([key, value]) => {
		const input = Object.values(inputs).find((one) => keysOf(one).includes(key));
		return input ? [[key, typedInput(input, key, value)] as const] : [];
	});
	return Object.fromEntries(typed);
}
