import { differ, onPlans, namedPlaces, rowsAt, writtenSteps, type Row } from './checks/rows.ts';
import { unparted } from './checks/separation.ts';
import type { Library } from './library.ts';
import { repairKey } from './resolve.ts';
import type { Flow } from './schema.ts';

/** Which shared steps tell the suspects of a flow from each other. */

export interface Parting {
	/** The steps begun with, and those added, each after what it needs. */
	uses: string[];
	/** Pairs that no shared step parts. */
	left: [string, string][];
}

interface Pairs {
	/** By step: which pair it parts. */
	parts: Map<string, Set<string>>;
	all: Set<string>;
}

/** Every pair of suspects that wants to be told apart, on every plan, and the steps which do it. */
function pairsOf(library: Library, flow: Flow): Pairs {
	const parts = new Map<string, Set<string>>();
	const all = new Set<string>();
	for (const resolved of onPlans(library, flow)) {
		const named = resolved.suspects.filter((placed) => placed.named);
		const pairs = named.flatMap((one, a) =>
			named.flatMap((other, b) =>
				b > a && one.family !== other.family && repairKey(one) !== repairKey(other)
					? [{ a, b, key: `${resolved.plan.id} ${one.id} ${other.id}` }]
					: []
			)
		);
		for (const { key } of pairs) all.add(key);
		for (const [id, step] of writtenSteps(library, resolved)) {
			const rows: Row[] = rowsAt(resolved, step, namedPlaces(resolved));
			const parted = pairs.filter(({ a, b }) => differ(rows[a] ?? [], rows[b] ?? []));
			parts.set(id, new Set([...(parts.get(id) ?? []), ...parted.map(({ key }) => key)]));
		}
	}
	return { parts, all };
}

/** A step after everything that it needs. */
function withNeeds(library: Library, id: string, before: readonly string[]): string[] {
	if (before.includes(id)) return [];
	const needs = (library.steps[id]?.needs ?? []).reduce<string[]>(
		(list, need) => [...list, ...withNeeds(library, need, [...before, ...list, id])],
		[]
	);
	return [...needs, id];
}

const countNew = (pairs: ReadonlySet<string> | undefined, open: ReadonlySet<string>): number =>
	[...(pairs ?? [])].filter((pair) => open.has(pair)).length;

/**
 * Add shared steps, the most telling first, until each pair of named suspects is parted or no step is left that could.
 *
 * @param flow as a loader reads it; what it uses already stays in front
 */
export function partingSteps(library: Library, flow: Flow): Parting {
	const { parts, all } = pairsOf(library, { ...flow, uses: Object.keys(library.steps) });
	const uses = flow.uses.reduce<string[]>((list, id) => [...list, ...withNeeds(library, id, list)], []);
	const open = new Set(all);
	const close = (ids: readonly string[]) => {
		for (const id of ids) for (const pair of parts.get(id) ?? []) open.delete(pair);
	};
	close(uses);
	while (open.size) {
		const [best] = [...parts].sort(
			(a, b) => countNew(b[1], open) - countNew(a[1], open) || a[0].localeCompare(b[0])
		);
		if (!best || countNew(best[1], open) === 0) break;
		const added = withNeeds(library, best[0], uses);
		uses.push(...added);
		close(added);
	}
	const left = onPlans(library, { ...flow, uses }).flatMap((resolved) => unparted(library, resolved));
	const pairs = new Map(left.map(([a, b]) => [`${a.id} ${b.id}`, [a.id, b.id] as [string, string]]));
	return { uses, left: [...pairs.values()] };
}
