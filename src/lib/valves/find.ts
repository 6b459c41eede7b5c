import { valves } from './data.ts';
import type { Limits, OperatingPoint, Valve } from './types.ts';

export type FoundValve =
	| { ok: true; valve: Valve; /** The name asked for is another name of it. */ asEquivalent: boolean }
	| { ok: false; hint: string; near: readonly string[] };

const tidy = (name: string): string => name.toUpperCase().replace(/[^A-Z0-9]/g, '');

/** How many characters stay over when two names are matched off, whatever their order: EL48 and EL84 leave none. */
function leftOver(one: string, other: string): number {
	const rest = [...other];
	const unmatched = [...one].filter((letter) => {
		const at = rest.indexOf(letter);
		if (at >= 0) rest.splice(at, 1);
		return at < 0;
	});
	return unmatched.length + rest.length;
}

/** Known names that differ from `name` by two characters at most, the nearest first. */
function nearNames(name: string): string[] {
	const known = valves.flatMap(({ type, equivalents }) => [type, ...equivalents]);
	return known
		.map((candidate) => ({ candidate, distance: leftOver(tidy(candidate), name) }))
		.filter(({ distance }) => distance <= 2)
		.sort((a, b) => a.distance - b.distance || a.candidate.localeCompare(b.candidate))
		.slice(0, 4)
		.map(({ candidate }) => candidate);
}

/** Finds a valve by its type or by an equivalent name, in capitals or not: `EL84`, `6bq5`. */
export function findValve(name: string): FoundValve {
	const wanted = tidy(name);
	const direct = valves.find(({ type }) => type === wanted);
	const valve =
		direct ?? valves.find(({ equivalents }) => equivalents.some((other) => tidy(other) === wanted));
	if (valve) return { ok: true, valve, asEquivalent: !direct };
	const near = wanted === '' ? [] : nearNames(wanted);
	const cure =
		near.length > 0
			? `Known with nearly that name: ${near.join(', ')}.`
			: 'Read the type on the glass again, or go by its sheet.';
	return { ok: false, hint: `There are no data for a valve "${name.trim()}". ${cure}`, near };
}

/** A valve, one of its systems and what belongs to it. */
export interface OfSystem<Block> {
	system: string;
	block: Block;
}

/** The published limits of each system of a valve; empty for an unknown type or where none are known. */
export function limitsOf(type: string, system?: string): OfSystem<Limits>[] {
	return systemsOf(type, system).flatMap(({ name, limits }) =>
		limits ? [{ system: name, block: limits }] : []
	);
}

/** The working points of each system of a valve; empty for an unknown type or where none are known. */
export function operatingPoints(type: string, system?: string): OfSystem<OperatingPoint>[] {
	return systemsOf(type, system).flatMap(({ name, points = [] }) =>
		points.map((block) => ({ system: name, block }))
	);
}

function systemsOf(type: string, system?: string): Valve['systems'] {
	const found = findValve(type);
	if (!found.ok) return [];
	return found.valve.systems.filter(({ name }) => system === undefined || name === system);
}
