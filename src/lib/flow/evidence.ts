import { downstream, reaches, stagesOn, upstream, type Plan } from '../receiver/index.ts';
import {
	clampRow,
	healthyRow,
	LIKELIHOODS,
	residualRow,
	slipMix,
	TRUST,
	trustMix,
	wordRow,
	type LikelihoodWord
} from '../suspects/index.ts';
import { closest, type PlacedSuspect, type ResolvedFlow } from './resolve.ts';
import type { PathStep, Step } from './schema.ts';
import { PATH_LABELS, PATH_OUTCOMES, type PathOutcome } from './terms.ts';

/** Chance of a slip of pen or probe in one answer, whatever the number of outcomes. Our own choice. */
const SLIP = 0.06;
/** Share of the bad outcomes that nobody stated, on a path that is spoilt. Our own choice. */
const OTHER_BAD = 0.08;

/** How readily a part that a flow does not name shows the sign by which the flow is entered. Our own choice. */
const UNNAMED_SIGN: LikelihoodWord = 'rarely';

/** How much of the time a fault that comes and goes is away while somebody looks for it. Our own choice. */
const AWAY = 0.5;

/** What a row depends on besides step and suspect. */
export type Ground = Pick<ResolvedFlow, 'plan' | 'comesAndGoes'>;

/** P(outcome | suspect) of one step: a row for each suspect of the flow, and last the row of "not listed". */
export interface StepTable {
	outcomes: string[];
	normal: string;
	table: number[][];
}

export const isPathStep = (step: Step): step is PathStep =>
	step.kind === 'listen' || step.kind === 'inject' || step.kind === 'trace';

export const outcomesOf = (step: Step): string[] =>
	isPathStep(step) ? [...PATH_OUTCOMES] : Object.keys(step.outcomes);
export const normalOf = (step: Step): string => (isPathStep(step) ? 'good' : step.normal);

/** An answer as it stands on its button. */
export const labelOf = (step: Step, outcome: string): string =>
	isPathStep(step) ? PATH_LABELS[outcome as PathOutcome] : (step.outcomes[outcome]?.label ?? outcome);

/** The stages that a path step listens through. */
export function stagesTested(plan: Plan, step: PathStep): string[] {
	if (step.kind === 'listen') return stagesOn(plan, step.band);
	return step.kind === 'inject' ? downstream(plan, step.band, step.at) : upstream(plan, step.band, step.at);
}

/**
 * What a suspect shows when a band is listened to through these stages. A part on the way never leaves the
 * band good; sockets, contacts and tired valves rarely do, for they pass one band and spoil another. A part
 * beyond reads healthy.
 */
export function pathRow(
	plan: Plan,
	placed: PlacedSuspect,
	band: string,
	stages: readonly string[]
): number[] {
	const { suspect } = placed;
	const outcomes = [...PATH_OUTCOMES];
	const silent = suspect.bands !== undefined && !suspect.bands.includes(band);
	if (silent || !reaches(plan, placed.place, band, stages)) return healthyRow(outcomes, 'good');
	const effects = (suspect['shows-on']?.[band] ?? suspect.shows) as Partial<Record<string, LikelihoodWord>>;
	const stated = outcomes.map((o): number => (effects[o] ? LIKELIHOODS[effects[o]] : 0));
	const sum = stated.reduce((a, b) => a + b, 0);
	const good = LIKELIHOODS[suspect.patchy ? 'rarely' : 'never'];
	const others = stated.filter((p, i) => i > 0 && p === 0).length;
	const spare = others ? OTHER_BAD : 0;
	return stated.map((p, index) => {
		if (index === 0) return good;
		return (1 - good) * (p > 0 ? (p / sum) * (1 - spare) : spare / others);
	});
}

/**
 * While a fault that comes and goes is away, the set reads sound: under power, not showing is weak evidence only. Cold
 * readings find a part as it is, and a step that provokes the fault counts its own rounds.
 */
