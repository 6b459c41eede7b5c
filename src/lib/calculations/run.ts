import type { Calculation, Source } from './define.ts';
import { badness, fillSentence, readOut } from './judge.ts';
import { nearest } from './nearest.ts';
import type { Picture } from './picture.ts';
import type { GivenByKey } from './read-input.ts';
import { calculations, calculationIds } from './registry.ts';
import { isRefusal, type Refusal, type Row, runRow } from './run-row.ts';
import { joinRows, rowsOf } from './table.ts';
import { verdictTitle } from './verdict-title.ts';

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
	/** How far an output may be off either way, by the tolerances given; by key, in the unit of the key. */
	spreads?: Record<string, unknown>;
	/** The worst of the judgements; left out where nothing is to be judged. */
	verdict?: string;
	/** Other verdicts that the tolerances would allow. */
	mayBe?: readonly string[];
	judgements: readonly JudgementResult[];
	/** What the figures are and what they mean. */
	sentence: string;
	/** What to look at, for every judgement that has something to say. */
	next: readonly string[];
	sources: readonly Source[];
}

/** The row with the worst verdict speaks for all. */
function worstOf(calculation: Calculation, rows: readonly Row[]): Row | undefined {
	const rank = (row: Row): number => badness(calculation, row.judged[0]?.verdict ?? '');
	return [...rows].sort((a, b) => rank(b) - rank(a))[0];
}

function wordsOf(calculation: Calculation, { values, spreads, judged, mayBe }: Row): string {
	const figures = calculation.summary.flatMap(
		(template) => fillSentence(calculation, template, values, spreads) ?? []
	);
	const others = mayBe.map((verdict) => `“${verdictTitle(calculation, verdict)}”`).join(' or ');
	const doubt = others ? [`Within the tolerance given it may as well be ${others}.`] : [];
	const spoken = [...judged.map(({ sentence }) => sentence), ...doubt, ...figures];
	return (spoken.length > 0 ? spoken : readOut(calculation, values, spreads)).join(' ');
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
		...(rows.some((row) => Object.keys(row.spreads).length > 0) && {
			spreads: joinRows(rows.map((row) => row.spreadsByKey))
		}),
		...(verdict === undefined ? {} : { verdict }),
		...(speaker.mayBe.length > 0 && { mayBe: speaker.mayBe }),
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

function rowsRun(calculation: Calculation, given: GivenByKey): Row[] | Refusal {
	const table = rowsOf(calculation, given);
	if ('problem' in table) return { ok: false, problems: [table.problem] };
	const rows = table.rows.map((row) => runRow(calculation, row));
	return rows.find(isRefusal) ?? rows.filter((row): row is Row => !isRefusal(row));
}

/** Runs a calculation on inputs by key. Everything that a person can get wrong comes back as problems. */
export function runOn(calculation: Calculation, given: GivenByKey): Answer | Refusal {
	const rows = rowsRun(calculation, given);
	if (isRefusal(rows)) return rows;
	const speaker = worstOf(calculation, rows);
	if (!speaker) throw new Error(`${calculation.id}: no row to run`);
	return answer(calculation, rows, speaker);
}

/** What there is to draw for these inputs, of several rows for the worst; nothing where the sum cannot be done. */
export function picturesOf(calculation: Calculation, given: GivenByKey): readonly Picture[] {
	const rows = rowsRun(calculation, given);
	const speaker = isRefusal(rows) ? undefined : worstOf(calculation, rows);
	return (speaker && calculation.pictures?.(speaker.given as never, speaker.values)) ?? [];
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
