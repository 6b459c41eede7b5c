import { parseAnyQuantity, unitOfKey } from '../quantity/index.ts';
import type { Plan } from '../receiver/index.ts';
import { limitsOf } from '../valves/index.ts';
import { expectedAt, type ServiceVolts } from './reading.ts';
import type { Step } from './schema.ts';

/** What is known when a step's calculation is opened. */
export interface Known {
	plan: Plan;
	service?: ServiceVolts;
	/** Readings in base units by step id; the open step's own under its own id. */
	readings: Readonly<Record<string, number>>;
}

export interface Filled {
	/** Row name -> value in the row's own unit, ready for the calculation. */
	given: Record<string, number | string>;
	/** Row name -> where it came from, in words. */
	from: Record<string, string>;
}

type Source =
	| { kind: 'reading'; of: string | undefined }
	| { kind: 'volts'; at: string }
	| { kind: 'value'; of: string }
	| { kind: 'limit'; valve: string; field: string };

const grammar: [RegExp, (groups: string[]) => Source][] = [
	[/^reading$/, () => ({ kind: 'reading', of: undefined })],
	[/^reading of ([a-z][a-z0-9-]*)$/, ([of = '']) => ({ kind: 'reading', of })],
	[/^volts at ([a-z][a-z0-9-]*\.[a-z0-9-]+)$/, ([at = '']) => ({ kind: 'volts', at })],
	[/^value of ([a-z][a-z0-9-]*\.[a-z0-9-]+)$/, ([of = '']) => ({ kind: 'value', of })],
	[
		/^limit of ([a-z][a-z0-9-]*): ([a-z0-9_]+)$/,
		([valve = '', field = '']) => ({ kind: 'limit', valve, field })
	]
];

/** Read where an input comes from; `undefined` where the words say nothing known. A number is a constant. */
export function parseFill(text: string): Source | undefined {
	for (const [pattern, make] of grammar) {
		const match = pattern.exec(text.trim());
		if (match) return make(match.slice(1));
	}
	return undefined;
}

/** Base-unit value and origin of one source, where it is known. */
function lookUp(source: Source, stepId: string, known: Known): { value: number; from: string } | undefined {
	const { plan } = known;
	if (source.kind === 'reading') {
		const value = known.readings[source.of ?? stepId];
		return value === undefined
			? undefined
			: { value, from: source.of ? `reading of ${source.of}` : 'this reading' };
	}
	if (source.kind === 'volts') {
		const expected = expectedAt(plan, source.at, known.service);
		return (
			expected && {
				value: expected.value,
				from: `${expected.basis} volts: ${plan.points[source.at]?.title ?? source.at}`
			}
		);
	}
	if (source.kind === 'value') {
		const part = plan.values[source.of];
		const parsed = part && parseAnyQuantity(part.value);
		return part && parsed?.ok
			? { value: parsed.value, from: `${part.title}, ${part.value} (marked or usual, not measured)` }
			: undefined;
	}
	return valveLimit(source, plan);
}

function valveLimit({ valve, field }: Extract<Source, { kind: 'limit' }>, plan: Plan) {
	const type = plan.valves[valve]?.type;
	const limits = type === undefined ? [] : limitsOf(type);
	for (const { block } of limits) {
		const value = Object.hasOwn(block.figures, field) ? block.figures[field] : undefined;
		if (value !== undefined)
			return { value: value * unitOfKey(field).scale, from: `limit of the ${type ?? valve}` };
	}
	return undefined;
}

/** Fill the inputs of a step's calculation with what is known; what is not stays open to be typed. */
export function fillCalculation(stepId: string, step: Step, known: Known): Filled {
	const filled: Filled = { given: {}, from: {} };
	for (const [row, said] of Object.entries(step.calculation?.fill ?? {})) {
		const source = typeof said === 'string' ? parseFill(said) : undefined;
		const found = source && lookUp(source, stepId, known);
		if (found) {
			filled.given[row] = found.value / unitOfKey(row).scale;
			filled.from[row] = found.from;
		} else if (!source) filled.given[row] = said;
	}
	return filled;
}