const fades = ({ comesAndGoes }: Ground, step: Step): boolean =>
	comesAndGoes && step.power !== 'unplugged' && !('provoke' in step && step.provoke);

function rowOf(ground: Ground, step: Step, placed: PlacedSuspect): number[] {
	const row = rowWhileThere(ground.plan, step, placed);
	if (!fades(ground, step)) return row;
	const sound = healthyRow(outcomesOf(step), normalOf(step));
	return row.map((chance, outcome) => (1 - AWAY) * chance + AWAY * (sound[outcome] ?? 0));
}

/** The row of a suspect while its fault is there. */
function rowWhileThere(plan: Plan, step: Step, placed: PlacedSuspect): number[] {
	const outcomes = outcomesOf(step);
	const key = closest(Object.keys(step.expect), placed);
	const healthy = healthyRow(outcomes, normalOf(step));
	if (key !== undefined)
		return wordRow(outcomes, step.expect[key] as Record<string, LikelihoodWord>, healthy);
	if (!isPathStep(step)) return healthy;
	return pathRow(plan, placed, step.band, stagesTested(plan, step));
}

/** P(outcome | suspect) of one step, kept off 0 and 1, with room for a slip. */
export const suspectRow = (ground: Ground, step: Step, placed: PlacedSuspect): number[] =>
	slipMix(clampRow(rowOf(ground, step, placed)), SLIP);

/** Tables of one flow on one set, by step and trust: they depend on nothing else and are asked for at every answer. */
const tables = new WeakMap<ResolvedFlow, Map<Step, Partial<Record<keyof typeof TRUST, StepTable>>>>();

/**
 * The table of a step, ready for the reasoning: words turned into numbers, kept off 0 and 1, room for a slip,
 * flattened for a way that is trusted less.
 */
export function stepTable(resolved: ResolvedFlow, step: Step, trust: keyof typeof TRUST = 'full'): StepTable {
	const steps = tables.get(resolved) ?? new Map<Step, Partial<Record<keyof typeof TRUST, StepTable>>>();
	const known = steps.get(step) ?? {};
	tables.set(resolved, steps.set(step, known));
	return (known[trust] ??= buildTable(resolved, step, trust));
}

function buildTable(resolved: ResolvedFlow, step: Step, trust: keyof typeof TRUST): StepTable {
	const rows = resolved.suspects.map((placed) => trustMix(suspectRow(resolved, step, placed), TRUST[trust]));
	const weights = resolved.suspects.map(({ weight }) => weight);
	return { outcomes: outcomesOf(step), normal: normalOf(step), table: [...rows, residualRow(weights, rows)] };
}

/**
 * What the complaint itself says of the suspects that the flow does not name: the product of what each band
 * would sound like. Named suspects carry the flow's own words for this symptom, so for them it is 1
 * (no answer counts twice). Scaled so that a suspect that fits the complaint best keeps its weight. Where a sign alone
 * leads to the flow no band speaks, and all who are not named are rarer alike.
 */
export function entryLikelihood(resolved: ResolvedFlow): number[] {
	const { plan, heard } = resolved;
	if (Object.keys(heard).length === 0)
		return [...resolved.suspects.map(({ named }) => (named ? 1 : LIKELIHOODS[UNNAMED_SIGN])), 1];
	const chance = (placed: PlacedSuspect) =>
		Object.entries(heard).reduce((product, [band, outcome]) => {
			const row = slipMix(pathRow(plan, placed, band, stagesOn(plan, band)), SLIP);
			return product * (row[PATH_OUTCOMES.indexOf(outcome as PathOutcome)] ?? 1);
		}, 1);
	const chances = resolved.suspects.map(chance);
	const best = Math.max(...chances, Number.MIN_VALUE);
	return [...resolved.suspects.map(({ named }, i) => (named ? 1 : (chances[i] ?? 0) / best)), 1];
}
