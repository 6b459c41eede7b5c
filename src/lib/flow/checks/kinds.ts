import { SUSPECT_KINDS } from '../terms.ts';
import type { Suspect } from '../schema.ts';
import type { Check, Complaint } from './types.ts';

/** Without its kind a suspect stays where it is, whatever the past of the set says. */
export const kindMissing: Check = {
	code: 'kind-missing',
	description: 'Every suspect says what kind of part it is.',
	level: 'error',
	scope: 'library',
	check(library, origins) {
		const missing = (table: Record<string, Suspect>, at: (id: string) => ReturnType<typeof origins.at>) =>
			Object.entries(table).flatMap(([id, { kind }]): Complaint[] =>
				kind
					? []
					: [
							{
								...at(id),
								message: `"${id}" does not say what kind of part it is.`,
								remedy: `Write  kind:  with one of: ${SUSPECT_KINDS.join(', ')}.`
							}
						]
			);
		const own = Object.values(library.flows).flatMap((flow) =>
			missing(flow.own.suspects, (id) => origins.at('flows', flow.id, ['own', 'suspects', id], true))
		);
		return [...missing(library.suspects, (id) => origins.at('suspects', id, [], true)), ...own];
	}
};
