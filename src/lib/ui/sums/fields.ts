import { type Calculation, fieldsOfWays, type Input, keysOf, type Way } from '$lib/calculations/index.ts';
import { splitTolerance, unitOfKey } from '$lib/quantity/index.ts';

/** An input that the form shows. */
export interface Field {
	input: Input;
	/** Whether the sum waits for it. */
	needed: boolean;
}

/** What was given, by key, as typed. `by` may name the way, where the keys alone would suggest another. */
export type Typed = Readonly<Record<string, string>>;
export const WAY = 'by';

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

/** The inputs of a way: what it needs, what may stand beside it, and what belongs to no way in particular. */
export function fieldsOf({ inputs, ways }: Calculation, way: number): Field[] {
	const names = Object.keys(inputs);
	const chosen = ways?.[way];
	const needs = chosen?.needs ?? names.filter((name) => !inputs[name]?.optional);
	const ofWays = fieldsOfWays(ways ?? []);
	const free = names.filter((name) => !ofWays.includes(name));
	return unique([...needs, ...(chosen?.also ?? []), ...free]).flatMap((name) => {
		const input = inputs[name];
		return input ? [{ input, needed: needs.includes(name) }] : [];
	});
}

/** `the volts that can be borne` as it stands in an address. */
export const slugOf = ({ title }: Way): string => title.toLowerCase().replace(/[^a-z0-9]+/g, '-');

/** The way that leaves the least of what was given unused, and of those the one that lacks least; the first for nothing. */
export function likelyWay({ inputs, ways = [] }: Calculation, typed: Typed): number {
	const has = (name: string): boolean => Boolean(typed[inputs[name]?.key ?? '']);
	if (!Object.keys(inputs).some(has)) return 0;
	const ofWays = fieldsOfWays(ways);
	const cost = ({ needs, also = [] }: Way): number => {
		const unused = ofWays.filter((name) => has(name) && !needs.includes(name) && !also.includes(name));
		return unused.length * 100 + needs.filter((name) => !has(name)).length;
	};
	const costs = ways.map(cost);
	return Math.max(0, costs.indexOf(Math.min(...costs)));
}

/** The way that was asked for by name, or the likely one. */
export function wayOf(calculation: Calculation, typed: Typed, asked: string | undefined): number {
	const named = (calculation.ways ?? []).findIndex((way) => slugOf(way) === asked);
	return named >= 0 ? named : likelyWay(calculation, typed);
}

/** Words stay as they came, known or not: the sum says which it knows. */
function textFor(input: Input, key: string, text: string): string {
	if ('options' in input) return text;
	// Under another name of the same quantity a bare number is in the unit of that name.
	const symbol = key !== input.key && /^[\d.,\s-]+$/.test(text) ? unitOfKey(key).symbol : '';
	return symbol ? `${text} ${symbol}` : text;
}

/** Texts by the first key of each input, whatever name they came under. Names that the sum does not know are passed over. */
export function textsFrom({ inputs }: Calculation, given: Typed): Record<string, string> {
	const entries = Object.values(inputs).map((input) => {
		const key = keysOf(input).find((name) => given[name] !== undefined) ?? input.key;
		return [input.key, textFor(input, key, given[key] ?? '')] as const;
	});
	return Object.fromEntries(entries);
}

/** Puts a tolerance in per cent behind each value of a text: `45 ±5 %; 50 ±5 %`. */
export const textWithTolerance = (text: string, pct: string): string =>
	text
		.split(';')
		.map((part) => (part.trim() ? `${part.trim()} ±${pct.trim()} %` : part))
		.join('; ');

/** The text of a number input and the tolerance that all its values share, apart. */
export function toleranceApart(text: string): { text: string; pct: string } {
	const parts = text.split(';').map((part) => splitTolerance(part));
	const [first] = parts;
	const good = parts.filter((part) => part?.ok === true);
	if (!first?.ok || good.length < parts.length || good.some(({ pct }) => pct !== first.pct))
		return { text, pct: '' };
	return { text: good.map((part) => part.text.trim()).join('; '), pct: String(first.pct) };
}

/** Inputs in the fragment of an address: `R_ohm=1k2&V=60`. */
export const fragmentOf = (typed: Typed): string => new URLSearchParams({ ...typed }).toString();

/** The inputs in the fragment of an address, with or without its `#`. */
export const typedFrom = (fragment: string): Typed =>
	Object.fromEntries(new URLSearchParams(fragment.replace(/^#/, '')));

/** What the formulas call the quantity of a key, `R_grid` for `R_grid_ohm`; undefined where they do not speak of it. */
export function symbolOf({ formulaText }: Calculation, key: string): string | undefined {
	const ending = `_${unitOfKey(key).name}`;
	const symbol = key.endsWith(ending) ? key.slice(0, -ending.length) : key;
	const spoken = formulaText.filter((line) => line.includes('=')).flatMap((line) => line.split(/[^\w]+/));
	// Longer names, such as `range`, are words and would only repeat the label.
	return /^[A-Za-z]{1,2}(_|$)/.test(symbol) && spoken.includes(symbol) ? symbol : undefined;
}

/** Names in an address that the sum has no input for. */
export function strangersIn({ inputs }: Calculation, given: Typed): string[] {
	const known = [WAY, ...Object.values(inputs).flatMap(keysOf)];
	return Object.keys(given).filter((key) => !known.includes(key));
}
