import type { Check } from '../../../src/lib/calculations/index.ts';

const CRUMBS = 1e-9;

function near(expected: number, actual: unknown, check: Check, key: string): boolean {
	if (typeof actual !== 'number') return false;
	const absolute = check.withinAbsolute?.[key];
	const margin = absolute ?? Math.abs(expected) * (check.withinPct / 100 + CRUMBS);
	return Math.abs(actual - expected) <= margin;
}

/** Whether an output is what the check row says. Of a line of a table only the columns that the row names count. */
export function agrees(expected: unknown, actual: unknown, check: Check, key: string): boolean {
	if (typeof expected === 'number') return near(expected, actual, check, key);
	if (Array.isArray(expected)) {
		if (!Array.isArray(actual) || actual.length !== expected.length) return false;
		return expected.every((entry, i) => agrees(entry, actual[i], check, key));
	}
	if (typeof expected !== 'object' || expected === null) return expected === actual;
	return Object.entries(expected).every(([column, entry]) =>
		agrees(entry, (actual as Record<string, unknown>)[column], check, key)
	);
}

/** The outputs of a check row that differ, as `key: wanted, got`. */
export function differences(check: Check, outputs: Readonly<Record<string, unknown>>): string[] {
	return Object.entries(check.gives)
		.filter(([key, expected]) => !agrees(expected, outputs[key], check, key))
		.map(
			([key, expected]) => `${key}: wanted ${JSON.stringify(expected)}, got ${JSON.stringify(outputs[key])}`
		);
}
