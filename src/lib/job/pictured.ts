import { PICTURE_OF, type EventData, type EventOf, type PictureSubject } from './events.ts';
import { partsFrom } from './parts.ts';
import type { JobState, Picture } from './state.ts';

const sameSubject = (one: PictureSubject, other: PictureSubject): boolean =>
	one.kind === other.kind &&
	one.part === other.part &&
	one.step === other.step &&
	one.point === other.point &&
	one.when === other.when;

/** Pictures of one subject, oldest first: `picturesOf(state, { kind: 'step', step: 'heater-glow' })`. */
export const picturesOf = (state: Pick<JobState, 'pictures'>, subject: PictureSubject): Picture[] =>
	state.pictures.filter(({ of }) => sameSubject(of, subject));

/** The ids that a part goes by: its own on the list, and the suspects that are about it; or the other way round. */
export function namesOfPart({ parts }: Pick<JobState, 'parts'>, part: string): string[] {
	const about = partsFrom(parts).filter(({ id, suspects }) => id === part || suspects.includes(part));
	const suspects = about.flatMap((one) => (one.id === part ? one.suspects : []));
	return [...new Set([part, ...about.map(({ id }) => id), ...suspects])];
}

/** Pictures before or after the change of a part, whether they were taken in a proof or on the list of parts. */
export function picturesOfChange(
	state: Pick<JobState, 'pictures' | 'parts'>,
	part: string,
	when: 'before' | 'after'
): Picture[] {
	const names = namesOfPart(state, part);
	return state.pictures.filter(
		({ of }) => of.kind === 'change' && of.when === when && of.part !== undefined && names.includes(of.part)
	);
}

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
	point?: string | undefined;
}

/** What a picture shows, in words; names where they are known: `C12, before the change`. */
export function pictureWords({ of }: Pick<EventData['pictured'], 'of'>, names: Names = {}): string {
	const what = {
		step: names.step ?? of.step,
		point: names.point ?? of.point,
		part: names.part ?? of.part
	}[of.kind === 'step' || of.kind === 'point' ? of.kind : 'part'];
	const when = of.when && `${of.when} the change`;
	return [what ?? PICTURE_OF[of.kind], when].filter(Boolean).join(', ');
}
