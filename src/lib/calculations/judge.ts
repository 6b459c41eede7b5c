import { printQuantity, unitOfKey } from '../quantity/index.ts';
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

function printed(calculation: Calculation, field: string, value: OutputValue): string {
	if (typeof value !== 'number') return String(value);
	const { key = field, digits = 3 } = calculation.outputs[field] ?? {};
	return printQuantity(value, unitOfKey(key).unit, { digits });
}

/** Fills `{field}` with the printed output; undefined when one of them is not known. */
export function fillSentence(calculation: Calculation, template: string, values: Values): string | undefined {
	const fields = [...template.matchAll(/\{(\w+)\}/g)].map((match) => match[1] ?? '');
	if (fields.some((field) => values[field] === undefined)) return undefined;
	return template.replace(/\{(\w+)\}/g, (_, field: string) =>
		printed(calculation, field, values[field] ?? '')
	);
}

const holds = ({ upTo, below }: Band, value: number): boolean =>
	(upTo === undefined || value <= upTo) && (below === undefined || value < below);

function judgeOne(calculation: Calculation, { by, bands }: Judgement, values: Values): Judged[] {
	const field = [by].flat().find((candidate) => values[candidate] !== undefined);
	const value = field === undefined ? undefined : values[field];
	if (field === undefined || typeof value !== 'number') return [];
	const band = bands.find((candidate) => holds(candidate, value));
	if (!band) throw new Error(`${calculation.id}: no band for ${field} at ${value}`);
	const sentence = fillSentence(calculation, band.says, values) ?? '';
	return [{ by: calculation.outputs[field]?.key ?? field, verdict: band.verdict, sentence, band }];
}

/** How bad a verdict is: its place in the calculation's own order, 0 the best. */
export function badness(calculation: Calculation, verdict: string): number {
	return calculation.verdicts?.findIndex((row) => row.verdict === verdict) ?? -1;
}

/** Every judgement whose output is known, the worst first. */
export function judgeAll(calculation: Calculation, values: Values): Judged[] {
	const judged = (calculation.judge ?? []).flatMap((judgement) => judgeOne(calculation, judgement, values));
	return judged.sort((a, b) => badness(calculation, b.verdict) - badness(calculation, a.verdict));
}
