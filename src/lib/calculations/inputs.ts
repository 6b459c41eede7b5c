import type { Column, Input, Length, NumberInput, NumbersInput, RowsInput, TextInput } from './define.ts';

/** A number input; `from` and `to` are in the base unit of the key and both allowed. */
export function number<const K extends string>(key: K, label: string, from: number, to: number) {
	return { kind: 'number', key, label, from, to } as const satisfies NumberInput;
}

/** One of a few words. */
export function choice<const O extends readonly string[]>(key: string, label: string, options: O) {
	return { kind: 'choice', key, label, options } as const;
}

/** Some of a few words; with `places` in order, one for each place. */
export function list<const O extends readonly string[]>(
	key: string,
	label: string,
	options: O,
	more: { places?: readonly string[] } = {}
) {
	return { kind: 'list', key, label, options, ...more } as const;
}

/** Several numbers for one sum; `from` and `to` as for a number. */
export function numbers<const K extends string>(
	key: K,
	label: string,
	from: number,
	to: number,
	{ least = 1, most = 50, ...more }: Partial<Length> & Pick<NumbersInput, 'kept'> = {}
) {
	return { kind: 'numbers', key, label, from, to, least, most, ...more } as const satisfies NumbersInput;
}

/** Several numbers, each of which may carry a name. */
export function namedNumbers<const K extends string>(
	key: K,
	label: string,
	from: number,
	to: number,
	length: Partial<Length> = {}
) {
	return { ...numbers(key, label, from, to, length), named: true } as const;
}

/** A column of a typed table. */
export function column<const K extends string>(key: K, label: string, from: number, to: number) {
	return { key, label, from, to } as const satisfies Column;
}

/** A typed table; the columns are written in the order in which a row is given. */
export function rows<const C extends RowsInput['columns']>(
	key: string,
	label: string,
	columns: C,
	{ least = 1, most = 60 }: Partial<Length> = {}
) {
	return { kind: 'rows', key, label, columns, least, most } as const;
}

/** A short text as it stands on a part. */
export function text(key: string, label: string, example: string) {
	return { kind: 'text', key, label, example } as const satisfies TextInput;
}

/** The same input or column, which may be left out. */
export function optional<const I extends Input | Column>(input: I) {
	return { ...input, optional: true } as const;
}

/** Every name under which an input may be given. */
export const keysOf = (input: Input): readonly string[] =>
	input.kind === 'number' ? [input.key, ...(input.alsoKeys ?? [])] : [input.key];
