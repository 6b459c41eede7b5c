import { partsOf, type PlanPart } from '../flow/parts.ts';
import type { Library } from '../flow/library.ts';
import { parseAnyQuantity } from '../quantity/index.ts';
import type { Plan } from '../receiver/index.ts';
import type { EventData } from './events.ts';
import type { TablePart } from './part-table.ts';
import { partsFrom } from './parts.ts';
import { own, type JobState } from './state.ts';

/** What the parts list of a job begins with, and how a part that a person lists comes to its suspects. */

type Listing = EventData['part-listed'];

/** The plan of the set: as its flows keep it, else that of the library. */
export function planOf(state: JobState, library: Library): Plan | undefined {
	const kept = [...Object.values(state.flows), ...state.earlier][0]?.run.resolved.plan;
	return kept ?? own(library.plans, state.intake?.plan);
}

/** Parts that such sets usually have and that are not on the list yet. */
export function offersFor(state: JobState, library: Library): PlanPart[] {
	const plan = planOf(state, library);
	const listed = partsFrom(state.parts);
	const ids = new Set(listed.map(({ id }) => id));
	const told = new Set(listed.flatMap(({ suspects }) => suspects));
	return plan
		? partsOf(library, plan).filter(({ id, suspects }) => !ids.has(id) && !told.has(suspects[0] ?? ''))
		: [];
}

/** An offered part as it is listed, under its own id. */
export function listingOf({ id, name, kind, place, duty, value, suspects }: PlanPart): Listing {
	const read = value === undefined ? undefined : parseAnyQuantity(value);
	return {
		part: id,
		name,
		kind,
		place,
		suspects,
		...(duty ? { duty } : {}),
		...(read?.ok ? { typed: value ?? '', value: read.value } : {})
	};
}

/** The offered part that a person means: the only one of that duty, or the one at that place. */
function meant(offers: readonly PlanPart[], { kind, duty, place }: TablePart): PlanPart | undefined {
	const alike = offers.filter((offer) =>
		duty === undefined ? place !== undefined && offer.kind === kind : offer.duty === duty
	);
	const here = alike.filter((offer) => offer.place === place);
	const fitting = here.length > 0 ? here : duty !== undefined && place === undefined ? alike : [];
	if (fitting.length === 1) return fitting[0];
	// Coupling to the output grid stands between two stages: there is but one.
	return duty !== undefined && alike.length === 1 ? alike[0] : undefined;
}

const slug = (name: string): string =>
	name
		.toLowerCase()
		.replaceAll(/[^a-z0-9]+/g, '-')
		.replaceAll(/^-|-$/g, '')
		.slice(0, 60) || 'part';

function freeId(name: string, taken: ReadonlySet<string>): string {
	const wanted = `own-${slug(name)}`;
	if (!taken.has(wanted)) return wanted;
	for (let count = 2; ; count++) if (!taken.has(`${wanted}-${count}`)) return `${wanted}-${count}`;
}

/**
 * Listings for parts that a person names. A part that is on the list under that name is corrected; one that such sets
 * usually have takes its place and its suspects.
 */
export function listingsFor(state: JobState, library: Library, parts: readonly TablePart[]): Listing[] {
	const listed = partsFrom(state.parts);
	const taken = new Set([...state.parts.map(({ part }) => part)]);
	let offers = offersFor(state, library);
	return parts.map((part): Listing => {
		const known = listed.find(({ name }) => name.toUpperCase() === part.name.toUpperCase());
		if (known) {
			const { id, name, kind, place, duty, typed, value, rating, suspects } = known;
			const before = { name, kind, suspects: [...suspects] };
			const more = { ...(place && { place }), ...(duty && { duty }), ...(typed && { typed }) };
			return { ...before, ...more, ...(value && { value }), ...(rating && { rating }), ...part, part: id };
		}
		const offer = meant(offers, part);
		offers = offers.filter((one) => one !== offer);
		const id = offer?.id ?? freeId(part.name, taken);
		taken.add(id);
		const fromOffer = offer ? { ...listingOf(offer) } : {};
		return { ...fromOffer, ...part, part: id };
	});
}
