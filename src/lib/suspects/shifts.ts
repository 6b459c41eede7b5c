/**
 * How the past of a set shifts the weight of a suspect: factors on its weight, half a decade and a decade either way.
 * Our own choice; that the order of size is enough rests on the same readings as the weights themselves.
 */
export const SHIFTS = {
	'much likelier': 10,
	likelier: 3,
	'less likely': 1 / 3,
	'much less likely': 0.1
} as const;

export type ShiftWord = keyof typeof SHIFTS | 'comes first';

/** `comes first` is no factor: together these suspects weigh at least as much as any other single one. */
export const SHIFT_WORDS = [...(Object.keys(SHIFTS) as (keyof typeof SHIFTS)[]), 'comes first'] as const;

/**
 * Raises some suspects, their ratios kept, until together they weigh as much as the heaviest other; nothing where they do
 * already, or have no weight to raise.
 *
 * @param first whether the suspect of that place comes first
 */
export function raiseToFirst(weights: readonly number[], first: readonly boolean[]): number[] {
	const own = weights.reduce((sum, weight, place) => sum + (first[place] ? weight : 0), 0);
	const heaviest = weights.reduce((most, weight, place) => (first[place] ? most : Math.max(most, weight)), 0);
	const factor = own > 0 ? Math.max(1, heaviest / own) : 1;
	return weights.map((weight, place) => (first[place] ? weight * factor : weight));
}
