import { groupExponent } from '../suspects/index.ts';
import type { StepTable } from './evidence.ts';
import type { Step } from './schema.ts';
import { PROVOCATIONS, type Provocation, type Provoked } from './terms.ts';

/**
 * A fault that comes and goes is provoked round by round. The sheet of a step counts, for each provocation, the rounds
 * tried and those in which the fault came or went; the step's own row speaks of one round.
 */

/** A step with a sheet: one outcome is normal, the other says that the fault answered. */
export type ProvokingStep = Extract<Step, { kind: 'observe' | 'adjust' }> & { provoke: Provocation[] };

export const isProvoking = (step: Step): step is ProvokingStep =>
	(step.kind === 'observe' || step.kind === 'adjust') && step.provoke !== undefined;

/** No sheet of a real bench comes near it. */
const MOST_ROUNDS = 99;

const tallies = (provoked: Provoked) =>
	Object.entries(provoked) as [Provocation, readonly [number, number]][];

const countProblem = (name: string, tried: number, came: number): string | undefined => {
	if (![tried, came].every((count) => Number.isInteger(count) && count >= 0 && count <= MOST_ROUNDS))
		return `"${name}": write whole rounds from 0 to ${MOST_ROUNDS}.`;
	if (came > tried)
		return `"${name}": the fault came in ${came} rounds of ${tried}. Count every round that you tried.`;
	return undefined;
};

/** What is wrong with a sheet, in a sentence with the remedy; `undefined` where nothing is. */
export function sheetProblem(step: Step, provoked: Provoked): string | undefined {
	if (!isProvoking(step)) return `"${step.title}" has no sheet. Choose one of its answers.`;
	const foreign = tallies(provoked).find(([name]) => !step.provoke.includes(name));
	if (foreign)
		return `"${step.title}" does not ask to ${PROVOCATIONS[foreign[0]].toLowerCase()}. Count it at the step that does.`;
	return tallies(provoked)
		.map(([name, [tried, came]]) => countProblem(PROVOCATIONS[name], tried, came))
		.find(Boolean);
}

const roundsOf = (provoked: Provoked): number =>
	tallies(provoked).reduce((sum, [, [tried]]) => sum + tried, 0);

/** The outcome that a sheet means; `undefined` while no round was tried. */
export function outcomeOfSheet(step: ProvokingStep, provoked: Provoked): string | undefined {
	if (roundsOf(provoked) === 0) return undefined;
	const answered = tallies(provoked).some(([, [, came]]) => came > 0);
	const other = Object.keys(step.outcomes).find((id) => id !== step.normal);
	return answered ? other : step.normal;
}

/**
 * P(sheet | hypothesis). Rounds of one provocation share their cause of error (the same hand, the same place that was
 * missed), so the second and each further one counts half; different provocations count in full.
 *
 *     L_i = product over provocations of (p_i ^ came * (1 - p_i) ^ (tried - came)) ^ groupExponent(tried)
 *
 * @returns `undefined` where no round was tried
 */
export function tallyLikelihood(
	{ outcomes, normal, table }: StepTable,
	provoked: Provoked
): number[] | undefined {
	if (roundsOf(provoked) === 0) return undefined;
	const quiet = outcomes.indexOf(normal);
	return table.map((row) => {
		const stays = row[quiet] ?? 0;
		return tallies(provoked).reduce((product, [, [tried, came]]) => {
			if (tried === 0) return product;
			return product * ((1 - stays) ** came * stays ** (tried - came)) ** groupExponent(tried);
		}, 1);
	});
}

/** A sheet in words: `tapped 3 times, the fault came 2 times`. */
export const sheetWords = (provoked: Provoked): string =>
	tallies(provoked)
		.filter(([, [tried]]) => tried > 0)
		.map(([name, [tried, came]]) => `${PROVOCATIONS[name]}: ${came} of ${tried} rounds`)
		.join('; ');
