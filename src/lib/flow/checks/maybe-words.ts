import { allSteps, type Check } from './types.ts';

const MAYBE = /\b(maybe|perhaps|possibly|possible|might|could be|may be)\b/i;

/** Evidence states what is seen; "maybe" belongs to cautions. */
export const maybeWords: Check = {
	code: 'maybe-words',
	description: 'What a step asks and what an outcome means is said without "maybe", "possibly", "might".',
	level: 'error',
	scope: 'library',
	check(library, origins) {
		return allSteps(library, origins).flatMap(({ step, at }) => {
			const texts: [PropertyKey[], string | undefined][] = [
				[['title'], step.title],
				...('outcomes' in step
					? Object.entries(step.outcomes).flatMap(([id, o]): [PropertyKey[], string | undefined][] => [
							[['outcomes', id, 'label'], o.label],
							[['outcomes', id, 'means'], o.means]
						])
					: [])
			];
			return texts.flatMap(([path, text]) => {
				const found = text && MAYBE.exec(text);
				return found
					? [
							{
								...at(path),
								message: `"${found[0]}" says nothing that can be checked.`,
								remedy: 'Say what is seen; how sure that is, the likelihood words tell.'
							}
						]
					: [];
			});
		});
	}
};
