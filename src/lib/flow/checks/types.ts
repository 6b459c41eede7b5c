import type { Finding } from '../finding.ts';
import type { Library, Origins } from '../library.ts';
import type { Step } from '../schema.ts';

/** One rule on the library that a schema cannot see. */
export interface Check {
	code: string;
	description: string;
	level: Finding['level'];
	/** What it looks at: each flow by itself, or everything that is shared. */
	scope: 'flow' | 'library';
	check: (library: Library, origins: Origins) => Complaint[];
}

/** A finding before its code and level are added. */
export type Complaint = Omit<Finding, 'code' | 'level'>;

/** A step with the place where it was written: shared, or a flow's own. */
export interface WrittenStep {
	id: string;
	step: Step;
	/** Steps that it can name besides the shared ones: those of its own flow. */
	beside: readonly string[];
	at: (path?: readonly PropertyKey[], key?: boolean) => { file: string; line: number; column: number };
}

export function allSteps(library: Library, origins: Origins): WrittenStep[] {
	const shared = Object.entries(library.steps).map(([id, step]) => ({
		id,
		step,
		beside: [],
		at: (path: readonly PropertyKey[] = [], key = false) => origins.at('steps', id, path, key)
	}));
	const own = Object.values(library.flows).flatMap((flow) =>
		Object.entries(flow.own.steps).map(([id, step]) => ({
			id,
			step,
			beside: Object.keys(flow.own.steps),
			at: (path: readonly PropertyKey[] = [], key = false) =>
				origins.at('flows', flow.id, ['own', 'steps', id, ...path], key)
		}))
	);
	return [...shared, ...own];
}

/** "Known: ..." with the nearest names first, at most eight. */
export function knownNames(wanted: string, names: Iterable<string>): string {
	const ranked = [...names].sort((a, b) => likeness(b, wanted) - likeness(a, wanted) || a.localeCompare(b));
	return ranked.length
		? `Nearest known names: ${ranked.slice(0, 8).join(', ')}.`
		: 'Nothing of that kind is known yet.';
}

const pairs = (text: string) => new Set([...text].slice(1).map((c, i) => `${text[i] ?? ''}${c}`));

function likeness(a: string, b: string): number {
	const [one, other] = [pairs(a), pairs(b)];
	const shared = [...one].filter((pair) => other.has(pair)).length;
	return (2 * shared) / (one.size + other.size || 1);
}
