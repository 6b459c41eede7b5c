import type { Plan } from '../receiver/index.ts';
import type { Library } from './library.ts';
import type { Duty, PartLook } from './part-terms.ts';
import { placeSuspects, type PlacedSuspect } from './resolve.ts';
import type { PartVerdict, UsualPart } from './schema.ts';

/** The parts that a set of a plan usually has, and what becomes of a part by kind and duty. */

/** A part that a set of this plan has, as far as is known without looking. */
export interface PlanPart {
	/** `output-coupling`, or `anode-feed@mixer` where sets have it in several places. */
	id: string;
	name: string;
	kind: PartLook;
	place: string;
	placeTitle: string;
	duty?: Duty;
	/** As the plan gives it: `470 kohm`. */
	value?: string;
	/** Where one does not see it from below the chassis. */
	hidden?: string;
	/** Suspects that are about it, as the traces of this plan call them. */
	suspects: string[];
}

/** Single suspects wherever they stand, and those of many places only at this one. */
const aboutIt = ({ suspects }: UsualPart, placed: readonly PlacedSuspect[], place: string): string[] =>
	suspects.flatMap((family) =>
		placed
			.filter((one) => one.family === family && (one.id === family || one.place === place))
			.map(({ id }) => id)
	);

function placesFor(
	[id, part]: [string, UsualPart],
	placed: readonly PlacedSuspect[],
	plan: Plan
): PlanPart[] {
	const places = placed.filter(({ family }) => family === part.suspects[0]);
	return places.map(({ place, placeTitle, id: suspect, family }): PlanPart => {
		const value = part.value === undefined ? undefined : plan.values[`${place}.${part.value}`]?.value;
		return {
			id: suspect === family ? id : `${id}@${place}`,
			name: part.name,
			kind: part.kind,
			place,
			placeTitle,
			...(part.duty ? { duty: part.duty } : {}),
			...(value === undefined ? {} : { value }),
			...(part.hidden ? { hidden: part.hidden } : {}),
			suspects: aboutIt(part, placed, place)
		};
	});
}

/** Every part that a set of this plan usually has, in the order of the table. */
export function partsOf(library: Library, plan: Plan): PlanPart[] {
	const placed = placeSuspects(library, undefined, plan);
	return Object.entries(library.parts ?? {}).flatMap((row) => placesFor(row, placed, plan));
}

/** What becomes of a part of this kind and duty; `undefined` where no row of the table speaks of it. */
export const verdictFor = (
	{ verdicts = {} }: Pick<Library, 'verdicts'>,
	kind: PartLook,
	duty: Duty | undefined
): PartVerdict | undefined =>
	Object.values(verdicts).find(
		({ kinds, duties }) =>
			kinds.includes(kind) && (duties === undefined || (duty !== undefined && duties.includes(duty)))
	);
