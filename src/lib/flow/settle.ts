import { bestWay, NOT_LISTED, type Trace } from './trace.ts';
import { stepTable, type StepTable } from './evidence.ts';
import { INSTRUMENTS, type Instrument } from './terms.ts';
import type { Step } from './schema.ts';

/** What would settle a suspect: the steps that part it from the others, and what stands in their way. */

export interface Settler {
	step: string;
	title: string;
	minutes: number;
	/** What its answer is expected to say for the suspect where that is the fault: doublings of its odds. */
	bits: number;
	/** What the bench lacks for the easiest way; empty where it lacks nothing. */
	lacks: Instrument[];
	/** Why it was left out before, in the restorer's words. */
	reason?: string;
}

/** A step settles something where it is expected to double the odds at least. Our own choice. */
const DOUBLES = 1;

/** The way that wants the fewest instruments beyond those on the bench, and which. */
function lacking(step: Step, bench: readonly Instrument[] | undefined): Instrument[] {
	if (!bench || bestWay(step, bench) !== undefined) return [];
	const lists = step.ways.map(({ needs }) => needs.filter((need) => !bench.includes(need)));
	return lists.sort((a, b) => a.length - b.length)[0] ?? [];
}

/** The chance of each outcome of a step as the suspects stand: asked for by every row of the list. */
const foretold = new WeakMap<Trace, Map<Step, number[]>>();

function chancesOf(trace: Trace, step: Step, { outcomes, table }: StepTable): number[] {
	const known = foretold.get(trace) ?? new Map<Step, number[]>();
	foretold.set(trace, known);
	const chances =
		known.get(step) ??
		outcomes.map((_, outcome) =>
			table.reduce((sum, row, place) => sum + (row[outcome] ?? 0) * (trace.now[place] ?? 0), 0)
		);
	known.set(step, chances);
	return chances;
}

/**
 * What a step says for a suspect where that is the fault, against the mean of the others.
 *
 *     bits = sum over outcomes of P(o | suspect) * log2(P(o | suspect) / P(o | others))
 */
function bitsFor(trace: Trace, index: number, step: Step): number {
	const table = stepTable(trace.resolved, step);
	const own = trace.now[index] ?? 0;
	const all = chancesOf(trace, step, table);
	return (table.table[index] ?? []).reduce((bits, chance, outcome) => {
		const others = own < 1 ? ((all[outcome] ?? 0) - own * chance) / (1 - own) : chance;
		return others > 0 && chance > 0 ? bits + chance * Math.log2(chance / others) : bits;
	}, 0);
}

/**
 * Steps not answered yet that would tell a suspect from the others, the most telling first.
 *
 * @param answered steps whose answer counts
 * @param unavailable steps that were left out, with the reason
 */
export function settlersOf(
	trace: Trace,
	suspect: string,
	{
		answered,
		unavailable = [],
		instruments
	}: {
		answered: ReadonlySet<string>;
		unavailable?: readonly { step: string; reason: string }[];
		instruments?: readonly Instrument[];
	}
): Settler[] {
	const index = trace.ids.indexOf(suspect);
	if (index < 0 || suspect === NOT_LISTED) return [];
	return Object.entries(trace.resolved.steps)
		.filter(([id]) => !answered.has(id))
		.map(([id, step]): Settler => {
			const reason = unavailable.find((left) => left.step === id)?.reason;
			return {
				step: id,
				title: step.title,
				minutes: step.minutes,
				bits: bitsFor(trace, index, step),
				lacks: lacking(step, instruments),
				...(reason === undefined ? {} : { reason })
			};
		})
		.filter(({ bits }) => bits >= DOUBLES)
		.sort((a, b) => b.bits - a.bits || a.step.localeCompare(b.step));
}

/** What stands in the way of a step, in words; empty where nothing does. */
export function inTheWay({ lacks, reason }: Pick<Settler, 'lacks' | 'reason'>): string {
	if (lacks.length > 0)
		return `wants ${lacks.map((name) => INSTRUMENTS[name].replace(/^[A-Z](?=[a-z])/, (first) => first.toLowerCase())).join(' and ')}, which is not on this bench`;
	return reason === undefined ? '' : `left out before: ${reason}`;
}
