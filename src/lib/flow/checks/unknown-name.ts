import { calculationIds, calculationOf } from '../../calculations/index.ts';
import { SECTION_IDS, type Plan } from '../../receiver/index.ts';
import type { Library, Origins } from '../library.ts';
import type { Suspect } from '../schema.ts';
import { outcomesOf } from '../evidence.ts';
import { SUSPECT_KINDS } from '../terms.ts';
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
	flows: Set<string>;
}

function namesOf(library: Library, origins: Origins): Names {
	const plans = Object.values(library.plans);
	const flows = Object.values(library.flows);
	const written = [library.suspects, ...flows.map(({ own }) => own.suspects)].flatMap((table) =>
		Object.keys(table)
	);
	// The shared suspects are placed once, for every flow has them all.
	const shared = plans.flatMap((plan) => placeSuspects(library, undefined, plan));
	const own = flows.flatMap((flow) =>
		plans.flatMap((plan) => placeSuspects({ ...library, suspects: {} }, flow, plan))
	);
	const placed = [...shared, ...own];
	return {
		// A suspect that no plan has a place for yet is known all the same.
		suspects: new Set([...written, ...placed.map(({ id }) => id)]),
		steps: new Set(Object.keys(library.steps)),
		cautions: new Set(Object.keys(library.cautions)),
		places: new Set(plans.flatMap((p) => [...Object.keys(p.stages), ...Object.keys(p.lines)])),
		points: new Set(plans.flatMap((p) => Object.keys(p.points))),
		bands: new Set(plans.flatMap((p) => Object.keys(p.bands))),
		sources: new Set([...Object.keys(library.sources), ...BASES]),
		flows: new Set([...flows.map(({ id }) => id), ...origins.flowsBeside])
	};
}

type At = WrittenStep['at'];

/** Complaint about one name, or none. */
function unknown(
	kind: string,
	name: string | undefined,
	known: Set<string>,
	at: ReturnType<At>
): Complaint[] {
	if (name === undefined || known.has(name)) return [];
	return [{ ...at, message: `There is no ${kind} "${name}".`, remedy: knownNames(name, known) }];
}

/** One name, or a list of them, each with its own place. */
const each = (kind: string, value: string | string[], known: Set<string>, at: At, path: PropertyKey[]) =>
	typeof value === 'string'
		? unknown(kind, value, known, at(path))
		: value.flatMap((name, i) => unknown(kind, name, known, at([...path, i])));

const sources = (source: string | string[], names: Names, at: At, path: PropertyKey[] = []) =>
	each('source', source, names.sources, at, [...path, 'source']);

/** A key of `expect`: a suspect, `section:if` or `place:mixer`. */
function expectKey(key: string, names: Names, at: ReturnType<At>): Complaint[] {
	if (key.startsWith('section:')) return unknown('section', key.slice(8), new Set(SECTION_IDS), at);
	if (key.startsWith('place:')) return unknown('stage or line', key.slice(6), names.places, at);
	return unknown('suspect', key, names.suspects, at);
}

function stepNames({ step, beside, at }: WrittenStep, names: Names): Complaint[] {
	const outcomes = new Set(outcomesOf(step));
	const steps = new Set([...names.steps, ...beside]);
	const outcome = (name: string | undefined, path: PropertyKey[], key = false) =>
		unknown('outcome', name, outcomes, at(path, key));
	return [
		...sources(step.source, names, at),
		...step.cautions.flatMap((id, i) => unknown('caution', id, names.cautions, at(['cautions', i]))),
		...step.needs.flatMap((id, i) => unknown('step', id, steps, at(['needs', i]))),
		...('at' in step ? unknown('test point', step.at, names.points, at(['at'])) : []),
		...('band' in step ? unknown('band', step.band, names.bands, at(['band'])) : []),
		...('normal' in step ? outcome(step.normal, ['normal']) : []),
		...('outcomes' in step
			? Object.entries(step.outcomes).flatMap(([id, o]) => [
					...unknown('step', o.next, steps, at(['outcomes', id, 'next'])),
					...unknown('flow', o.opens, names.flows, at(['outcomes', id, 'opens']))
				])
			: []),
		...Object.entries(step.expect).flatMap(([key, row]) => [
			...expectKey(key, names, at(['expect', key], true)),
			...Object.keys(row).flatMap((id) => outcome(id, ['expect', key, id], true))
		]),
		...calculationNames(step.calculation, outcomes, at)
	];
}

