import { LIKELIHOODS, healthyRow, wordRow } from '../../suspects/index.ts';
import { isPathStep } from '../evidence.ts';
import { parseWhen } from '../when.ts';
import { allSteps, type Check, type WrittenStep } from './types.ts';

/** Outcomes of a measurement from the lowest reading to the highest. */
function inOrder(step: Extract<WrittenStep['step'], { kind: 'measure' }>): string[] {
	const bands = Object.entries(step.outcomes).flatMap(([id, { when }]) => {
		const parsed = when === undefined ? undefined : parseWhen(when);
		return parsed?.ok ? [{ id, from: parsed.band.from }] : [];
	});
	return bands.sort((a, b) => a.from - b.from).map(({ id }) => id);
}

/** The outcomes that lie between normal and the one a suspect is expected to show. */
function between(order: readonly string[], normal: string, stated: string): string[] {
	const [a, b] = [order.indexOf(normal), order.indexOf(stated)].sort((x, y) => x - y) as [number, number];
	return a < 0 ? [] : order.slice(a + 1, b);
}

/** A part that shows 2 V shows 0.3 V on a milder day: the band between must not speak against it. */
export const rarerThanHealthy: Check = {
	code: 'rarer-than-healthy',
	description:
		'An outcome between normal and the expected one is not rarer for the suspect than for a sound set.',
	level: 'error',
	scope: 'library',
	check(library, origins) {
		return allSteps(library, origins).flatMap(({ step, at }) => {
			if (step.kind !== 'measure' || isPathStep(step)) return [];
			const outcomes = Object.keys(step.outcomes);
			const healthy = healthyRow(outcomes, step.normal);
			const order = inOrder(step);
			return Object.entries(step.expect).flatMap(([key, words]) => {
				const row = wordRow(outcomes, words as Record<string, keyof typeof LIKELIHOODS>, healthy);
				const strongest = Object.entries(words).sort((a, b) => LIKELIHOODS[b[1]] - LIKELIHOODS[a[1]])[0]?.[0];
				if (strongest === undefined) return [];
				const low = between(order, step.normal, strongest).filter((id) => {
					const i = outcomes.indexOf(id);
					return (row[i] ?? 0) < (healthy[i] ?? 0);
				});
				return low.map((id) => ({
					...at(['expect', key], true),
					message: `With "${key}" the outcome "${id}" would be rarer than in a sound set, though it lies between normal and "${strongest}".`,
					remedy: `Write it out, for instance  ${key}: {${strongest}: usually, ${id}: sometimes}`
				}));
			});
		});
	}
};
