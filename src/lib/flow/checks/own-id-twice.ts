import type { Check, Complaint } from './types.ts';

/** A job carries answers and parts from flow to flow by their ids: one id, one meaning. */
export const ownIdTwice: Check = {
	code: 'own-id-twice',
	description: 'No two flows have an own step or suspect of the same id.',
	level: 'error',
	scope: 'library',
	check(library, origins) {
		return (['steps', 'suspects'] as const).flatMap((kind) => {
			const first = new Map<string, string>();
			return Object.values(library.flows).flatMap((flow) =>
				Object.keys(flow.own[kind]).flatMap((id): Complaint[] => {
					const earlier = first.get(id);
					if (earlier === undefined) return (first.set(id, flow.id), []);
					return [
						{
							...origins.at('flows', flow.id, ['own', kind, id], true),
							message: `"${id}" stands in the flow "${earlier}" too, and a job takes the two for one.`,
							remedy: `Move it to flows/shared/${kind}/ where both mean the same; else give it an id of its own.`
						}
					];
				})
			);
		});
	}
};
