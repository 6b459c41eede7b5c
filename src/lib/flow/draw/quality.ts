import { entropy } from '../../suspects/index.ts';
import { apart } from '../checks/separation.ts';
import { nameOf } from '../explain.ts';
import { repairKey, type PlacedSuspect, type ResolvedFlow } from '../resolve.ts';
import { trace } from '../trace.ts';
import type { Way } from './way.ts';

/** How well a flow does its work on one kind of set. */
export interface Quality {
	/** Suspects that take part. */
	suspects: number;
	/** What is not known at the start, in bits. */
	entropy: number;
	/** So many equally likely suspects would be as hard. */
	asHardAs: number;
	/** Suspects that the flow names and that no step of it parts. */
	together: { names: string[]; oneRepair: boolean }[];
}

/** What a way comes to in time. */
export interface WayTimes {
	/** Minutes until the set is expected to work, reckoned at the start; nothing where there is no step. */
	expected: number | undefined;
	/** Share of all traces that the picture follows to a verdict, 0 to 1, and their mean minutes up to it. */
	ended: { share: number; minutes: number };
}

export function qualityOf(resolved: ResolvedFlow): Quality {
	const { now, ids } = trace(resolved, { answers: [], mended: [] });
	const bits = entropy(now);
	return { suspects: ids.length - 1, entropy: bits, asHardAs: 2 ** bits, together: groupsOf(resolved) };
}

export function timesOf({ stops }: Way): WayTimes {
	const ends = stops.filter(({ kind }) => kind === 'repair' || kind === 'outside');
	const share = ends.reduce((sum, { chance }) => sum + chance, 0);
	const minutes = ends.reduce((sum, { chance, minutes }) => sum + chance * minutes, 0);
	const [first] = stops;
	return {
		expected: first?.kind === 'step' && first.expected < Infinity ? first.expected : undefined,
		ended: { share, minutes: share > 0 ? minutes / share : 0 }
	};
}

/** Suspects joined by pairs that nothing parts. */
function groupsOf(resolved: ResolvedFlow): Quality['together'] {
	const parted = apart(resolved);
	const groups: [PlacedSuspect, number][][] = [];
	resolved.suspects.forEach((placed, index) => {
		if (!placed.named) return;
		const near = groups.filter((group) => group.some(([, other]) => !parted(index, other)));
		for (const group of near) groups.splice(groups.indexOf(group), 1);
		groups.push([...near.flat(), [placed, index]]);
	});
	return groups
		.filter(({ length }) => length > 1)
		.map((group) => group.map(([placed]) => placed))
		.map((group) => ({
			names: group.map(nameOf),
			oneRepair: new Set(group.map(repairKey)).size === 1
		}));
}
