import type { Library } from '../library.ts';
import { stepTable } from '../evidence.ts';
import { flowFits, repairKey, resolveFlow, type ResolvedFlow } from '../resolve.ts';
import type { Flow } from '../schema.ts';
import type { Check, Complaint } from './types.ts';

/** Rows that differ by less than this at every outcome tell two suspects apart in no real trace. */
const SAME = 0.05;

/** Whether some step of a flow tells two of its suspects, by place in the list, from each other. */
export function apart(resolved: ResolvedFlow): (a: number, b: number) => boolean {
	const tables = Object.values(resolved.steps).map((step) => stepTable(resolved, step).table);
	return (a, b) =>
		tables.some((table) => (table[a] ?? []).some((p, o) => Math.abs(p - (table[b]?.[o] ?? 0)) > SAME));
}

function complaintsOf(library: Library, flow: Flow): { key: string; other: string }[] {
	return Object.values(library.plans)
		.filter((plan) => flowFits(flow, plan))
		.flatMap((plan) => {
			const resolved = resolveFlow(library, flow, plan);
			const separated = apart(resolved);
			const named = resolved.suspects.map((s, index) => ({ s, index })).filter(({ s }) => s.named);
			return named.flatMap(({ s, index }, i) =>
				named
					.slice(i + 1)
					.filter(({ s: other }) => other.family !== s.family && repairKey(other) !== repairKey(s))
					.filter(({ index: other }) => !separated(index, other))
					.map(({ s: other }) => ({ key: s.id, other: other.id }))
			);
		});
}

export const neverSeparated: Check = {
	code: 'never-separated',
	description: 'Some step of a flow parts each pair of its suspects, unless one repair mends both.',
	level: 'error',
	scope: 'flow',
	check(library, origins) {
		return Object.values(library.flows).flatMap((flow): Complaint[] => {
			const pairs = new Map(complaintsOf(library, flow).map((pair) => [`${pair.key} ${pair.other}`, pair]));
			return [...pairs.values()].map(({ key, other }) => ({
				...origins.at(
					'flows',
					flow.id,
					['suspects', flow.suspects[key] ? key : (key.split('@')[0] ?? key)],
					true
				),
				message: `No step of this flow tells "${key}" from "${other}".`,
				remedy:
					'Use a step that parts them, or give both the same repair (repair: same) where one job mends both.'
			}));
		});
	}
};
