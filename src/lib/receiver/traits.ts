/**
 * What sets one family of sets apart from another. Suspects, steps and cautions are kept or left out by
 * these words; there are no expressions.
 */
export const TRAITS = {
	chassis: ['isolated', 'live'],
	mains: ['transformer', 'none', 'battery'],
	heaters: ['parallel', 'series'],
	bias: ['cathode', 'back', 'fixed'],
	rectifier: ['valve', 'selenium', 'silicon', 'none'],
	'fm-detector': ['ratio', 'discriminator'],
	'if-cans': ['combined', 'separate', 'am-only'],
	aerial: ['rod', 'loop', 'wire'],
	condition: ['untouched', 'worked-on']
} as const;

export type TraitName = keyof typeof TRAITS;
export type Traits = Partial<Record<TraitName, string | undefined>>;
export const TRAIT_NAMES = Object.keys(TRAITS) as TraitName[];

/** Lists of trait values, as `only:` and `never:` carry them. */
export type TraitFilter = Partial<Record<TraitName, readonly string[] | undefined>>;

/** Whether something with these filters stands in a set with these traits. A trait nobody stated excludes nothing. */
export function fits(traits: Traits, only: TraitFilter = {}, never: TraitFilter = {}): boolean {
	const has = (name: TraitName, values: readonly string[]) => {
		const value = traits[name];
		return value === undefined ? undefined : values.includes(value);
	};
	const entries = (filter: TraitFilter) =>
		Object.entries(filter).filter(([, values]) => values !== undefined) as [TraitName, readonly string[]][];
	return (
		entries(only).every(([name, values]) => has(name, values) !== false) &&
		entries(never).every(([name, values]) => has(name, values) !== true)
	);
}
