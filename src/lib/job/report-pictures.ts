import { namesOfPart, PICTURE_LINE, picturesOfChange, pictureWords } from './pictured.ts';
import { linesOf } from './report-lines.ts';
import { allRuns, type JobState, type Picture } from './state.ts';
import { upperFirst } from './words.ts';

/** A picture of the report, with what it shows in words. */
export interface ReportPicture extends Picture {
	/** `Grid volts of the output valve`. */
	what: string;
}

function toldOf(state: JobState, pictures: readonly Picture[]): ReportPicture[] {
	const words = new Map(
		linesOf(state, 'pictured').map(({ event, what }) => [event, what.replace(PICTURE_LINE, '')])
	);
	return pictures.map((picture) => ({
		...picture,
		what: upperFirst(words.get(picture.event) ?? pictureWords(picture))
	}));
}

/** What was changed there, by every id that it goes by. */
function changedBy(state: JobState, event: string): string[] {
	const listed = state.parts.filter((line) => line.event === event).map(({ part }) => part);
	const noted = state.ledger.filter((line) => line.event === event).map(({ suspect }) => suspect);
	const proved = allRuns(state).flatMap(({ done }) =>
		done.flatMap(({ event: of }) => (of.id === event && of.kind === 'part-changed' ? [of.data.part] : []))
	);
	return [...listed, ...noted, ...proved].flatMap((part) => namesOfPart(state, part));
}

/**
 * Pictures of each change, by its event. Of a part that was changed twice, what was taken before goes to the next change
 * and what was taken after to the last one.
 */
export function changePictures(state: JobState): Map<string, ReportPicture[]> {
	const placeOf = new Map(state.trail.map(({ event }, index) => [event, index]));
	const takenAt = ({ picture }: Picture) => state.trail.findIndex((line) => line.picture === picture);
	const changes = linesOf(state, 'part-changed').map(({ event }) => ({
		event,
		at: placeOf.get(event) ?? 0,
		parts: changedBy(state, event)
	}));
	const found = new Map<string, Picture[]>();
	for (const when of ['before', 'after'] as const)
		for (const picture of new Set(
			changes.flatMap(({ parts }) => parts.flatMap((part) => picturesOfChange(state, part, when)))
		)) {
			const own = changes.filter(({ parts }) => parts.includes(picture.of.part ?? ''));
			const next = own.find(({ at }) => at > takenAt(picture));
			const last = own.findLast(({ at }) => at < takenAt(picture));
			const { event } = (when === 'before' ? (next ?? last) : (last ?? next)) ?? {};
			if (event !== undefined) found.set(event, [...(found.get(event) ?? []), picture]);
		}
	return new Map([...found].map(([event, pictures]) => [event, toldOf(state, pictures)]));
}

/** The pictures of a line, where it has any. */
export const withPictures = (pictures: ReportPicture[] | undefined): { pictures?: ReportPicture[] } =>
	pictures?.length ? { pictures } : {};

/** The pictures that stand and belong to no change, in the order in which they were taken. */
export function reportPictures(state: JobState): ReportPicture[] {
	const atChanges = new Set([...changePictures(state).values()].flat().map(({ event }) => event));
	return toldOf(
		state,
		state.pictures.filter(({ event }) => !atChanges.has(event))
	);
}
