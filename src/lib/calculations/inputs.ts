import type { Input, NumberInput } from './define.ts';

/** A number input; `from` and `to` are in the base unit of the key and both allowed. */
export function number<const K extends string>(key: K, label: string, from: number, to: number) {
	return { kind: 'number', key, label, from, to } as const satisfies NumberInput;
}

/** One of a few words. */
export function choice<const O extends readonly string[]>(key: string, label: string, options: O) {
	return { kind: 'choice', key, label, options } as const;
}

/** Some of a few words. */
export function list<const O extends readonly string[]>(key: string, label: string, options: O) {
	return { kind: 'list', key, label, options } as const;
}

/** The same input, which may be left out. */
export function optional<const I extends Input>(input: I) {
	return { ...input, optional: true } as const;
}

/** Every name under which an input may be given. */
export const keysOf = (input: Input): readonly string[] =>
	input.kind === 'number' ? [input.key, ...(input.alsoKeys ?? [])] : [input.key];
