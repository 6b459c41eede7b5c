import type { Box } from './drawing.ts';

/** Sizes of text in a drawing, in grid units. `char` is a generous mean for the page's face at `size`. */
export const TEXT = { size: 14, line: 17, char: 7.2, padX: 8, padY: 7 } as const;

/** A label longer than this is shortened. */
const LABEL_LINES = 3;

/** A word longer than the line, cut with hyphens. */
function cut(word: string, chars: number): string[] {
	if (word.length <= chars || chars < 2) return [word];
	return [`${word.slice(0, chars - 1)}-`, ...cut(word.slice(chars - 1), chars)];
}

/** Break a text into lines of at most so many characters, at spaces where it can. */
export function wrap(text: string, chars: number): string[] {
	const lines: string[] = [];
	for (const word of text.split(/\s+/).flatMap((whole) => cut(whole, chars))) {
		const last = lines.at(-1);
		if (last !== undefined && last.length + 1 + word.length <= chars) lines[lines.length - 1] = `${last} ${word}`;
		else if (word) lines.push(word);
	}
	return lines;
}

/** A title in at most three lines if leaving out its brackets or its second clause achieves it. */
export function labelOf(title: string, chars: number): string[] {
	const bare = title.replace(/\s*\([^)]*\)/g, '');
	const tries = [title, bare, bare.split(/[,:;]/)[0] ?? bare].map((text) => wrap(text, chars));
	return tries.find((lines) => lines.length <= LABEL_LINES) ?? tries.at(-1) ?? [];
}

/** The text part of a box of this width, and the height that it needs. `beside` is kept free at the right end. */
export function fitText(
	title: string,
	width: number,
	notes: readonly string[],
	beside = 0
): Pick<Box, 'label' | 'noteLines' | 'chars' | 'height'> {
	const chars = Math.max(1, Math.floor((width - 2 * TEXT.padX - beside) / TEXT.char));
	const label = labelOf(title, chars);
	const noteLines = Math.max(0, ...notes.map((note) => wrap(note, chars).length));
	return { label, noteLines, chars, height: 2 * TEXT.padY + (label.length + noteLines) * TEXT.line };
}
