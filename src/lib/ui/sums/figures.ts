import type { Answer, Calculation, Output, TableLine } from '$lib/calculations/index.ts';
import { printQuantity, printWithSpread, toBase, unitOfKey } from '$lib/quantity/index.ts';

/** One result with its unit apart, so that it can be set smaller. */
interface Figure {
	key: string;
	label: string;
	number: string;
	unit: string;
	/** Words or several values: too long to be set large. */
	words?: true;
}

/** A table to show: its heads and rows as text. */
export interface Table {
	title: string;
	heads: readonly string[];
	rows: readonly (readonly string[])[];
	/** So long that a picture or a summary says more: it opens when wanted. */
	folded?: true;
}

export interface Results {
	/** Single values, those that the verdict rests on first. */
	figures: readonly Figure[];
	/** Sentences to read before the tables. */
	lists: readonly { title: string; lines: readonly string[] }[];
	tables: readonly Table[];
}

const outputOf = ({ outputs }: Calculation, key: string): Output | undefined =>
	Object.values(outputs).find((output) => [output.key, ...(output.alsoKeys ?? [])].includes(key));

const labelOf = (calculation: Calculation, key: string): string =>
	outputOf(calculation, key)?.label ??
	Object.values(calculation.inputs).find((input) => input.key === key)?.label ??
	key;

/** Frequencies stay in the unit that was asked in: a dial is marked 1,470 kHz, not 1.47 MHz. */
function printed(calculation: Calculation, key: string, value: unknown, spread?: number): string {
	if (value === null || value === undefined) return '–';
	if (typeof value === 'boolean') return value ? 'yes' : 'no';
	if (typeof value !== 'number') return String(value);
	const { unit, name } = unitOfKey(key);
	const digits = outputOf(calculation, key)?.digits ?? 3;
	const options = { digits, ...(unit === 'Hz' && { as: name }) };
	return spread === undefined
		? printQuantity(toBase(value, name), unit, options)
		: printWithSpread(toBase(value, name), toBase(spread, name), unit, options);
}

function figureOf(calculation: Calculation, { spreads = {} }: Answer, key: string, value: unknown): Figure {
	const label = labelOf(calculation, key);
	if (typeof value !== 'number') {
		const texts = [value].flat().map((one) => printed(calculation, key, one));
		return { key, label, number: texts.join(', '), unit: '', words: true };
	}
	const spread = spreads[key];
	const text = printed(calculation, key, value, typeof spread === 'number' ? spread : undefined);
	const [, number = text, unit = ''] = /^(\S+(?: ± \S+)?)(?: (.*))?$/.exec(text) ?? [];
	return { key, label, number, unit };
}

const isLine = (value: unknown): value is TableLine => typeof value === 'object' && value !== null;
const headOf = (key: string): string => key.charAt(0).toUpperCase() + key.slice(1);

function tableOfLines(calculation: Calculation, key: string, lines: readonly TableLine[]): Table {
	const keys = [...new Set(lines.flatMap((line) => Object.keys(line)))];
	const { columns = {} } = outputOf(calculation, key) ?? {};
	return {
		title: labelOf(calculation, key),
		heads: keys.map((column) => columns[column] ?? headOf(column)),
		rows: lines.map((line) => keys.map((column) => printed(calculation, column, line[column])))
	};
}

/** Rows that can be taken in at a glance. */
const LONG = 15;

/** Results by place: the tracking error at each frequency. */
function tableOfRecord(
	calculation: Calculation,
	key: string,
	record: Readonly<Record<string, number>>
): Table {
	const title = labelOf(calculation, key);
	const rows = Object.entries(record).map(([at, value]) => [at, printed(calculation, key, value)]);
	return { title, heads: ['At', title], rows, ...(rows.length > LONG && { folded: true as const }) };
}

/** More do not fit beside each other on a phone. */
const LARGE = 2;

/** The figures that are set large, and the rest. */
export function largeFirst(figures: readonly Figure[]): { large: Figure[]; rest: Figure[] } {
	const large = figures.filter(({ words }) => !words).slice(0, LARGE);
	return { large, rest: figures.filter((figure) => !large.includes(figure)) };
}

/** One row for each of several values given: what was given, then what came of it. */
function tableOfRows(calculation: Calculation, { given, outputs }: Answer, count: number): Table[] {
	const columns = Object.entries({ ...outputs, ...given }).filter(
		([, value]) => Array.isArray(value) && value.length === count
	);
	const givenFirst = columns.sort(([a], [b]) => Number(b in given) - Number(a in given));
	if (givenFirst.length === 0) return [];
	const rows = Array.from({ length: count }, (_, i) =>
		givenFirst.map(([key, values]) => printed(calculation, key, (values as unknown[])[i]))
	);
	const heads = givenFirst.map(([key]) => headOf(labelOf(calculation, key)));
	return [{ title: 'Value by value', heads, rows }];
}

/** The answer sorted for the page. `count` is the number of values where several were given for an input, else 1. */
export function resultsOf(calculation: Calculation, answer: Answer, count: number): Results {
	// What was typed is not told again as a result.
	const told = Object.entries(answer.outputs).filter(([key]) => !(key in answer.given));
	const judged = answer.judgements.map(({ by }) => by);
	const lined = told.filter(([, value]) => Array.isArray(value) && isLine(value[0]));
	const records = told.filter(([, value]) => isLine(value) && !Array.isArray(value));
	const listed = told.filter(([, v]) => Array.isArray(v) && typeof v[0] === 'string' && v.length > 2);
	const inRows = (value: unknown): boolean => count > 1 && Array.isArray(value) && value.length === count;
	const elsewhere = [...lined, ...records, ...listed];
	const single = told.filter((entry) => !elsewhere.includes(entry) && !inRows(entry[1]));
	const figures = single.map(([key, value]) => figureOf(calculation, answer, key, value));
	const rank = ({ key }: Figure): number => (judged.includes(key) ? judged.indexOf(key) : judged.length);
	return {
		figures: figures.sort((a, b) => rank(a) - rank(b)),
		lists: listed.map(([key, value]) => ({ title: labelOf(calculation, key), lines: value as string[] })),
		tables: [
			...lined.map(([key, value]) => tableOfLines(calculation, key, value as TableLine[])),
			...records.map(([key, value]) => tableOfRecord(calculation, key, value as Record<string, number>)),
			...(count > 1 ? tableOfRows(calculation, answer, count) : [])
		]
	};
}
