import type { Library } from '../library.ts';
import { repairKey, type PlacedSuspect, type ResolvedFlow } from '../resolve.ts';
import type { Flow } from '../schema.ts';
import { differ, namedPlaces, onPlans, rowsAt, writtenSteps, type Row } from './rows.ts';
import type { Check, Complaint } from './types.ts';

/** Whether some step of a flow tells two of its suspects, by place in the list, from each other. */
export function apart(resolved: ResolvedFlow): (a: number, b: number) => boolean {
	const columns = Object.values(resolved.steps).map((step) => rowsAt(resolved, step));
	return (a, b) => columns.some((rows) => differ(rows[a] ?? [], rows[b] ?? []));
}

/** Rows near each other, or joined by a chain of such, get one number. */
function chains(rows: readonly Row[]): Map<Row, number> {
	const numbers = new Map<Row, number>();
	for (const row of new Set(rows)) {
		const near = [...numbers].filter(([other]) => !differ(row, other)).map(([, number]) => number);
		const number = near[0] ?? numbers.size;
		for (const [other, was] of numbers) if (near.includes(was)) numbers.set(other, number);
		numbers.set(row, number);
	}
	return numbers;
}

/** The flow's own suspects in groups that no step can part; only within one can two be alike. */
function alike(columns: readonly Row[][], suspects: readonly PlacedSuspect[]): number[][] {
	const numbered = columns.map((rows) => ({ rows, numbers: chains(rows) }));
	const groups = new Map<string, number[]>();
	suspects.forEach((_, index) => {
		const sign = numbered.map(({ rows, numbers }) => numbers.get(rows[index] ?? [])).join();
		groups.set(sign, [...(groups.get(sign) ?? []), index]);
	});
	return [...groups.values()].filter(({ length }) => length > 1);
}

/** Pairs of named suspects that no step of the flow parts on this plan, unless one repair mends both. */
export function unparted(library: Library, resolved: ResolvedFlow): [PlacedSuspect, PlacedSuspect][] {
	const places = namedPlaces(resolved);
	const named = places.flatMap((index) => resolved.suspects[index] ?? []);
	const columns = writtenSteps(library, resolved).map(([, step]) => rowsAt(resolved, step, places));
	const parted = (a: number, b: number) => columns.some((rows) => differ(rows[a] ?? [], rows[b] ?? []));
	return alike(columns, named).flatMap((group) =>
		group.flatMap((a, i) =>
			group.slice(i + 1).flatMap((b): [PlacedSuspect, PlacedSuspect][] => {
				const [one, other] = [named[a], named[b]];
				if (!one || !other || one.family === other.family || repairKey(one) === repairKey(other)) return [];
				return parted(a, b) ? [] : [[one, other]];
			})
		)
	);
}

const pairsOf = (library: Library, flow: Flow) =>
	onPlans(library, flow)
		.flatMap((resolved) => unparted(library, resolved))
		.map(([one, other]) => ({ key: one.id, other: other.id }));

export const neverSeparated: Check = {
	code: 'never-separated',
	description: 'Some step of a flow parts each pair of its suspects, unless one repair mends both.',
	level: 'error',
	scope: 'flow',
	check(library, origins) {
		return Object.values(library.flows).flatMap((flow): Complaint[] => {
			const pairs = new Map(pairsOf(library, flow).map((pair) => [`${pair.key} ${pair.other}`, pair]));
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
