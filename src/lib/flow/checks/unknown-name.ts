import { calculations } from '../../calculations/registry.ts';
import { SECTION_IDS } from '../../receiver/index.ts';
import type { Library, Origins } from '../library.ts';
import { outcomesOf } from '../evidence.ts';
import { placeSuspects } from '../resolve.ts';
import { allSteps, knownNames, type Check, type Complaint, type WrittenStep } from './types.ts';

/** Sources that are not in the table: kinds of basis, and the valve data with sources of its own. */
const BASES = ['common practice', 'from memory', 'valve data', 'common practice, no source'];

interface Names {
	suspects: Set<string>;
	steps: Set<string>;
	cautions: Set<string>;
	places: Set<string>;
	points: Set<string>;
	bands: Set<string>;
	sources: Set<string>;
}

function namesOf(library: Library): Names {
	const plans = Object.values(library.plans);
	const flows = Object.values(library.flows);
	const placed = plans.flatMap((plan) => [undefined, ...flows].flatMap((flow) => placeSuspects(library, flow, plan)));
	return {
		// A suspect whose traits no plan has yet is known all the same.
		suspects: new Set([...Object.keys(library.suspects), ...placed.flatMap(({ id, family }) => [id, family])]),
		steps: new Set(Object.keys(library.steps)),
		cautions: new Set(Object.keys(library.cautions)),
		places: new Set(plans.flatMap((p) => [...Object.keys(p.stages), ...Object.keys(p.lines)])),
		points: new Set(plans.flatMap((p) => Object.keys(p.points))),
		bands: new Set(plans.flatMap((p) => Object.keys(p.bands))),
		sources: new Set([...Object.keys(library.sources), ...BASES])
	};
}

type At = WrittenStep['at'];

/** Complaint about one name, or none. */
function unknown(kind: string, name: string | undefined, known: Set<string>, at: ReturnType<At>): Complaint[] {
	if (name === undefined || known.has(name)) return [];
	return [{ ...at, message: `There is no ${kind} "${name}".`, remedy: knownNames(name, known) }];
}

const listOf = (value: string | string[]) => (typeof value === 'string' ? [value] : value);

const sources = (source: string | string[], names: Names, at: At) =>
	listOf(source).flatMap((key) => unknown('source', key, names.sources, at(['source'])));

/** A key of `expect`: a suspect, `section:if` or `place:mixer`. */
function expectKey(key: string, names: Names, at: ReturnType<At>): Complaint[] {
	if (key.startsWith('section:')) return unknown('section', key.slice(8), new Set(SECTION_IDS), at);
	if (key.startsWith('place:')) return unknown('stage or line', key.slice(6), names.places, at);
	return unknown('suspect', key, names.suspects, at);
}

function stepNames({ step, at }: WrittenStep, names: Names): Complaint[] {
	const outcomes = new Set(outcomesOf(step));
	const outcome = (name: string | undefined, path: PropertyKey[]) => unknown('outcome', name, outcomes, at(path));
	return [
		...sources(step.source, names, at),
		...step.cautions.flatMap((id, i) => unknown('caution', id, names.cautions, at(['cautions', i]))),
		...step.needs.flatMap((id, i) => unknown('step', id, names.steps, at(['needs', i]))),
		...('at' in step ? unknown('test point', step.at, names.points, at(['at'])) : []),
		...('band' in step ? unknown('band', step.band, names.bands, at(['band'])) : []),
		...('normal' in step ? outcome(step.normal, ['normal']) : []),
		...('outcomes' in step
			? Object.entries(step.outcomes).flatMap(([id, o]) => unknown('step', o.next, names.steps, at(['outcomes', id, 'next'])))
			: []),
		...Object.entries(step.expect).flatMap(([key, row]) => [
			...expectKey(key, names, at(['expect', key], true)),
			...Object.keys(row).flatMap((id) => outcome(id, ['expect', key, id]))
		]),
		...calculationNames(step.calculation, outcomes, at)
	];
}

function calculationNames(use: WrittenStep['step']['calculation'], outcomes: Set<string>, at: At): Complaint[] {
	if (!use) return [];
	const ids = new Set(Object.keys(calculations));
	const bad = unknown('calculation', use.id, ids, at(['calculation', 'id']));
	const taken = Object.entries(use.outcome ?? {}).flatMap(([verdict, id]) =>
		unknown('outcome', id, outcomes, at(['calculation', 'outcome', verdict]))
	);
	return [...bad, ...taken];
}

function flowNames(library: Library, origins: Origins, names: Names): Complaint[] {
	return Object.values(library.flows).flatMap((flow) => {
		const at: At = (path = [], key = false) => origins.at('flows', flow.id, path, key);
		const steps = new Set([...names.steps, ...Object.keys(flow.own.steps)]);
		const bands = new Set([...names.bands, 'all']);
		const scope = new Set<string>([...SECTION_IDS, ...names.places]);
		return [
			...sources(flow.source, names, at),
			...Object.keys(flow.symptom).flatMap((band) => unknown('band', band, bands, at(['symptom', band], true))),
			...flow.uses.flatMap((id, i) => unknown('step', id, steps, at(['uses', i]))),
			...flow.opening.flatMap((id, i) => unknown('step', id, steps, at(['opening', i]))),
			...Object.entries(flow.suspects).flatMap(([key, named]) => [
				...unknown('suspect', key, names.suspects, at(['suspects', key], true)),
				...(typeof named === 'object' ? (named.in ?? []) : []).flatMap((s, i) =>
					unknown('section or stage', s, scope, at(['suspects', key, 'in', i]))
				)
			])
		];
	});
}

function suspectNames(library: Library, origins: Origins, names: Names): Complaint[] {
	return Object.entries(library.suspects).flatMap(([id, suspect]) => {
		const at: At = (path = [], key = false) => origins.at('suspects', id, path, key);
		const places = typeof suspect.at === 'string' ? [suspect.at] : Array.isArray(suspect.at) ? suspect.at : [];
		return [
			...sources(suspect.source, names, at),
			...places.flatMap((place) => unknown('stage or line', place, names.places, at(['at']))),
			...(suspect.bands ?? []).flatMap((band, i) => unknown('band', band, names.bands, at(['bands', i]))),
			...suspect.cautions.flatMap((c, i) => unknown('caution', c, names.cautions, at(['cautions', i])))
		];
	});
}

/** Names that lead nowhere: suspects, steps, outcomes, points, bands, cautions, sources, calculations. */
export const unknownName: Check = {
	code: 'unknown-name',
	description: 'Every name that a flow, step or suspect uses exists.',
	level: 'error',
	scope: 'library',
	check(library, origins) {
		const names = namesOf(library);
		return [
			...allSteps(library, origins).flatMap((written) => stepNames(written, names)),
			...flowNames(library, origins, names),
			...suspectNames(library, origins, names),
			...Object.keys(library.cautions).flatMap((id) =>
				sources(library.cautions[id]?.source ?? [], names, (path = []) => origins.at('cautions', id, path))
			)
		];
	}
};
