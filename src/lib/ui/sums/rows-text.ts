import type { RowsInput } from '$lib/calculations/index.ts';

/** A typed table as one text: rows with semicolons, cells with bars between them. */
export const textOfRows = (rows: readonly (readonly string[])[]): string =>
	rows
		.map((cells) => cells.join('|').replace(/\|+$/, ''))
		.join(';')
		.replace(/;+$/, '');

const cellsOf = (text: string): string[][] => text.split(';').map((row) => row.split('|'));

/** The rows of such a text, those without anything in them left out. */
export const rowsOfText = (text: string): string[][] =>
	cellsOf(text)
		.map((cells) => cells.map((cell) => cell.trim()))
		.filter((cells) => cells.some(Boolean));

/** The rows to edit, as many as the sum wants at least, with an empty one at the end while there is room. */
export function rowsForEditing(
	text: string,
	width: number,
	{ least, most }: Pick<RowsInput, 'least' | 'most'>
): string[][] {
	const blank = Array.from({ length: width }, () => '');
	const rows = text === '' ? [] : cellsOf(text).map((cells) => blank.map((_, i) => cells[i] ?? ''));
	const wanted = Math.min(most, Math.max(least, rows.length + 1));
	return [...rows, ...Array.from({ length: Math.max(0, wanted - rows.length) }, () => [...blank])];
}

/** What separates cells in tables of other programs, the surest first. */
const SEPARATORS = [/\t/, /;/, /,\s/];
/** A single line may as well be one value: `12 min`. */
const BLANKS = /\s+/;

function cellsOfLine(line: string, width: number, alone: boolean): string[] {
	const possible = alone ? SEPARATORS : [...SEPARATORS, BLANKS];
	const separator = possible.find((one) => line.split(one).length === width) ?? /\t/;
	return line.split(separator).map((cell) => cell.trim().replaceAll(/[;|]/g, ' '));
}

/** The rows with a table pasted in at a cell; undefined for a text of one value, which the cell takes itself. */
export function pastedInto(
	rows: readonly (readonly string[])[],
	pasted: string,
	row: number,
	column: number,
	width: number
): string[][] | undefined {
	const lines = pasted.split(/\r?\n/).filter((line) => line.trim() !== '');
	const cells = lines.map((line) => cellsOfLine(line, width - column, lines.length < 2));
	if (cells.length < 2 && (cells[0]?.length ?? 0) < 2) return undefined;
	const result = rows.map((one) => [...one]);
	for (const [i, line] of cells.entries()) {
		const target = (result[row + i] ??= Array.from({ length: width }, () => ''));
		for (const [k, cell] of line.entries()) if (column + k < width) target[column + k] = cell;
	}
	return result;
}
