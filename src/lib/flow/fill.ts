import { parseAnyQuantity, unitOfKey } from '../quantity/index.ts';
import type { Plan } from '../receiver/index.ts';
import { findValve, limitsOf } from '../valves/index.ts';
import { BASIS_WORDS, expectedAt, type ServiceVolts } from './reading.ts';
import type { Step } from './schema.ts';

/** What is known when a step's calculation is opened. */
export interface Known {
	plan: Plan;
	service?: ServiceVolts;
	/** Readings in base units by step id; the open step's own under its own id. */
	readings: Readonly<Record<string, number>>;
	/** Volts at the wall today. */
	mains?: number;
	/** Resistance of the meter on its volts ranges, ohm. */
	meter?: number;
}

/** A row of a typed table, by column key. */
export type FilledRow = Record<string, number | string>;

export interface Filled {
	/** Input key -> value in the key's own unit, several of them, or rows; ready for the calculation. */
	given: Record<string, number | string | (number | string)[] | FilledRow[]>;
	/** Row name -> where it came from, in words. */
	from: Record<string, string>;
}

type Source =
	| { kind: 'reading'; of: string | undefined }
	| { kind: 'volts'; at: string }
	| { kind: 'value'; of: string }
	| { kind: 'limit'; valve: string; field: string }
	| { kind: 'heater'; valve: string; field: 'volts' | 'amps' }
	| { kind: 'mains' }
	| { kind: 'meter' };

const grammar: [RegExp, (groups: string[]) => Source][] = [
	[/^reading$/, () => ({ kind: 'reading', of: undefined })],
	[/^reading of ([a-z][a-z0-9-]*)$/, ([of = '']) => ({ kind: 'reading', of })],
	[/^volts at ([a-z][a-z0-9-]*\.[a-z0-9-]+)$/, ([at = '']) => ({ kind: 'volts', at })],
	[/^value of ([a-z][a-z0-9-]*\.[a-z0-9-]+)$/, ([of = '']) => ({ kind: 'value', of })],
	[
		/^limit of ([a-z][a-z0-9-]*): ([a-z0-9_]+)$/,
		([valve = '', field = '']) => ({ kind: 'limit', valve, field })
	],
	[
		/^heater (volts|amps) of ([a-z][a-z0-9-]*)$/,
		([field, valve = '']) => ({ kind: 'heater', valve, field: field === 'amps' ? 'amps' : 'volts' })
	],
	[/^mains$/, () => ({ kind: 'mains' })],
	[/^meter$/, () => ({ kind: 'meter' })]
];

/** Read where an input comes from; `undefined` where the words say nothing known. A number is a constant. */
export function parseFill(text: string): Source | undefined {
	for (const [pattern, make] of grammar) {
		const match = pattern.exec(text.trim());
		if (match) return make(match.slice(1));
	}
	return undefined;
}

interface Origin {
	/** In base units. */
	value: number;
	from: string;
}

const originOf = (value: number | undefined, from: string): Origin | undefined =>
	value === undefined ? undefined : { value, from };

function pointVolts(at: string, { plan, service }: Known): Origin | undefined {
	const expected = expectedAt(plan, at, service);
	return (
		expected &&
		originOf(expected.value, `${BASIS_WORDS[expected.basis]} volts: ${plan.points[at]?.title ?? at}`)
	);
}

function partValue(of: string, { plan }: Known): Origin | undefined {
	const part = plan.values[of];
	const parsed = part && parseAnyQuantity(part.value);
	return part && parsed?.ok
		? originOf(parsed.value, `${part.title}, ${part.value} (marked or usual, not measured)`)
		: undefined;
}

function valveHeater(valve: string, field: 'volts' | 'amps', { plan }: Known): Origin | undefined {
	const type = plan.valves[valve]?.type;
	const found = type === undefined ? undefined : findValve(type);
	return found?.ok ? originOf(found.valve.heater[field], `heater of the ${found.valve.type}`) : undefined;
}

/** Base-unit value and origin of one source, where it is known. */
function lookUp(source: Source, stepId: string, all: Known): Origin | undefined {
	switch (source.kind) {
		case 'reading':
			return originOf(
				all.readings[source.of ?? stepId],
				source.of ? `reading of ${source.of}` : 'this reading'
			);
		case 'volts':
			return pointVolts(source.at, all);
		case 'value':
			return partValue(source.of, all);
		case 'limit':
			return valveLimit(source, all.plan);
		case 'heater':
			return valveHeater(source.valve, source.field, all);
		case 'mains':
			return originOf(all.mains, 'the mains of this job');
		case 'meter':
			return originOf(all.meter, 'the meter of this job');
	}
}

function valveLimit({ valve, field }: Extract<Source, { kind: 'limit' }>, plan: Plan): Origin | undefined {
	const type = plan.valves[valve]?.type;
	const limits = type === undefined ? [] : limitsOf(type);
	for (const { block } of limits) {
		const value = Object.hasOwn(block.figures, field) ? block.figures[field] : undefined;
		if (value !== undefined)
			return { value: value * unitOfKey(field).scale, from: `limit of the ${type ?? valve}` };
	}
	return undefined;
}

interface Found {
	value: number | string;
	from?: string;
}

/** What was said for a key, in the unit of the key: a number or a word itself, or what stands where it points to. */
function find(key: string, said: string | number, stepId: string, known: Known): Found | undefined {
	const source = typeof said === 'string' ? parseFill(said) : undefined;
	if (!source) return { value: said };
	const found = lookUp(source, stepId, known);
	return found && { value: found.value / unitOfKey(key).scale, from: found.from };
}

type Fill = NonNullable<Step['calculation']>['fill'][string];
type Value = Filled['given'][string];
type Finding = { value: Value; from: string[] } | undefined;

/** Rows keep the cells that are known; the others are typed. */
function findRows(rows: readonly Readonly<Record<string, string | number>>[], stepId: string, known: Known) {
	const from: string[] = [];
	const value = rows.map((row) => {
		const cells = Object.entries(row).flatMap(([key, said]) => {
			const found = find(key, said, stepId, known);
			if (found?.from !== undefined) from.push(found.from);
			return found ? [[key, found.value] as const] : [];
		});
		return Object.fromEntries(cells);
	});
	return { value, from };
}

/** Several values for one sum are all there or none: one that is missing would make the sum wrong. */
function findAll(key: string, list: readonly (string | number)[], stepId: string, known: Known): Finding {
	const found = list.map((said) => find(key, said, stepId, known)).filter((one) => one !== undefined);
	if (found.length < list.length) return undefined;
	return { value: found.map(({ value }) => value), from: found.flatMap(({ from }) => from ?? []) };
}

function findFill(key: string, said: Fill, stepId: string, known: Known): Finding {
	if (!Array.isArray(said)) {
		const found = find(key, said, stepId, known);
		return found && { value: found.value, from: found.from === undefined ? [] : [found.from] };
	}
	const rows = said.filter((one) => typeof one === 'object');
	if (rows.length > 0) return findRows(rows, stepId, known);
	return findAll(
		key,
		said.filter((one) => typeof one !== 'object'),
		stepId,
		known
	);
}

/** Fill the inputs of a step's calculation with what is known; what is not stays open to be typed. */
export function fillCalculation(stepId: string, step: Step, known: Known): Filled {
	const filled: Filled = { given: {}, from: {} };
	for (const [key, said] of Object.entries(step.calculation?.fill ?? {})) {
		const found = findFill(key, said, stepId, known);
		if (!found) continue;
		filled.given[key] = found.value;
		if (found.from.length > 0) filled.from[key] = [...new Set(found.from)].join('; ');
	}
	return filled;
}
