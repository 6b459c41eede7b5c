import { linesOf } from './report-lines.ts';
import type { JobState, Picture } from './state.ts';

/** A picture of the report, with what it shows in words. */
export interface ReportPicture extends Picture {
	/** `Picture: Grid volts of the output valve`. */
	what: string;
}

/** The pictures that stand, in the order in which they were taken. */
export function reportPictures(state: JobState): ReportPicture[] {
	const words = new Map(linesOf(state, 'pictured').map(({ event, what }) => [event, what]));
	return state.pictures.map((picture) => ({ ...picture, what: words.get(picture.event) ?? 'Picture' }));
}
