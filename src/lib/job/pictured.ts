import { PICTURE_OF, type EventData, type EventOf, type PictureSubject } from './events.ts';
import type { JobState, Picture } from './state.ts';

const sameSubject = (one: PictureSubject, other: PictureSubject): boolean =>
	one.kind === other.kind && one.part === other.part && one.step === other.step && one.when === other.when;

/** Pictures of one subject, oldest first: `picturesOf(state, { kind: 'step', step: 'heater-glow' })`. */
export const picturesOf = (state: Pick<JobState, 'pictures'>, subject: PictureSubject): Picture[] =>
	state.pictures.filter(({ of }) => sameSubject(of, subject));

/** The same picture of the same subject again stands in the place of the first: it has another caption. */
export function takePicture(
	state: JobState,
	{ id: event, at, data }: EventOf<'pictured'>
): { state: JobState } {
	const taken: Picture = { event, at, ...data };
	const place = state.pictures.findIndex(
		({ picture, of }) => picture === data.picture && sameSubject(of, data.of)
	);
	const pictures = place < 0 ? [...state.pictures, taken] : state.pictures.with(place, taken);
	return { state: { ...state, pictures } };
}

/** What the line of a picture begins with. */
export const PICTURE_LINE = 'Picture: ';

interface Names {
	step?: string | undefined;
	part?: string | undefined;
}

/** What a picture shows, in words; names where they are known: `C12, before the change`. */
export function pictureWords({ of }: Pick<EventData['pictured'], 'of'>, names: Names = {}): string {
	const what = of.kind === 'step' ? (names.step ?? of.step) : (names.part ?? of.part);
	const when = of.when && `${of.when} the change`;
	return [what ?? PICTURE_OF[of.kind], when].filter(Boolean).join(', ');
}
