import { allSteps, type Check } from './types.ts';

/** A step under power, or one that touches a chassis after power, shows the caution that covers its state. */
export const liveWithoutCaution: Check = {
	code: 'live-without-caution',
	description: 'Every step under power, and every cold step that touches the chassis, names a caution for its power state.',
	level: 'error',
	scope: 'library',
	check(library, origins) {
		return allSteps(library, origins).flatMap(({ id, step, at }) => {
			const states = [step.power, ...(step.prepare ? [step.prepare] : [])];
			const bare = states.filter(
				(state) =>
					!(state === 'unplugged' && step['hands-off']) &&
					!step.cautions.some((caution) => library.cautions[caution]?.covers.includes(state))
			);
			return bare.map((state) => {
				const fitting = Object.keys(library.cautions).filter((c) => library.cautions[c]?.covers.includes(state));
				return {
					...at(['power'], true),
					message: `"${id}" is done ${state === 'live' ? 'live' : state === 'limiter' ? 'on the limiter' : 'on the unplugged set'} and names no caution for that.`,
					remedy: `Add one of these to its cautions: ${fitting.join(', ') || '(none is written yet)'}.`
				};
			});
		});
	}
};
