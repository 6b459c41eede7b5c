import { LIKELIHOODS, type LikelihoodWord } from '../../suspects/index.ts';
import { isPathStep, normalOf, pathRow } from '../evidence.ts';
import { stagesOn } from '../../receiver/index.ts';
import { PATH_OUTCOMES } from '../terms.ts';
import type { Library } from '../library.ts';
import type { ResolvedFlow } from '../resolve.ts';
import type { Flow, Step } from '../schema.ts';
import { likeliest } from './contradicts-plan.ts';
import { onPlans } from './rows.ts';
import type { Check, Complaint } from './types.ts';

type Measured = Partial<Record<'at' | 'measure' | 'power', string>>;

/** Whether two steps read the same thing at the same place. */
function sameReading(a: Step, b: Step): boolean {
	const [one, other] = [a, b] as Measured[];
	return (
		a.kind === 'measure' &&
		['kind', 'at', 'measure', 'power'].every((key) => one?.[key as 'at'] === other?.[key as 'at'])
	);
}

const isNormal = (step: Step, key: string) => {
	const row = step.expect[key] as Record<string, LikelihoodWord> | undefined;
	const outcome = row && likeliest(row);
	return outcome === undefined ? undefined : outcome === normalOf(step);
};

/** Rows of a flow's own steps that say the opposite of a shared step on the same reading. */
function ownAgainstShared(
	library: Library,
	flow: Flow
): { path: string[]; key: string; step: string; other: string }[] {
	return Object.entries(flow.own.steps).flatMap(([step, own]) => {
		if (isPathStep(own)) return [];
		return Object.entries(library.steps)
			.filter(([, shared]) => sameReading(own, shared))
			.flatMap(([other, shared]) =>
				Object.keys(own.expect)
					.filter(
						(key) => isNormal(shared, key) !== undefined && isNormal(shared, key) !== isNormal(own, key)
					)
					.map((key) => ({ path: ['own', 'steps', step, 'expect', key], key, step, other }))
			);
	});
}

/** Words of a flow that make a suspect common, which a suspect of this kind would have to earn. */
const COMMON = ['very common', 'common'];

/** Whether a named suspect shows the complaint on some band that misbehaves, by its own shared words. */
function showsComplaint(
	{ flow, plan, heard }: ResolvedFlow,
	key: string,
	suspects: ResolvedFlow['suspects']
): boolean {
	const bad = Object.entries(heard).filter(([, word]) => word !== 'good');
	const meant = suspects.filter(({ id, family }) => key === id || key === family);
	if (!bad.length || !meant.length) return true;
	return meant.some((placed) =>
		bad.some(([band, word]) => {
			const row = pathRow(plan, placed, band, stagesOn(plan, band));
			const words = [word, ...(flow['also-heard'][band] ?? [])];
			return words.some(
				(one) => (row[PATH_OUTCOMES.findIndex((o) => o === one)] ?? 0) >= LIKELIHOODS['almost never']
			);
		})
	);
}

const neverHeard = (library: Library, flow: Flow): string[] =>
	flow.signs.length || onPlans(library, flow).length === 0
		? []
		: Object.entries(flow.suspects)
				.filter(([, named]) => COMMON.includes(typeof named === 'string' ? named : named.common))
				.map(([key]) => key)
				.filter(
					(key) =>
						!onPlans(library, flow).some((resolved) => showsComplaint(resolved, key, resolved.suspects))
				);

/** A flow speaks with the same voice as the matrix that all flows share. */
export const contradictsShared: Check = {
	code: 'contradicts-shared',
	description: 'What a flow says of a suspect goes with what the shared suspects and steps say.',
	level: 'advice',
	scope: 'flow',
	check: (library, origins) =>
		Object.values(library.flows).flatMap((flow): Complaint[] => [
			...ownAgainstShared(library, flow).map(({ path, key, step, other }) => ({
				...origins.at('flows', flow.id, path, true),
				message: `For "${key}" the step "${step}" says the opposite of the shared step "${other}", which reads the same point.`,
				remedy:
					'Use the shared step, or say in  text  what is done otherwise here and measure at another state.'
			})),
			...neverHeard(library, flow).map((key) => ({
				...origins.at('flows', flow.id, ['suspects', key], true),
				message: `"${key}" is called common for this complaint, but by its own  shows  it is hardly ever heard so.`,
				remedy: 'Lower the word to rare, or mend  shows  of the suspect.'
			}))
		])
};
