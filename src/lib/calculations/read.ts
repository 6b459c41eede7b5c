import type { Calculation, Problem, Way } from './define.ts';
import { keysOf } from './inputs.ts';
import { nearest } from './nearest.ts';
import { type GivenByKey, readField, type Reading } from './read-input.ts';

function unknownKeys({ id, inputs }: Calculation, given: GivenByKey): Problem[] {
	const known = Object.values(inputs).flatMap(keysOf);
	return Object.keys(given)
		.filter((key) => !known.includes(key))
		.map((key) => {
			const near = nearest(key, known);
			const cure = near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `It takes ${known.join(', ')}.`;
			return { key, message: `There is no input "${key}" in ${id}. ${cure}` };
		});
}

/** Reads what was given by key into base units by field, with every problem that a single input can have. */
export function readGiven(calculation: Calculation, given: GivenByKey): Reading {
	const into: Reading = {
		values: {},
		tolerances: {},
		echo: {},
		problems: unknownKeys(calculation, given)
	};
	for (const [field, input] of Object.entries(calculation.inputs)) readField(field, input, given, into);
	return into;
}

function missing({ inputs }: Calculation, fields: readonly string[]): Problem[] {
	return fields.flatMap((field) => {
		const input = inputs[field];
		return input ? [{ key: input.key, message: `${input.key} is missing. Give it.` }] : [];
	});
}

const lacks = (way: Way, has: (field: string) => boolean): string[] =>
	way.needs.filter((field) => !has(field));

/** The ways that lack least come first, among equals those of which most was given. */
function nearestWays(ways: readonly Way[], has: (field: string) => boolean): Way[] {
	const rank = (way: Way): number => lacks(way, has).length - way.needs.filter(has).length / 100;
	return [...ways].sort((a, b) => rank(a) - rank(b));
}

function noWay(calculation: Calculation, ways: readonly Way[], has: (field: string) => boolean): Problem[] {
	const [way, ...rest] = nearestWays(ways, has);
	if (!way) return [];
	const keys = (fields: readonly string[]): string =>
		fields.map((field) => calculation.inputs[field]?.key ?? field).join(', ');
	const others = rest.slice(0, 2).map((other) => `${keys(lacks(other, has))}, to go by ${other.title}`);
	const first = lacks(way, has);
	const instead = others.length > 0 ? `, or instead ${others.join('; or ')}` : '';
	const message = `Missing: ${keys(first)}, to go by ${way.title}. Give that${instead}.`;
	return [{ key: calculation.inputs[first[0] ?? '']?.key ?? '', message }];
}

/** Fields that belong to some way; all others may stand beside every way. */
export const fieldsOfWays = (ways: readonly Way[]): string[] => [
	...new Set(ways.flatMap(({ needs, also = [] }) => [...needs, ...also]))
];

/** Inputs that belong to another way than the one chosen would be passed over in silence: they are refused instead. */
function surplus(
	{ inputs }: Calculation,
	ways: readonly Way[],
	way: Way,
	has: (field: string) => boolean
): Problem[] {
	const alternatives = fieldsOfWays(ways);
	const welcome = [...way.needs, ...(way.also ?? [])];
	return alternatives
		.filter((field) => has(field) && !welcome.includes(field))
		.map((field) => {
			const key = inputs[field]?.key ?? field;
			const used = way.needs.map((need) => inputs[need]?.key ?? need).join(', ');
			return {
				key,
				message: `${key} is one figure too many beside ${used} (${way.title}). Leave one of them out.`
			};
		});
}

/** Whether the fields given make a complete set; in all other cases what is missing or too much. */
export function problemsOfWay(
	calculation: Calculation,
	values: Readonly<Record<string, unknown>>
): Problem[] {
	const { ways, inputs } = calculation;
	const has = (field: string): boolean => values[field] !== undefined;
	if (!ways)
		return missing(
			calculation,
			Object.keys(inputs).filter((f) => !inputs[f]?.optional && !has(f))
		);
	const way = ways.find((candidate) => candidate.needs.every(has));
	return way ? surplus(calculation, ways, way, has) : noWay(calculation, ways, has);
}
