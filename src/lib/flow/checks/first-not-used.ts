import type { Check } from './types.ts';

/** What is asked first, or before power, is asked at all only where the flow uses it: else the order is lost without a word. */
export const firstNotUsed: Check = {
	code: 'first-not-used',
	description:
		'Each step of the opening, and each that comes before power, stands among the steps of the flow.',
	level: 'error',
	scope: 'flow',
	check: (library, origins) =>
		Object.values(library.flows).flatMap((flow) => {
			const used = new Set([...flow.uses, ...Object.keys(flow.own.steps)]);
			const ordered: [path: PropertyKey[], ids: readonly string[]][] = [
				[['opening'], flow.opening],
				[['before', 'limiter'], flow.before?.limiter ?? []],
				[['before', 'live'], flow.before?.live ?? []]
			];
			return ordered.flatMap(([path, ids]) =>
				ids.flatMap((id, i) =>
					used.has(id)
						? []
						: [
								{
									...origins.at('flows', flow.id, [...path, i]),
									message: `"${id}" is to come first, and is no step of this flow.`,
									remedy: `Add it to  uses:  or take it out of  ${path.join(': ')}.`
								}
							]
				)
			);
		})
};
