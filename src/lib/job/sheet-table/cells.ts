import { parseQuantity } from '../../quantity/index.ts';
import { findValve } from '../../valves/index.ts';

/** A cell of a line, with where it stands in it: columns typed with blanks are told by that. */
export interface Cell {
	text: string;
	from: number;
	to: number;
}

/** A line cut into its cells. */
export interface Cut {
	cells: Cell[];
	/** What stood between them; with `blank` a missing cell leaves no trace but its room. */
	by: 'sign' | 'blanks' | 'blank';
}

/** What a cell says: volts, nothing measured, or something that is no DC volts, with why. */
export type CellSays =
	{ is: 'volts'; value: number } | { is: 'empty' } | { is: 'other'; why: string } | { is: 'words' };

/** Signs that part cells, the surest first. A stroke counts with room on both sides only: `245/250` is one cell. */
const SIGNS: readonly RegExp[] = [/\t/, /\|/, /;/, /\s\/\s/];

const UNIT = String.raw`(?:m?V|mA|volts?|[kM]?Ω|[kM]?ohms?)`;

/** A figure and the unit behind it are one cell, whatever room there is between. */
const joined = (line: string): string =>
	line
		.replace(
			new RegExp(String.raw`(\d) +(${UNIT})(?![\w.])`, 'gi'),
			(_, figure: string, unit: string) => `${figure}${unit}`
		)
		.replace(/(\dv) +([ad]\.?c\b\.?)/gi, '$1$2');

/** Commas part cells unless each of them stands in a figure of its own, as a decimal comma. */
function partsAtCommas(line: string): boolean {
	const words = line.split(/\s+/).filter((word) => word.includes(','));
	return words.length > 0 && !words.every((word) => /^[^\d,]*[-+−]?\d+,\d{1,2}[^\d,]*$/.test(word));
}

function cutAt(line: string, sign: RegExp): Cell[] {
	const cells: Cell[] = [];
	let from = 0;
	for (const match of [...line.matchAll(new RegExp(sign, 'g')), undefined]) {
		const to = match?.index ?? line.length;
		cells.push({
			text: line
				.slice(from, to)
				.trim()
				.replace(/^"(.*)"$/, '$1'),
			from,
			to
		});
		from = to + (match?.[0].length ?? 0);
	}
	return cells;
}

/** Cells of words: each with its own room, none of them empty. */
function cutAtRoom(line: string, room: RegExp): Cell[] {
	return [...line.matchAll(room)].map(({ 0: text, index }) => ({
		text,
		from: index,
		to: index + text.length
	}));
}

/** A table drawn with strokes has them at both ends as well. */
const withoutEnds = (cells: Cell[], sign: RegExp): Cell[] =>
	sign.source === '\\|'
		? cells.slice(cells[0]?.text === '' ? 1 : 0, cells.at(-1)?.text === '' ? -1 : undefined)
		: cells;

/** Cut a line at the sign that it uses: tab, stroke, semicolon, comma, two blanks and more, else at each blank. */
export function cut(raw: string): Cut {
	const line = joined(raw);
	const sign = SIGNS.find((one) => one.test(line));
	if (sign) return { cells: withoutEnds(cutAt(line, sign), sign), by: 'sign' };
	if (partsAtCommas(line)) return { cells: cutAt(line, /,\s+/.test(line) ? /,\s+/ : /,/), by: 'sign' };
	if (/\S {2,}\S/.test(line)) return { cells: cutAtRoom(line, /\S+(?: \S+)*/g), by: 'blanks' };
	return { cells: cutAtRoom(line, /\S+/g), by: 'blank' };
}

/** The same line at each blank, whatever else parts it: for readings told in words. */
export const wordsOf = (line: string): string[] =>
	joined(line.replace(/[;|\t]/g, ' ').replace(/,(?=\s)/g, ' '))
		.replace(/([a-z]\w*)\s*[=:]\s*/gi, '$1 ')
		.split(/\s+/)
		.filter(Boolean);

/** What a sheet prints where nothing was measured. */
const EMPTY = /^(?:[-–—.…_]+|n\/?a|none|no reading)?$/i;
/** Signs in front of a figure that make it no other, and marks of a footnote behind it. */
const AROUND = /^(?:[≈~]|c\.|ca\.?|abt\.?|about)\s*|\s*(?:[*†‡]+|\(\d\))$/gi;

/** Read a cell as DC volts. */
export function cellSays(cell: string): CellSays {
	const text = cell
		.trim()
		.replace(AROUND, '')
		.replace(/\s*(?:d\.?c\.?|=)$/i, '');
	if (EMPTY.test(text)) return { is: 'empty' };
	if (!/\d/.test(text) || isValve(text)) return { is: 'words' };
	if (/(?:\b|\d)(?:v\.?)?\s*(?:a\.?c\.?|~|r\.?m\.?s\.?)$/i.test(text))
		return { is: 'other', why: `“${cell}” is AC: the survey takes DC only.` };
	if (/^[-+−]?[\d.,]+\s*(?:to|[-–/])\s*[-+−]?[\d.,]+\s*v?$/i.test(text))
		return { is: 'other', why: `“${cell}” are two figures: type the one of the band that you measure on.` };
	if (/\d\s*(?:m|µ|u)?a$/i.test(text)) return { is: 'other', why: `“${cell}” is a current.` };
	if (/\d\s*(?:[kM]?\s*(?:Ω|ohms?)|[kM])$/i.test(text))
		return { is: 'other', why: `“${cell}” is a resistance.` };
	const plain = text.replace(/^([-+−]?\d+),(\d{1,2})(?!\d)/, '$1.$2').replace(/^([-−]?0),(\d+)/, '$1.$2');
	const read = parseQuantity(plain.replace(/\s*v(?:olts?)?\.?$/i, ' V'), 'V');
	if (read.ok) return { is: 'volts', value: read.value };
	if (!/^[-+−]?[\d.,]/.test(text) || /[a-z]{3}/i.test(text)) return { is: 'words' };
	const why = read.choices
		? `“${cell}” may be ${read.choices.map(({ label }) => label).join(' or ')}. Type it into its field.`
		: `“${cell}” is no voltage. Correct it, or put a dash.`;
	return { is: 'other', why };
}

/** A type with letters in it; a plain `80` in a table is volts rather than a rectifier. */
const isValve = (text: string): boolean =>
	/[a-z]/i.test(text) && /^[A-Z0-9/]{2,}$/.test(text) && findValve(text).ok;
