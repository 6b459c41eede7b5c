import { parseQuantity, printQuantity, splitTolerance, toBase, unitOfKey } from '../quantity/index.ts';
import type {
	ChoiceInput,
	Column,
	Input,
	ListInput,
	NamedValue,
	NumbersInput,
	Problem,
	RowsInput
} from './define.ts';
import { keysOf } from './inputs.ts';

/** Longest code on a part, or name of a place. */
const LONGEST_TEXT = 40;

export type GivenByKey = Readonly<Record<string, unknown>>;

export interface Reading {
	/** Base units, by field. */
	values: Record<string, unknown>;
	/** Tolerance in per cent of the numbers that have one, by field. */
	tolerances: Record<string, number>;
	/** As understood, by key: `4.7 kΩ` for `4k7`. */
	echo: Record<string, string>;
	problems: Problem[];
}

/** A number, or a column of them: the key and the range. */
type Ranged = Pick<Column, 'key' | 'from' | 'to'>;
type Found<Value> = ({ ok: true; echo: string } & Value) | { ok: false; message: string };

/** The range in words, for a message or a list: `1 Ω to 22 MΩ`. */
export function rangeOf({ key, from, to }: Ranged): string {
	const { unit } = unitOfKey(key);
	return `${printQuantity(from, unit)} to ${printQuantity(to, unit)}`;
}

const wanted = (key: string): string => {
	const { symbol } = unitOfKey(key);
	return `${key} wants a number${symbol && ` in ${symbol}`}. Write it as 4700 or "4k7".`;
};

/** Text such as `4k7` is read as an engineering value; figures alone are in the unit of the key. */
function valueFrom(raw: unknown, key: string): { value: number } | { message: string } {
	const { unit, name } = unitOfKey(key);
	if (typeof raw === 'string') {
		const parsed = parseQuantity(raw, unit, { bare: name });
		return parsed.ok ? parsed : { message: `${key}: ${parsed.hint}` };
	}
	if (typeof raw === 'number' && Number.isFinite(raw)) return { value: toBase(raw, name) };
	return { message: wanted(key) };
}

/** Beyond these, in any base unit, the figures would fill a line with noughts. */
const [TINIEST, HUGEST] = [1e-18, 1e13];

/** A number within its range, in base units. `key` is the name under which it was given. */
function rangedFrom(input: Ranged, key: string, raw: unknown): Found<{ value: number }> {
	const found = valueFrom(raw, key);
	if ('message' in found) return { ok: false, message: found.message };
	const { value } = found;
	const { unit, symbol } = unitOfKey(key);
	const size = Math.abs(value);
	const echo =
		size === 0 || (size > TINIEST && size < HUGEST) ? printQuantity(value, unit) : 'nothing that a set has';
	if (value >= input.from && value <= input.to) return { ok: true, echo, value };
	const message = `${key} is ${echo}. This sum holds from ${rangeOf(input)}: check the figure and its unit (${symbol || 'a bare number'}).`;
	return { ok: false, message };
}

/** A number with the tolerance that may stand behind it: `4k7 ±10 %`. */
function numberFrom(input: Ranged, key: string, raw: unknown): Found<{ value: number; tolerance?: number }> {
	const split = typeof raw === 'string' ? splitTolerance(raw) : undefined;
	if (!split) return rangedFrom(input, key, raw);
	if (!split.ok) return { ok: false, message: `${key}: ${split.hint}` };
	const found = rangedFrom(input, key, split.text);
	return found.ok ? { ...found, echo: `${found.echo} ±${split.pct} %`, tolerance: split.pct } : found;
}

function lengthProblem(
	{ key, least, most }: NumbersInput | RowsInput,
	count: number,
	what: string
): string | undefined {
	if (count < least) return `${key} has ${count} ${what}. Give ${least} or more.`;
	return count > most ? `${key} has ${count} ${what}. Give ${most} at most.` : undefined;
}

const isRecord = (raw: unknown): raw is Readonly<Record<string, unknown>> =>
	typeof raw === 'object' && raw !== null && !Array.isArray(raw);

/** A name and a value behind it: `2nd mixer grid 25 µV`. */
const NAMED = /^(.*[a-z].*?)[\s:=]+([-−+]?[\d.,]+\s*[a-zµ]*)$/i;

/** Several numbers as a list, or in a text with semicolons; where names are allowed also by name. */
function entriesOf({ named }: NumbersInput, raw: unknown): { name: string | undefined; entry: unknown }[] {
	if (named && isRecord(raw)) return Object.entries(raw).map(([name, entry]) => ({ name, entry }));
	const entries: unknown[] = typeof raw === 'string' ? raw.split(';') : [raw].flat();
	return entries.map((entry) => {
		const short = named && typeof entry === 'string' && entry.length <= 2 * LONGEST_TEXT;
		const [, name, value] = (short && NAMED.exec(entry.trim())) || [];
		return name === undefined ? { name: undefined, entry } : { name, entry: value };
	});
}

function numbersFrom(input: NumbersInput, raw: unknown): Found<{ value: (number | NamedValue)[] }> {
	const entries = entriesOf(input, raw);
	const found = entries.map(({ name, entry }) => ({ name, read: rangedFrom(input, input.key, entry) }));
	const bad = found.map(({ read }) => read).find((read) => !read.ok);
	if (bad) return bad;
	const message = lengthProblem(input, entries.length, 'values');
	if (message) return { ok: false, message };
	const good = found.flatMap(({ name, read }) => (read.ok ? [{ name, ...read }] : []));
	return {
		ok: true,
		echo: good.map(({ name, echo }) => (name === undefined ? echo : `${name} ${echo}`)).join('; '),
		value: good.map(({ name, value }) => (input.named ? { name, value } : value))
	};
}

