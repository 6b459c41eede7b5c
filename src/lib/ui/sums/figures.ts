import type { Answer, Calculation, Output, TableLine } from '$lib/calculations/index.ts';
import { printQuantity, toBase, unitOfKey } from '$lib/quantity/index.ts';

/** One result with its unit apart, so that it can be set smaller. */
interface Figure {
	key: string;
	label: string;
	number: string;
	unit: string;
}

/** A table to show: its heads and rows as text. */
export interface Table {
	title: string;
	heads: readonly string[];
	rows: readonly (readonly string[])[];
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
function printed(calculation: Calculation, key: string, value: unknown): string {
	if (value === null || value === undefined) return '–';
	if (typeof value === 'boolean') return value ? 'yes' : 'no';
	if (typeof value !== 'number') return String(value);
	const { unit, name } = unitOfKey(key);
	const digits = outputOf(calculation, key)?.digits ?? 3;
	return printQuantity(toBase(value, name), unit, { digits, ...(unit === 'Hz' && { as: name }) });
}

function figureOf(calculation: Calculation, key: string, value: unknown): Figure {
	const label = labelOf(calculation, key);
	const texts = [value].flat().map((one) => printed(calculation, key, one));
	const [number = '', ...unit] = typeof value === 'number' ? texts.join().split(' ') : [texts.join(', ')];
	return { key, label, number, unit: unit.join(' ') };
}

const isLine = (value: unknown): value is TableLine => typeof value === 'object' && value !== null;
const headOf = (key: string): string => key.charAt(0).toUpperCase() + key.slice(1);

function tableOfLines(title: string, lines: readonly TableLine[]): Table {
	const keys = [...new Set(lines.flatMap((line) => Object.keys(line)))];
	return {
		title,
		heads: keys.map(headOf),
		rows: lines.map((line) => keys.map((key) => String(line[key] ?? '')))
	};
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
	const listed = told.filter(([, v]) => Array.isArray(v) && typeof v[0] === 'string' && v.length > 2);
	const inRows = (value: unknown): boolean => count > 1 && Array.isArray(value) && value.length === count;
	const single = told.filter(
		(entry) => !lined.includes(entry) && !listed.includes(entry) && !inRows(entry[1])
	);
	const figures = single.map(([key, value]) => figureOf(calculation, key, value));
	const rank = ({ key }: Figure): number => (judged.includes(key) ? judged.indexOf(key) : judged.length);
	return {
		figures: figures.sort((a, b) => rank(a) - rank(b)),
		lists: listed.map(([key, value]) => ({ title: labelOf(calculation, key), lines: value as string[] })),
		tables: [
			...lined.map(([key, value]) => tableOfLines(labelOf(calculation, key), value as TableLine[])),
			...(count > 1 ? tableOfRows(calculation, answer, count) : [])
		]
	};
}
