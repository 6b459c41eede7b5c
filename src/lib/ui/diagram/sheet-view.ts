import type { Mark } from '$lib/job/marks.ts';
import { marksFrom } from '$lib/job/marks.ts';
import { partsFrom, type Part } from '$lib/job/parts.ts';
import type { JobState, Picture } from '$lib/job/state.ts';
import type { Plan } from '$lib/receiver/index.ts';
import { lookOf, type Look } from '../parts/part-marks.ts';

/** A picture that marks can be set on. */
export interface Sheet {
	picture: Picture;
	/** `Diagram 1`, `Chassis 2`, or its caption. */
	title: string;
}

/** A mark as it is shown: what stands there, and how that is. */
export interface MarkView {
	mark: Mark;
	name: string;
	/** State of the part, or what a test point is. */
	state: string;
	look: Look;
}

const TITLES = { diagram: 'Diagram', chassis: 'Chassis' } as const;

/** Diagrams first, then the chassis, each picture once. */
export function sheetsOf(state: JobState): Sheet[] {
	const seen = new Set<string>();
	return (['diagram', 'chassis'] as const).flatMap((kind) => {
		const pictures = state.pictures.filter(({ of, picture }) => {
			if (of.kind !== kind || seen.has(picture)) return false;
			seen.add(picture);
			return true;
		});
		return pictures.map((picture, index) => ({
			picture,
			title: picture.caption ?? `${TITLES[kind]} ${index + 1}`
		}));
	});
}

/** A test point: a ring with a T. */
const POINT: Look = {
	letter: 'T',
	path: 'M14 2a12 12 0 1 1 0 24a12 12 0 1 1 0-24z M14 6a8 8 0 1 1 0 16a8 8 0 1 1 0-16z',
	tone: 'plain',
	word: 'test point'
};
const NOTE: Look = { letter: '!', path: 'M5 3h18v22H5z', tone: 'plain', word: 'note' };

function viewOf(mark: Mark, parts: ReadonlyMap<string, Part>, plan: Plan | undefined): MarkView {
	const part = mark.part === undefined ? undefined : parts.get(mark.part);
	if (part) {
		const look = lookOf(part.state);
		return { mark, name: mark.label ?? part.name, state: look.word, look };
	}
	if (mark.point !== undefined) {
		const title = plan?.points[mark.point]?.title ?? mark.point;
		return { mark, name: mark.label ?? title, state: POINT.word, look: POINT };
	}
	// A part that was taken off the list leaves its mark behind.
	return { mark, name: mark.label ?? 'Part off the list', state: NOTE.word, look: NOTE };
}

export function markViews(state: JobState, plan: Plan | undefined, sheet: string): MarkView[] {
	const parts = new Map(partsFrom(state.parts).map((part) => [part.id, part]));
	return marksFrom(state.marks)
		.filter((mark) => mark.sheet === sheet)
		.map((mark) => viewOf(mark, parts, plan));
}

/** Where a test point is marked, on a sheet that is still there. */
export function marksAt(state: JobState, point: string): { sheet: Sheet; mark: Mark }[] {
	const sheets = sheetsOf(state);
	return marksFrom(state.marks).flatMap((mark) => {
		const sheet = sheets.find(({ picture }) => picture.picture === mark.sheet);
		return mark.point === point && sheet ? [{ sheet, mark }] : [];
	});
}

/**
 * A short id for a new mark, such that two benches which mark the same sheet apart do not meet.
 *
 * @param random a whole number of 32 bits
 */
export const newMark = (random: number): string => `m${random.toString(36)}`;
