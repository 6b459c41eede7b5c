import { PICTURE_LINE, pictureWords } from './pictured.ts';
import { linesOf } from './report-lines.ts';
import type { JobState, Picture } from './state.ts';
import { upperFirst } from './words.ts';

/** A picture of the report, with what it shows in words. */
export interface ReportPicture extends Picture {
	/** `Grid volts of the output valve`. */
	what: string;
}

/** The pictures that stand, in the order in which they were taken. */
export function reportPictures(state: JobState): ReportPicture[] {
	const words = new Map(
		linesOf(state, 'pictured').map(({ event, what }) => [event, what.replace(PICTURE_LINE, '')])
	);
	return state.pictures.map((picture) => ({
		...picture,
		what: upperFirst(words.get(picture.event) ?? pictureWords(picture))
	}));
}