function calculationNames(
	use: WrittenStep['step']['calculation'],
	outcomes: Set<string>,
	at: At
): Complaint[] {
	if (!use) return [];
	const bad = unknown('calculation', use.id, new Set(calculationIds), at(['calculation', 'id']));
	const verdicts = new Set(calculationOf(use.id)?.verdicts?.map(({ verdict }) => verdict));
	const taken = Object.entries(use.outcome ?? {}).flatMap(([verdict, id]) => [
		...(bad.length
			? []
			: unknown('verdict', verdict, verdicts, at(['calculation', 'outcome', verdict], true))),
		...unknown('outcome', id, outcomes, at(['calculation', 'outcome', verdict]))
	]);
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
			...Object.keys(flow.symptom).flatMap((band) =>
				unknown('band', band, bands, at(['symptom', band], true))
			),
			...Object.keys(flow['also-heard']).flatMap((band) =>
				unknown(
					'band of the symptom',
					band,
					new Set(Object.keys(flow.symptom)),
					at(['also-heard', band], true)
				)
			),
			...flow.uses.flatMap((id, i) => unknown('step', id, steps, at(['uses', i]))),
			...flow.opening.flatMap((id, i) => unknown('step', id, steps, at(['opening', i]))),
			...(['limiter', 'live'] as const).flatMap((state) =>
				(flow.before?.[state] ?? []).flatMap((id, i) => unknown('step', id, steps, at(['before', state, i])))
			),
			...Object.entries(flow.suspects).flatMap(([key, named]) => [
				...unknown('suspect', key, names.suspects, at(['suspects', key], true)),
				...(typeof named === 'object' ? (named.in ?? []) : []).flatMap((s, i) =>
					unknown('section or stage', s, scope, at(['suspects', key, 'in', i]))
				)
			])
		];
	});
}

function suspectNames(suspect: Suspect, names: Names, at: At): Complaint[] {
	const places = typeof suspect.at === 'string' || Array.isArray(suspect.at) ? suspect.at : [];
	return [
		...sources(suspect.source, names, at),
		...each('stage or line', places, names.places, at, ['at']),
		...each('band', suspect.bands ?? [], names.bands, at, ['bands']),
		...Object.keys(suspect['shows-on'] ?? {}).flatMap((band) =>
			unknown('band', band, names.bands, at(['shows-on', band], true))
		),
		...each('caution', suspect.cautions, names.cautions, at, ['cautions'])
	];
}

/** Suspects that all flows share, and those of one flow. */
function allSuspects(library: Library, origins: Origins, names: Names): Complaint[] {
	const shared = Object.entries(library.suspects).flatMap(([id, suspect]) =>
		suspectNames(suspect, names, (path = [], key = false) => origins.at('suspects', id, path, key))
	);
	const own = Object.values(library.flows).flatMap((flow) =>
		Object.entries(flow.own.suspects).flatMap(([id, suspect]) =>
			suspectNames(suspect, names, (path = [], key = false) =>
				origins.at('flows', flow.id, ['own', 'suspects', id, ...path], key)
			)
		)
	);
	return [...shared, ...own];
}

function planNames(plan: Plan, names: Names, at: At): Complaint[] {
	return [
		...sources(plan.source, names, at),
		...Object.entries(plan.points).flatMap(([id, { volts }]) =>
			volts ? sources(volts.source, names, at, ['points', id, 'volts']) : []
		),
		...Object.entries(plan.values).flatMap(([id, { source }]) => sources(source, names, at, ['values', id]))
	];
}

function historyNames(library: Library, origins: Origins, names: Names): Complaint[] {
	const known = new Set<string>([...SUSPECT_KINDS, ...names.suspects]);
	return Object.entries(library.history).flatMap(([word, { shifts, source }]) => {
		const at: At = (path = [], key = false) => origins.at('history', word, path, key);
		return [
			...sources(source, names, at),
			...Object.keys(shifts).flatMap((key) =>
				unknown('kind of part or suspect', key, known, at(['shifts', key], true))
			)
		];
	});
}

const sayingNames = (library: Library, origins: Origins, names: Names): Complaint[] =>
	Object.keys(library.sayings ?? {}).flatMap((flow) =>
		unknown('flow', flow, names.flows, origins.at('sayings', flow, [], true))
	);

/** Names that lead nowhere: suspects, steps, outcomes, points, bands, cautions, sources, calculations. */
export const unknownName: Check = {
	code: 'unknown-name',
	description: 'Every name that a flow, step or suspect uses exists.',
	level: 'error',
	scope: 'library',
	check(library, origins) {
		const names = namesOf(library, origins);
		return [
			...allSteps(library, origins).flatMap((written) => stepNames(written, names)),
			...flowNames(library, origins, names),
			...allSuspects(library, origins, names),
			...historyNames(library, origins, names),
			...sayingNames(library, origins, names),
			...Object.values(library.plans).flatMap((plan) =>
				planNames(plan, names, (path = []) => origins.at('plans', plan.id, path))
			),
			...Object.entries(library.cautions).flatMap(([id, { source }]) =>
				sources(source, names, (path = []) => origins.at('cautions', id, path))
			)
		];
	}
};