type RowValue = Record<string, number | undefined>;

/** One row of a typed table: a list in the order of the columns, or an object by column key. */
function rowFrom(input: RowsInput, raw: unknown, place: string): Found<{ value: RowValue }> {
	const cellOf = (key: string, i: number): unknown =>
		Array.isArray(raw) ? (raw as unknown[])[i] : (raw as Readonly<Record<string, unknown>>)[key];
	if (typeof raw !== 'object' || raw === null) {
		const keys = Object.values(input.columns).map(({ key }) => key);
		return { ok: false, message: `${place} is no row. Write [${keys.join(', ')}].` };
	}
	const value: RowValue = {};
	const echoes: string[] = [];
	for (const [i, [field, cell]] of Object.entries(input.columns).entries()) {
		const given = cellOf(cell.key, i);
		if (given === undefined || given === null || given === '') {
			if (cell.optional) continue;
			return { ok: false, message: `${place}: ${cell.key} is missing. Give it.` };
		}
		const found = rangedFrom(cell, cell.key, given);
		if (!found.ok) return { ok: false, message: `${place}: ${found.message}` };
		value[field] = found.value;
		echoes.push(found.echo);
	}
	return { ok: true, echo: echoes.join(', '), value };
}

function rowsFrom(input: RowsInput, raw: unknown): Found<{ value: RowValue[] }> {
	if (!Array.isArray(raw)) {
		const keys = Object.values(input.columns).map(({ key }) => key);
		return { ok: false, message: `${input.key} wants rows: [[${keys.join(', ')}], ...].` };
	}
	const found = raw.map((row: unknown, i) => rowFrom(input, row, `${input.key}, row ${i + 1}`));
	const bad = found.find((one) => !one.ok);
	if (bad) return bad;
	const message = lengthProblem(input, raw.length, 'rows');
	if (message) return { ok: false, message };
	const good = found.filter((one) => one.ok);
	return { ok: true, echo: good.map(({ echo }) => echo).join('; '), value: good.map(({ value }) => value) };
}

/** What is wrong with words for places that is not a matter of knowing them: too many, or a place left open. */
function placeProblem({ key, places = [] }: ListInput, words: readonly unknown[]): string | undefined {
	if (words.length > places.length)
		return `${key} has ${words.length} words. Give ${places.length} at most: ${places.join(', ')}.`;
	const gap = words.findIndex((word) => word === '');
	return gap < 0 ? undefined : `${key} has a gap. Choose what stands at this place: ${places[gap]}.`;
}

function wordsFrom(input: ChoiceInput | ListInput, raw: unknown): Found<{ value: unknown }> {
	const words: unknown[] = input.kind === 'list' && Array.isArray(raw) ? raw : [raw];
	const misplaced = input.kind === 'list' && input.places ? placeProblem(input, words) : undefined;
	if (misplaced) return { ok: false, message: misplaced };
	const stranger = words.find((word) => typeof word !== 'string' || !input.options.includes(word));
	if (stranger === undefined && words.length > 0) {
		return { ok: true, echo: words.join(', '), value: input.kind === 'list' ? words : words[0] };
	}
	const known = input.options.map((option) => `"${option}"`).join(' or ');
	return {
		ok: false,
		message: `${input.key} does not know ${JSON.stringify(stranger ?? raw)}. Use ${known}.`
	};
}

function textFrom(key: string, example: string, raw: unknown): Found<{ value: string }> {
	const value = typeof raw === 'string' || typeof raw === 'number' ? String(raw).trim() : '';
	if (value.length > 0 && value.length <= LONGEST_TEXT) return { ok: true, echo: value, value };
	const wrong = value.length > 0 ? `is longer than ${LONGEST_TEXT} signs` : 'wants a text';
	return { ok: false, message: `${key} ${wrong}. Write it as ${example}.` };
}

function valueOf(input: Input, key: string, raw: unknown): Found<{ value: unknown; tolerance?: number }> {
	switch (input.kind) {
		case 'number':
			return numberFrom(input, key, raw);
		case 'numbers':
			return numbersFrom(input, raw);
		case 'rows':
			return rowsFrom(input, raw);
		case 'text':
			return textFrom(key, input.example, raw);
		default:
			return wordsFrom(input, raw);
	}
}

/** So large that it does not count: the internal resistance of a pentode. */
const LARGE = 'large';

/** Reads one input, whatever name it came under, into values, echo, tolerances and problems. */
export function readField(field: string, input: Input, given: GivenByKey, into: Reading): void {
	const keys = keysOf(input).filter((key) => given[key] !== undefined && given[key] !== null);
	const [key, second] = keys;
	if (key === undefined) return;
	if (second !== undefined) {
		const message = `${key} and ${second} are the same thing. Give one of them.`;
		return void into.problems.push({ key: second, message });
	}
	if (input.kind === 'number' && input.large && given[key] === LARGE) return void (into.echo[key] = LARGE);
	const found = valueOf(input, key, given[key]);
	if (!found.ok) return void into.problems.push({ key, message: found.message });
	into.values[field] = found.value;
	into.echo[key] = found.echo;
	if (found.tolerance !== undefined) into.tolerances[field] = found.tolerance;
}
