import { TRAIT_NAMES, TRAITS, type TraitName } from '../../receiver/index.ts';
import type { Library } from '../library.ts';
import type { Caution, Step } from '../schema.ts';
import type { StepPower } from '../terms.ts';
import { allSteps, type Check } from './types.ts';

const SAID: Readonly<Record<StepPower, string>> = {
	unplugged: 'on the unplugged set',
	limiter: 'on the limiter',
	live: 'live'
};

/** Whether the caution is shown on every set that can take the step: one for live chassis alone leaves the others bare. */
function alwaysShown({ only = {} }: Caution, step: Step): boolean {
	const filter = (list: Step['only'], trait: TraitName) => list?.[trait] as readonly string[] | undefined;
	return TRAIT_NAMES.every((trait) => {
		const values = filter(only, trait);
		if (values === undefined) return true;
		const barred = filter(step.never, trait) ?? [];
		const taking = filter(step.only, trait) ?? TRAITS[trait].filter((value) => !barred.includes(value));
		return taking.every((value) => values.includes(value));
	});
}

/** The cautions that are enough for this step in this power state. */
const enough = (library: Library, step: Step, state: StepPower): string[] =>
	Object.entries(library.cautions)
		.filter(([, caution]) => caution.covers.includes(state) && alwaysShown(caution, step))
		.map(([id]) => id);

/** A step under power, or one that touches a chassis after power, shows the caution that covers its state. */
export const liveWithoutCaution: Check = {
	code: 'live-without-caution',
	description:
		'Every step under power, and every cold step that touches the chassis, names a caution for its power state.',
	level: 'error',
	scope: 'library',
	check(library, origins) {
		return allSteps(library, origins).flatMap(({ id, step, at }) =>
			(['power', 'prepare'] as const).flatMap((key) => {
				const state = step[key];
				if (!state || (state === 'unplugged' && step['hands-off'])) return [];
				const fitting = enough(library, step, state);
				if (fitting.some((caution) => step.cautions.includes(caution))) return [];
				return {
					...at([key], true),
					message: `"${id}" is done ${SAID[state]} and names no caution for that.`,
					remedy: `Add one of these to its cautions: ${fitting.join(', ') || '(none is written yet)'}.`
				};
			})
		);
	}
};
