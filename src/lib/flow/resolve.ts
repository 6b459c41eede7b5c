import {
	fits,
	placeOf,
	placesWith,
	reaches,
	stagesOn,
	type Plan,
	type SectionId
} from '../receiver/index.ts';
import { historyOf, type Library } from './library.ts';
import { WEIGHTS } from '../suspects/index.ts';
import type { Flow, Step, Suspect } from './schema.ts';

/** One suspect at one place of the plan: a hypothesis of the trace. */
export interface PlacedSuspect {
	/** `cc-leak`, or `socket@mixer` where it can stand in several places. */
	id: string;
	family: string;
	suspect: Suspect;
	place: string;
	placeTitle: string;
	section: SectionId;
	/** Relative weight before any answer, from the flow's words. */
	weight: number;
	/** Whether the flow itself names it; the others enter as `not listed`. */
	named: boolean;
}

/** A flow joined with one plan: what a trace works on. */
export interface ResolvedFlow {
	flow: Flow;
	plan: Plan;
	suspects: PlacedSuspect[];
	steps: Record<string, Step>;
	/** What the past of a set does to the weights, by word. */
	history: Library['history'];
	/** The complaint comes and goes: while the fault is away, the set reads sound. */
	comesAndGoes: boolean;
	/** Bands of this plan that the symptom calls bad, and what is heard on every band it speaks of. */
	heard: Record<string, string>;
}

function placesOf(plan: Plan, suspect: Suspect): string[] {
	const { at } = suspect;
	const places = typeof at === 'string' ? [at] : Array.isArray(at) ? at : placesWith(plan, at.every);
	return places.filter((place) => placeOf(plan, place));
}

/** Every suspect at every place that this plan has for it. */
export function placeSuspects(library: Library, flow: Flow | undefined, plan: Plan): PlacedSuspect[] {
	const all = { ...library.suspects, ...flow?.own.suspects };
	return Object.entries(all).flatMap(([family, suspect]) => {
		if (!fits(plan.traits, suspect.only, suspect.never)) return [];
		const single = typeof suspect.at === 'string';
		return placesOf(plan, suspect).map((place) => ({
			id: single ? family : `${family}@${place}`,
			family,
			suspect,
			place,
			placeTitle: placeOf(plan, place)?.title ?? place,
			section: suspect.section ?? placeOf(plan, place)?.section ?? 'outside',
			weight: 0,
			named: false
		}));
	});
}

/** Bands on which this suspect can be felt in this plan. */
export const bandsOf = (plan: Plan, placed: PlacedSuspect): string[] =>
	Object.keys(plan.bands).filter(
		(band) =>
			(!placed.suspect.bands || placed.suspect.bands.includes(band)) &&
			reaches(plan, placed.place, band, stagesOn(plan, band))
	);

interface Felt {
	placed: PlacedSuspect;
	bands: readonly string[];
	keys: readonly string[];
}

const feltOn = (library: Library, flow: Flow | undefined, plan: Plan): Felt[] =>
	placeSuspects(library, flow, plan).map((placed) => ({
		placed,
		bands: bandsOf(plan, placed),
		keys: keysMeaning(placed)
	}));

/** Where the shared suspects of a library stand in a plan: the same for every flow. */
const sharedPlaces = new WeakMap<Library['suspects'], WeakMap<Plan, Felt[]>>();

/** Every suspect at every place, with the bands on which it is felt; each flow weighs copies of its own. */
function placesFor(library: Library, flow: Flow, plan: Plan): Felt[] {
	const ofLibrary = sharedPlaces.get(library.suspects) ?? new WeakMap<Plan, Felt[]>();
	sharedPlaces.set(library.suspects, ofLibrary);
	const shared = ofLibrary.get(plan) ?? feltOn(library, undefined, plan);
	ofLibrary.set(plan, shared);
	const own = Object.keys(flow.own.suspects).length ? feltOn({ ...library, suspects: {} }, flow, plan) : [];
	return [...shared.map((felt) => ({ ...felt, placed: { ...felt.placed } })), ...own];
}

/** What the symptom says of each band that the plan has; `all` stands for those not named. */
export function heardOn(flow: Flow, plan: Plan): Record<string, string> {
	const heard: Record<string, string> = {};
	for (const band of Object.keys(plan.bands)) {
		const said = flow.symptom[band] ?? flow.symptom['all'];
		if (said) heard[band] = said;
	}
	return heard;
}

/** Does a key of a flow or an `expect` row mean this placed suspect? */
export function means(key: string, placed: PlacedSuspect): boolean {
	if (key.startsWith('section:')) return placed.section === key.slice(8);
	if (key.startsWith('place:')) return placed.place === key.slice(6);
	return key === placed.id || key === placed.family;
}

/** The keys that can mean a placed suspect, the closest first: its own place before its family before a whole section. */
const keysMeaning = ({ id, family, place, section }: PlacedSuspect): string[] => [
	id,
	family,
	`place:${place}`,
	`section:${section}`
];

/** The key that speaks most closely of a suspect. */
export const closest = (keys: readonly string[], placed: PlacedSuspect): string | undefined =>
	keysMeaning(placed).find((key) => keys.includes(key));

