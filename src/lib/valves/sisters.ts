import { valves } from './data.ts';
import type { Valve } from './types.ts';

const layout = ({ base, pins, topCap }: Valve) => JSON.stringify([base, pins, topCap]);

/**
 * Types on the same base with the same pins and of the same kind, another heater as a rule: they say what an electrode should do,
 * and never may be exchanged unlooked at. A record whose pins are not all known has none.
 */
export function sistersOf(valve: Valve): Valve[] {
	if (valve.pinsPartial && Object.keys(valve.pins).length < 4) return [];
	return valves.filter(
		(other) => other !== valve && other.kind === valve.kind && layout(other) === layout(valve)
	);
}
