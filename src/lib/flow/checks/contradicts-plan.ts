import { reaches, type Plan } from '../../receiver/index.ts';
import { LIKELIHOODS, type LikelihoodWord } from '../../suspects/index.ts';
import { isPathStep, stagesTested } from '../evidence.ts';
import type { Library } from '../library.ts';
import { closest, placeSuspects, type PlacedSuspect } from '../resolve.ts';
import type { PathStep } from '../schema.ts';
import { allSteps, type Check, type WrittenStep } from './types.ts';

/** The outcome that a row makes the likeliest. */
export const likeliest = (row: Readonly<Record<string, LikelihoodWord>>): string | undefined =>
	Object.entries(row).sort((a, b) => LIKELIHOODS[b[1]] - LIKELIHOODS[a[1]])[0]?.[0];

const onPath = (plan: Plan, step: PathStep, { place, suspect }: PlacedSuspect): boolean =>
	(!suspect.bands || suspect.bands.includes(step.band)) &&
	reaches(plan, place, step.band, stagesTested(plan, step));

/** Whether the plans put the suspects of a key on the way of the signal: all of them, none, or some. */
function waysOf(
	plans: readonly (readonly [Plan, PlacedSuspect[]])[],
	step: PathStep,
	key: string
): boolean[] {
	const keys = Object.keys(step.expect);
	return plans.flatMap(([plan, suspects]) => {
		const fits = plan.bands[step.band] && (!('at' in step) || plan.points[step.at]);
		if (!fits) return [];
		return suspects
			.filter((placed) => closest(keys, placed) === key && !placed.suspect.patchy)
			.map((placed) => onPath(plan, step, placed));
	});
}

function complaints(library: Library, { id, step, at }: WrittenStep, plans: Parameters<typeof waysOf>[0]) {
	if (!isPathStep(step)) return [];
	return Object.entries(step.expect).flatMap(([key, row]) => {
		const ways = waysOf(plans, step, key);
		const heard = likeliest(row as Record<string, LikelihoodWord>);
		const against = heard === 'good' ? (on: boolean) => on : (on: boolean) => !on;
		if (heard === undefined || !ways.length || !ways.every(against)) return [];
		const lies = heard === 'good' ? 'goes through it' : 'does not go through it';
		return [
			{
				...at(['expect', key], true),
				message: `"${id}" says that "${key}" shows "${heard}", but on every plan the signal of this step ${lies}.`,
				remedy: 'Take the row out, and the plan speaks for it; or say in a comment why it shows all the same.'
			}
		];
	});
}

/** What a step along the signal path says of a part, against where the plan has that part. */
export const contradictsPlan: Check = {
	code: 'contradicts-plan',
	description: 'What a step on the signal path says of a suspect goes with where the plans have it.',
	level: 'advice',
	scope: 'library',
	check(library, origins) {
		const plans = Object.values(library.plans).map(
			(plan) => [plan, placeSuspects(library, undefined, plan)] as const
		);
		return allSteps(library, origins).flatMap((step) => complaints(library, step, plans));
	}
};
