function pairsOf(word: string): string[] {
	const letters = word.toLowerCase();
	return Array.from({ length: Math.max(letters.length - 1, 1) }, (_, i) => letters.slice(i, i + 2));
}

/** Share of neighbouring letter pairs that two words have in common, 0 to 1. */
function likeness(one: string, other: string): number {
	const left = pairsOf(one);
	const right = pairsOf(other);
	const shared = left.filter((pair) => right.includes(pair)).length;
	return (2 * shared) / (left.length + right.length);
}

/** Up to three of `names` that look like `word`, the likest first; empty when nothing does. */
export function nearest(word: string, names: readonly string[]): string[] {
	return names
		.map((name) => ({ name, score: likeness(word, name) }))
		.filter(({ score }) => score >= 0.4)
		.sort((a, b) => b.score - a.score || a.name.localeCompare(b.name))
		.slice(0, 3)
		.map(({ name }) => name);
}
