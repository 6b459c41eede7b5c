import { unitOfKey } from '../quantity/index.ts';
import type { Calculation, Output, OutputValue, Problem, Source } from './define.ts';
import { badness, fillSentence, judgeAll, type Judged, type Values } from './judge.ts';
import { nearest } from './nearest.ts';
import { type GivenByKey, inUnitOf, problemsOfWay, readGiven } from './read.ts';
import { calculations, calculationIds } from './registry.ts';
import { joinRows, rowsOf } from './table.ts';

/** What is said of one output. */
export interface JudgementResult {
	by: string;
	verdict: string;
	sentence: string;
	source: Source;
}

export interface Answer {
	ok: true;
	id: string;
	/** The inputs as understood, by key; a list where the sum was done for several rows. */
	given: Record<string, unknown>;
	/** By key, in the unit of the key. */
	outputs: Record<string, unknown>;
	/** The worst of the judgements; left out where nothing is to be judged. */
	verdict?: string;
	judgements: readonly JudgementResult[];
	/** What the figures are and what they mean. */
	sentence: string;
	/** What to look at, for every judgement that has something to say. */
	next: readonly string[];
	sources: readonly Source[];
}

export interface Refusal {
	ok: false;
	problems: readonly Problem[];
}

interface Row {
	echo: Record<string, string>;
	values: Values;
	outputs: Record<string, OutputValue>;
	judged: readonly Judged[];
}

/** The key under which an output is shown: one in a unit that was used on the way in, if there is one. */
function keyFor({ key, alsoKeys = [] }: Output, usedKeys: readonly string[]): string {
	const used = new Set(usedKeys.map((name) => unitOfKey(name).name));
	return alsoKeys.find((other) => used.has(unitOfKey(other).name)) ?? key;
}

function outputsByKey(calculation: Calculation, values: Values, usedKeys: readonly string[]): Row['outputs'] {
	const entries = Object.entries(calculation.outputs).flatMap(([field, output]) => {
		const value = values[field];
		if (value === undefined) return [];
		const key = keyFor(output, usedKeys);
		return [[key, typeof value === 'number' ? inUnitOf(key, value) : value] as const];
	});
	return Object.fromEntries(entries);
}

function runRow(calculation: Calculation, given: GivenByKey): Row | Refusal {
	const { values, echo, problems } = readGiven(calculation, given);
	// One problem at a time is enough where an input could not be read: its field would be reported as missing too.
	if (problems.length > 0) return { ok: false, problems };
	const lacking = problemsOfWay(calculation, values);
	if (lacking.length > 0) return { ok: false, problems: lacking };
	const refused = calculation.refuse?.(values as never);
	if (refused) return { ok: false, problems: [refused] };
	const results = calculation.formula(values as never);
	const outputs = outputsByKey(calculation, results, Object.keys(echo));
	return { echo, values: results, outputs, judged: judgeAll(calculation, results) };
}

const isRefusal = (row: Row | Refusal): row is Refusal => 'ok' in row;

/** The row with the worst verdict speaks for all. */
function worstOf(calculation: Calculation, rows: readonly Row[]): Row | undefined {
	const rank = (row: Row): number => badness(calculation, row.judged[0]?.verdict ?? '');
	return [...rows].sort((a, b) => rank(b) - rank(a))[0];
}

function wordsOf(calculation: Calculation, { values, judged }: Row): string {
	const figures = calculation.summary.flatMap(
		(template) => fillSentence(calculation, template, values) ?? []
	);
	return [...judged.map(({ sentence }) => sentence), ...figures].join(' ');
}

const unique = (texts: readonly string[]): string[] => [...new Set(texts)];

function answer(calculation: Calculation, rows: readonly Row[], speaker: Row): Answer {
	const verdict = speaker.judged[0]?.verdict;
	const steps = speaker.judged.flatMap(
		(one) => calculation.verdicts?.find((row) => row.verdict === one.verdict)?.next ?? []
	);
	return {
		ok: true,
		id: calculation.id,
		given: joinRows(rows.map(({ echo }) => echo)),
		outputs: joinRows(rows.map(({ outputs }) => outputs)),
		...(verdict === undefined ? {} : { verdict }),
		judgements: speaker.judged.map(({ by, verdict: of, sentence, band }) => ({
			by,
			verdict: of,
			sentence,
			source: band.source
		})),
		sentence: wordsOf(calculation, speaker),
		next: unique(steps),
		sources: calculation.sources
	};
}

/** Runs a calculation on inputs by key. Everything that a person can get wrong comes back as problems. */
export function runOn(calculation: Calculation, given: GivenByKey): Answer | Refusal {
	const table = rowsOf(calculation, given);
	if ('problem' in table) return { ok: false, problems: [table.problem] };
	const rows = table.rows.map((row) => runRow(calculation, row));
	const refusal = rows.find(isRefusal);
	if (refusal) return refusal;
	const done = rows.filter((row): row is Row => !isRefusal(row));
	const speaker = worstOf(calculation, done);
	if (!speaker) throw new Error(`${calculation.id}: no row to run`);
	return answer(calculation, done, speaker);
}

/** The calculation of that id; undefined when there is none. */
export function calculationOf(id: string): Calculation | undefined {
	return Object.hasOwn(calculations, id) ? (calculations as Record<string, Calculation>)[id] : undefined;
}

/**
 * Runs the calculation `id` on inputs by key: `runCalculation('resistor-drop', { R_ohm: 1200, V: 60 })`. Numbers are in the unit
 * of their key; text such as `4k7` is read as the trade writes it; a list does the sum once for each entry.
 */
export function runCalculation(id: string, given: GivenByKey): Answer | Refusal {
	const calculation = calculationOf(id);
	if (calculation) return runOn(calculation, given);
	const near = nearest(id, calculationIds);
	const cure =
		near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `Known: ${calculationIds.join(', ')}.`;
	return { ok: false, problems: [{ key: 'id', message: `There is no calculation "${id}". ${cure}` }] };
}