const inScope = (scope: readonly string[] | undefined, placed: PlacedSuspect) =>
	!scope || scope.includes(placed.section) || scope.includes(placed.place);

/** The key under which a flow names this suspect in this set, if it does. */
const keyFor = ({ suspects }: Flow, { traits }: Plan, { placed, keys }: Felt): string | undefined =>
	keys.find((key) => {
		const named = Object.hasOwn(suspects, key) ? suspects[key] : undefined;
		if (typeof named !== 'object') return named !== undefined;
		return inScope(named.in, placed) && fits(traits, named.only);
	});

const countBy = <T>(items: readonly T[], keyOf: (item: T) => string): Map<string, number> => {
	const counts = new Map<string, number>();
	for (const item of items) counts.set(keyOf(item), (counts.get(keyOf(item)) ?? 0) + 1);
	return counts;
};

/** A suspect with the key under which the flow names it. */
interface Keyed {
	placed: PlacedSuspect;
	key: string | undefined;
}

/** Give each suspect its weight: a family's weight is divided over its places (decision: no place counts twice). */
function weigh(flow: Flow, suspects: readonly Keyed[]): void {
	const sharing = countBy(suspects, ({ key }) => key ?? '');
	const unnamed = countBy(
		suspects.filter(({ key }) => key === undefined),
		({ placed }) => placed.family
	);
	for (const { placed, key } of suspects) {
		const named = key === undefined ? undefined : flow.suspects[key];
		placed.named = key !== undefined;
		placed.weight =
			named && key !== undefined
				? WEIGHTS[typeof named === 'string' ? named : named.common] / (sharing.get(key) ?? 1)
				: WEIGHTS['not listed'] / (unnamed.get(placed.family) ?? 1);
	}
}

/** Which steps of a flow a plan can take: its traits fit and its test point, stage or band exists. */
export function stepsFor(library: Library, flow: Flow, plan: Plan): Record<string, Step> {
	const own = flow.own.steps;
	const entries = [...flow.uses, ...Object.keys(own)].flatMap((id): [string, Step][] => {
		const step = own[id] ?? library.steps[id];
		return step && canTake(plan, step) ? [[id, inOrder(flow, id, step)]] : [];
	});
	return Object.fromEntries(entries);
}

/** A set that trips or burns gets no power before the flow's cold checks, and no full mains before the limiter has spoken. */
function inOrder({ before }: Flow, id: string, step: Step): Step {
	if (!before || step.power === 'unplugged') return step;
	const first = step.power === 'live' ? [...before.limiter, ...before.live] : before.limiter;
	const needs = first.filter((other) => other !== id && !step.needs.includes(other));
	return needs.length ? { ...step, needs: [...step.needs, ...needs] } : step;
}

function canTake(plan: Plan, step: Step): boolean {
	if (!fits(plan.traits, step.only, step.never)) return false;
	if ('band' in step && !plan.bands[step.band]) return false;
	return !('at' in step) || step.at === undefined || plan.points[step.at] !== undefined;
}

/** Whether a set of this plan can have this complaint at all. */
export const flowFits = (flow: Flow, plan: Plan): boolean =>
	fits(plan.traits, flow.only, flow.never) && flow.bands.every((band) => plan.bands[band]);

const spokenBad = (heard: Readonly<Record<string, string>>, band: string): boolean =>
	Object.keys(heard).length === 0 || (heard[band] !== undefined && heard[band] !== 'good');

/**
 * Join flow and plan. The hypotheses are what the flow names and all suspects of the plan that can act on a band
 * that misbehaves; "something not listed" is added by the trace.
 *
 * @param comesAndGoes what the complaint of the set at hand says, whatever the flow's own symptom is
 */
export function resolveFlow(library: Library, flow: Flow, plan: Plan, comesAndGoes = false): ResolvedFlow {
	const heard = heardOn(flow, plan);
	// A flow that is entered by a sign alone speaks of no band: every part of the set may be behind it.
	const bad = Object.keys(plan.bands).filter((band) => spokenBad(heard, band));
	const all = placesFor(library, flow, plan).map((place) => ({
		placed: place.placed,
		key: keyFor(flow, plan, place),
		felt: place.bands.some((band) => bad.includes(band))
	}));
	const feltFamilies = new Set(all.flatMap(({ placed, felt }) => (felt ? [placed.family] : [])));
	// What a flow names takes part even where it is not heard (a tingle, a dark dial lamp); but of a family that is
	// felt somewhere, the places that are not felt would only take weight from those that are.
	const suspects = all.filter(
		({ placed, key, felt }) =>
			felt || (key !== undefined && (key === placed.id || !feltFamilies.has(placed.family)))
	);
	weigh(flow, suspects);
	return {
		flow,
		plan,
		suspects: suspects.map(({ placed }) => placed),
		steps: stepsFor(library, flow, plan),
		history: historyOf(library),
		comesAndGoes: comesAndGoes || Object.values(heard).includes('intermittent'),
		heard
	};
}

/** Suspects with the same key are mended by one and the same repair: the same word, or the very same part. */
export const repairKey = ({ id, suspect }: PlacedSuspect): string => suspect.repair.same ?? id;
