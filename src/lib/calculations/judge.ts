import { printQuantity, printWithSpread, unitOfKey } from '../quantity/index.ts';
import type { Band, Calculation, Judgement, OutputValue } from './define.ts';

/** Outputs by field, in base units. */
export type Values = Readonly<Record<string, OutputValue | undefined>>;

export interface Judged {
	/** Key of the output that was judged. */
	by: string;
	verdict: string;
	sentence: string;
	band: Band;
}

function printed(
	calculation: Calculation,
	field: string,
	value: OutputValue,
	spread: number | undefined
): string {
	const { key = field, digits = 3 } = calculation.outputs[field] ?? {};
	const { unit } = unitOfKey(key);
	if (Array.isArray(value))
		return value
			.map((one: unknown) => (typeof one === 'number' ? printQuantity(one, unit, { digits }) : String(one)))
			.join(', ');
	if (typeof value === 'boolean') return value ? 'yes' : 'no';
	if (typeof value !== 'number') return String(value);
	return spread === undefined
		? printQuantity(value, unit, { digits })
		: printWithSpread(value, spread, unit, { digits });
}

/** Fills `{field}` with the printed output, ± its spread; undefined when one of them is not known. */
export function fillSentence(
	calculation: Calculation,
	template: string,
	values: Values,
	spreads: Readonly<Record<string, number>> = {}
): string | undefined {
	const fields = [...template.matchAll(/\{(\w+)\}/g)].map((match) => match[1] ?? '');
	if (fields.some((field) => values[field] === undefined)) return undefined;
	return template.replace(/\{(\w+)\}/g, (_, field: string) =>
		printed(calculation, field, values[field] ?? '', spreads[field])
	);
}

/** Read out one after the other; more nobody listens to. */
const READ_OUT = 4;

/** Figures by their labels, for answers that no sentence was written for. */
export function readOut(
	calculation: Calculation,
	values: Values,
	spreads: Readonly<Record<string, number>> = {}
): string[] {
	const known = Object.entries(calculation.outputs).filter(([field]) => values[field] !== undefined);
	return known.slice(0, READ_OUT).map(([field, { label }]) => {
		const value = values[field] ?? '';
		const table = typeof value === 'object' && (!Array.isArray(value) || typeof value[0] === 'object');
		return table
			? `${label}: see the table.`
			: `${label}: ${printed(calculation, field, value, spreads[field])}.`;
	});
}

function holds({ upTo, below, is }: Band, value: number | string): boolean {
	if (is !== undefined) return value === is;
	if (typeof value === 'string') return upTo === undefined && below === undefined;
	// Free of binary crumbs: 1 Mohm with 0.1 uF is 0.1 s, not a hair less.
	const clean = Number(value.toPrecision(12));
	return (upTo === undefined || clean <= upTo) && (below === undefined || clean < below);
}

/** The first output of the judgement that is known. */
export const judgedField = ({ by }: Judgement, values: Values): string | undefined =>
	[by].flat().find((candidate) => values[candidate] !== undefined);

/** The band that a value falls into; the last one takes the rest, so that there always is one. */
export function bandFor({ id }: Calculation, { by, bands }: Judgement, value: number | string): Band {
	const band = bands.find((candidate) => holds(candidate, value));
	if (!band) throw new Error(`${id}: no band for ${[by].flat().join(', ')} at ${value}`);
	return band;
}

function judgeOne(
	calculation: Calculation,
	judgement: Judgement,
	values: Values,
	spreads: Readonly<Record<string, number>>
): Judged[] {
	const field = judgedField(judgement, values);
	const value = field === undefined ? undefined : values[field];
	if (field === undefined || (typeof value !== 'number' && typeof value !== 'string')) return [];
	const band = bandFor(calculation, judgement, value);
	const sentence = fillSentence(calculation, band.says, values, spreads) ?? '';
	return [{ by: calculation.outputs[field]?.key ?? field, verdict: band.verdict, sentence, band }];
}

/** How bad a verdict is: its place in the calculation's own order, 0 the best. */
export function badness(calculation: Calculation, verdict: string): number {
	return calculation.verdicts?.findIndex((row) => row.verdict === verdict) ?? -1;
}

/** Every judgement whose output is known, the worst first. */
export function judgeAll(
	calculation: Calculation,
	values: Values,
	spreads: Readonly<Record<string, number>> = {}
): Judged[] {
	const judged = (calculation.judge ?? []).flatMap((judgement) =>
		judgeOne(calculation, judgement, values, spreads)
	);
	return judged.sort((a, b) => badness(calculation, b.verdict) - badness(calculation, a.verdict));
}
