import type { Box } from './types.ts';

/** Sizes of text in a drawing, in grid units. */
export const TEXT = { size: 14, line: 17, padX: 6, padY: 7 } as const;

/** Widths of letters at that size, semi-bold: rounded up from the page's face, so that a line never runs over. */
const WIDTHS: readonly (readonly [letters: RegExp, width: number])[] = [
	[/[ijl.,:;'|\s]/, 4.3],
	[/[frtI1()/-]/, 5.6],
	[/[mwMW%✓]/, 12.6],
	[/[A-Z]/, 9.7],
	[/[0-9]/, 8.7]
];
const OTHERS = 8;
/** Text of regular weight is narrower. */
const REGULAR = 0.93;

/** A label longer than this is shortened. */
const LABEL_LINES = 3;

/** Estimated width of a text in a drawing, in grid units. */
export const textWidth = (text: string): number =>
	[...text].reduce(
		(sum, letter) => sum + (WIDTHS.find(([letters]) => letters.test(letter))?.[1] ?? OTHERS),
		0
	);

/** A word wider than the line, cut with hyphens. */
function cut(word: string, width: number): string[] {
	if (textWidth(word) <= width || word.length < 3) return [word];
	let end = word.length - 1;
	while (end > 1 && textWidth(`${word.slice(0, end)}-`) > width) end--;
	return [`${word.slice(0, end)}-`, ...cut(word.slice(end), width)];
}

/** Break a text into lines no wider than this, at spaces where it can; a no-break space holds. */
export function wrap(text: string, width: number): string[] {
	const lines: string[] = [];
	for (const word of text.split(/[ \n\t]+/).flatMap((whole) => cut(whole, width))) {
		const last = lines.at(-1);
		if (last !== undefined && textWidth(`${last} ${word}`) <= width)
			lines[lines.length - 1] = `${last} ${word}`;
		else if (word) lines.push(word);
	}
	return lines;
}

/** A standing in regular weight, broken into lines. */
export const wrapNote = (text: string, width: number): string[] => wrap(text, width / REGULAR);

/** A title in at most three lines if leaving out its brackets, its second clause or its second half achieves it. */
export function labelOf(title: string, width: number): string[] {
	const bare = title.replace(/\s*\([^)]*\)/g, '');
	const [clause = bare] = bare.split(/[,:;]/);
	const [half = clause] = clause.split(' and ');
	const tries = [title, bare, clause, half].map((text) => wrap(text, width));
	return tries.find((lines) => lines.length <= LABEL_LINES) ?? tries.at(-1) ?? [];
}

/** Room that a box keeps free of text: at its right end, and along its foot where marks stand on the edge. */
export interface Free {
	right?: number;
	foot?: number;
}

type TextPart = Pick<Box, 'label' | 'noteLines' | 'textWidth' | 'foot' | 'height'>;

/** The text part of a box of this width, and the height that it needs. */
export function fitText(
	title: string,
	width: number,
	notes: readonly string[],
	{ right = 0, foot = 0 }: Free
): TextPart {
	const room = width - 2 * TEXT.padX - right;
	const label = labelOf(title, room);
	const noteLines = Math.max(0, ...notes.map((note) => wrapNote(note, room).length));
	const height = 2 * TEXT.padY + (label.length + noteLines) * TEXT.line + foot;
	return { label, noteLines, textWidth: room, foot, height };
}
