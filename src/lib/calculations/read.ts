import { fromBase, parseQuantity, printQuantity, toBase, unitOfKey } from '../quantity/index.ts';
import type { Calculation, Input, ListInput, NumberInput, ChoiceInput, Problem, Way } from './define.ts';
import { keysOf } from './inputs.ts';
import { nearest } from './nearest.ts';

export type GivenByKey = Readonly<Record<string, unknown>>;

export interface Reading {
	/** Base units, by field. */
	values: Record<string, unknown>;
	/** As understood, by key: `4.7 kΩ` for `4k7`. */
	echo: Record<string, string>;
	problems: Problem[];
}

const PLAIN_NUMBER = /^[+\-−]?(\d+\.?\d*|\.\d+)$/;

/** Text such as `4k7` is read as an engineering value; plain digits are in the unit of the key. */
function numberFrom(raw: unknown, key: string): { value: number } | { message: string } {
	const { unit, name, symbol } = unitOfKey(key);
	if (typeof raw === 'string' && !PLAIN_NUMBER.test(raw.trim())) {
		const parsed = parseQuantity(raw, unit);
		return parsed.ok ? parsed : { message: `${key}: ${parsed.hint}` };
	}
	const value = typeof raw === 'string' ? Number(raw.trim().replace('−', '-')) : raw;
	if (typeof value === 'number' && Number.isFinite(value)) return { value: toBase(value, name) };
	return { message: `${key} wants a number${symbol && ` in ${symbol}`}. Write it as 4700 or "4k7".` };
}

/** The range in words, for a message or a list: `1 Ω to 22 MΩ`. */
export function rangeOf({ key, from, to }: NumberInput): string {
	const { unit } = unitOfKey(key);
	return `${printQuantity(from, unit)} to ${printQuantity(to, unit)}`;
}

function readNumber(input: NumberInput, key: string, raw: unknown, into: Reading, field: string): void {
	const found = numberFrom(raw, key);
	if ('message' in found) return void into.problems.push({ key, message: found.message });
	const shown = printQuantity(found.value, unitOfKey(key).unit);
	into.echo[key] = shown;
	into.values[field] = found.value;
	if (found.value >= input.from && found.value <= input.to) return;
	const message = `${key} is ${shown}. This sum holds from ${rangeOf(input)}: check the figure and its unit (${unitOfKey(key).symbol || 'a bare number'}).`;
	into.problems.push({ key, message });
}

function readWords(input: ChoiceInput | ListInput, raw: unknown, into: Reading, field: string): void {
	const words = input.kind === 'list' && Array.isArray(raw) ? raw : [raw];
	const stranger = words.find((word) => !input.options.includes(String(word)));
	if (stranger === undefined && words.length > 0) {
		into.values[field] = input.kind === 'list' ? words : words[0];
		into.echo[input.key] = words.join(', ');
		return;
	}
	const known = input.options.map((option) => `"${option}"`).join(' or ');
	const message = `${input.key} does not know ${JSON.stringify(stranger ?? raw)}. Use ${known}.`;
	into.problems.push({ key: input.key, message });
}

function readField(field: string, input: Input, given: GivenByKey, into: Reading): void {
	const keys = keysOf(input).filter((key) => given[key] !== undefined && given[key] !== null);
	const [key, second] = keys;
	if (key === undefined) return;
	if (second !== undefined) {
		into.problems.push({
			key: second,
			message: `${key} and ${second} are the same thing. Give one of them.`
		});
	} else if (input.kind === 'number') readNumber(input, key, given[key], into, field);
	else readWords(input, given[key], into, field);
}

function unknownKeys({ id, inputs }: Calculation, given: GivenByKey): Problem[] {
	const known = Object.values(inputs).flatMap(keysOf);
	return Object.keys(given)
		.filter((key) => !known.includes(key))
		.map((key) => {
			const near = nearest(key, known);
			const cure = near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `It takes ${known.join(', ')}.`;
			return { key, message: `There is no input "${key}" in ${id}. ${cure}` };
		});
}

/** Reads what was given by key into base units by field, with every problem that a single input can have. */
export function readGiven(calculation: Calculation, given: GivenByKey): Reading {
	const into: Reading = { values: {}, echo: {}, problems: unknownKeys(calculation, given) };
	for (const [field, input] of Object.entries(calculation.inputs)) readField(field, input, given, into);
	return into;
}

function missing({ inputs }: Calculation, fields: readonly string[]): Problem[] {
	return fields.flatMap((field) => {
		const input = inputs[field];
		return input ? [{ key: input.key, message: `${input.key} is missing: ${input.label}. Give it.` }] : [];
	});
}

const lacks = (way: Way, has: (field: string) => boolean): string[] =>
	way.needs.filter((field) => !has(field));

/** The ways that lack least come first, among equals those of which most was given. */
function nearestWays(ways: readonly Way[], has: (field: string) => boolean): Way[] {
	const rank = (way: Way): number => lacks(way, has).length - way.needs.filter(has).length / 100;
	return [...ways].sort((a, b) => rank(a) - rank(b));
}

function noWay(calculation: Calculation, ways: readonly Way[], has: (field: string) => boolean): Problem[] {
	const [way, ...rest] = nearestWays(ways, has);
	if (!way) return [];
	const keys = (fields: readonly string[]): string =>
		fields.map((field) => calculation.inputs[field]?.key ?? field).join(', ');
	const others = rest.slice(0, 2).map((other) => `${keys(lacks(other, has))} (to go by ${other.title})`);
	const first = lacks(way, has);
	const message = `Missing: ${keys(first)} (to go by ${way.title}). Give that, or instead ${others.join('; or ')}.`;
	return [{ key: calculation.inputs[first[0] ?? '']?.key ?? '', message }];
}

/** Inputs that belong to another way than the one chosen would be passed over in silence: they are refused instead. */
function surplus(
	{ inputs }: Calculation,
	ways: readonly Way[],
	way: Way,
	has: (field: string) => boolean
): Problem[] {
	const alternatives = [...new Set(ways.flatMap(({ needs }) => needs))];
	const welcome = [...way.needs, ...(way.also ?? [])];
	return alternatives
		.filter((field) => has(field) && !welcome.includes(field))
		.map((field) => {
			const key = inputs[field]?.key ?? field;
			const used = way.needs.map((need) => inputs[need]?.key ?? need).join(', ');
			return {
				key,
				message: `${key} is one figure too many beside ${used} (${way.title}). Leave one of them out.`
			};
		});
}

/** Whether the fields given make a complete set; in all other cases what is missing or too much. */
export function problemsOfWay(
	calculation: Calculation,
	values: Readonly<Record<string, unknown>>
): Problem[] {
	const { ways, inputs } = calculation;
	const has = (field: string): boolean => values[field] !== undefined;
	if (!ways)
		return missing(
			calculation,
			Object.keys(inputs).filter((f) => !inputs[f]?.optional && !has(f))
		);
	const way = ways.find((candidate) => candidate.needs.every(has));
	return way ? surplus(calculation, ways, way, has) : noWay(calculation, ways, has);
}

/** A result in base units, as the number that stands under `key`, free of binary crumbs. */
export function inUnitOf(key: string, value: number): number {
	return Number(fromBase(value, unitOfKey(key).name).toPrecision(12));
}
