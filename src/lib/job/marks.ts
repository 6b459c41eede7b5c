import type { EventData } from './events.ts';

/** Marks on pictures of the diagram and the chassis. */

export type Mark = EventData['marked'];

/** One entry about a mark, oldest first in the state; without data it was taken away. */
export interface MarkLine {
	event: string;
	order: number;
	mark: string;
	data: Mark | undefined;
}

/** The marks as they stand. */
export const marksFrom = (lines: readonly MarkLine[]): Mark[] =>
	[...new Map(lines.map(({ mark, data }) => [mark, data])).values()].filter((data) => data !== undefined);
