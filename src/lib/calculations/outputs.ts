import { fromBase, unitOfKey } from '../quantity/index.ts';
import type { Calculation, Output, OutputValue, TableLine } from './define.ts';
import type { Values } from './judge.ts';

/** A result in base units, as the number that stands under `key`, free of binary crumbs. */
export function inUnitOf(key: string, value: number): number {
	return Number(fromBase(value, unitOfKey(key).name).toPrecision(12));
}

const mapped = <From, To>(record: Readonly<Record<string, From>>, to: (key: string, value: From) => To) =>
	Object.fromEntries(Object.entries(record).map(([key, value]) => [key, to(key, value)]));

function entryOf(key: string, entry: number | string | TableLine): unknown {
	if (typeof entry === 'number') return inUnitOf(key, entry);
	if (typeof entry === 'string') return entry;
	return mapped(entry, (column, cell) => (typeof cell === 'number' ? inUnitOf(column, cell) : cell));
}

/** An output as it stands outside: numbers in the unit of the key, cells of a table in that of their column. */
function outside(key: string, value: OutputValue): OutputValue {
	if (typeof value === 'string' || typeof value === 'boolean') return value;
	if (typeof value === 'number') return inUnitOf(key, value);
	if (Array.isArray(value)) return value.map((entry) => entryOf(key, entry as never)) as never;
	return mapped(value as Readonly<Record<string, number>>, (_, number) => inUnitOf(key, number));
}

/** The key under which an output is shown: one in a unit that was used on the way in, if there is one. */
function keyFor({ key, alsoKeys = [] }: Output, usedKeys: readonly string[]): string {
	const used = new Set(usedKeys.map((name) => unitOfKey(name).name));
	return alsoKeys.find((other) => used.has(unitOfKey(other).name)) ?? key;
}

/** The outputs that are known, by key, in the unit of the key. `usedKeys` are those of the inputs. */
export function outputsByKey(
	{ outputs }: Calculation,
	values: Values,
	usedKeys: readonly string[]
): Record<string, OutputValue> {
	const entries = Object.entries(outputs).flatMap(([field, output]) => {
		const value = values[field];
		if (value === undefined) return [];
		const key = keyFor(output, usedKeys);
		return [[key, outside(key, value)] as const];
	});
	return Object.fromEntries(entries);
}
