import type { Calculation, OutputValue, Problem } from './define.ts';
import { type Judged, judgeAll, type Values } from './judge.ts';
import { inUnitOf, outputsByKey } from './outputs.ts';
import { problemsOfWay, readGiven } from './read.ts';
import type { GivenByKey } from './read-input.ts';
import { movedBy, otherVerdicts, type Spreads, spreadsOf } from './spread.ts';

/** The sum done once. */
export interface Row {
	/** Inputs by field, in base units. */
	given: Readonly<Record<string, unknown>>;
	/** Inputs by key, as understood. */
	echo: Record<string, string>;
	values: Values;
	outputs: Record<string, OutputValue>;
	spreads: Spreads;
	/** By key, in the unit of the key. */
	spreadsByKey: Record<string, number>;
	judged: readonly Judged[];
	mayBe: readonly string[];
}

export interface Refusal {
	ok: false;
	problems: readonly Problem[];
}

export const isRefusal = (row: object): row is Refusal => 'problems' in row;

const refusal = (problems: readonly Problem[]): Refusal => ({ ok: false, problems });

function spreadsByKey(
	{ outputs }: Calculation,
	spreads: Spreads,
	shown: Row['outputs']
): Row['spreadsByKey'] {
	const entries = Object.entries(spreads).flatMap(([field, spread]) => {
		const output = outputs[field];
		const key = output && [output.key, ...(output.alsoKeys ?? [])].find((name) => name in shown);
		return key ? [[key, inUnitOf(key, spread)] as const] : [];
	});
	return Object.fromEntries(entries);
}

/** Runs a calculation on one set of inputs: no list in the place of a single value. */
export function runRow(calculation: Calculation, byKey: GivenByKey): Row | Refusal {
	const { values: given, tolerances, echo, problems } = readGiven(calculation, byKey);
	// One problem at a time is enough where an input could not be read: its field would be reported as missing too.
	if (problems.length > 0) return refusal(problems);
	const lacking = problemsOfWay(calculation, given);
	if (lacking.length > 0) return refusal(lacking);
	const refused = calculation.refuse?.(given as never);
	if (refused) return refusal([refused]);
	const values = calculation.formula(given as never) as Values;
	const outputs = outputsByKey(calculation, values, Object.keys(echo));
	const moved = movedBy(calculation, given, tolerances, values);
	const spreads = spreadsOf(moved, values);
	const judged = judgeAll(calculation, values, spreads);
	const reached = judged.map(({ verdict }) => verdict);
	const mayBe = otherVerdicts(calculation, values, moved, reached);
	return {
		given,
		echo,
		values,
		outputs,
		spreads,
		spreadsByKey: spreadsByKey(calculation, spreads, outputs),
		judged,
		mayBe
	};
}
