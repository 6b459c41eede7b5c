import { valves } from './data.ts';
import { bases } from './bases.ts';
import type { Valve } from './types.ts';

const bare = (text: string) => text.toUpperCase().replace(/[^A-Z0-9]/g, '');

const words = (valve: Valve) =>
	[valve.kind, bases[valve.base].name, bases[valve.base].american, ...valve.roles].join(' ').toLowerCase();

/**
 * Valves by what somebody types: any of their names, from its beginning (`6bq`), or words of their kind, base or use (`output
 * pentode`, `octal`). Names go first. All of them for an empty query.
 */
export function searchValves(query: string): Valve[] {
	const name = bare(query);
	const parts = query.toLowerCase().split(/\s+/).filter(Boolean);
	if (parts.length === 0) return [...valves];
	const byName = valves.filter(({ type, equivalents }) =>
		[type, ...equivalents].some((known) => name !== '' && bare(known).startsWith(name))
	);
	const byWords = valves.filter(
		(valve) => !byName.includes(valve) && parts.every((part) => words(valve).includes(part))
	);
	return [...byName, ...byWords];
}
