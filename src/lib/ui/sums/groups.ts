import { type Calculation, calculations, GROUPS, verdictTitle } from '$lib/calculations/index.ts';

interface Group {
	title: string;
	sums: readonly Calculation[];
}

const all = Object.values<Calculation>(calculations);

/** Everything of a sum that somebody may look for. */
function wordsOf(sum: Calculation): string {
	const labels = [...Object.values(sum.inputs), ...Object.values(sum.outputs)].map(({ label }) => label);
	const verdicts = (sum.verdicts ?? []).map(({ verdict }) => verdictTitle(sum, verdict));
	const texts = [sum.group, sum.id, sum.title, sum.question, ...(sum.words ?? [])];
	return [...texts, ...labels, ...verdicts, ...sum.pitfalls].join(' ').toLowerCase();
}

const found: ReadonlyMap<Calculation, string> = new Map(all.map((sum) => [sum, wordsOf(sum)]));

/** The sums in which every word of `query` is found, where a restorer would look for them. */
export function groupsFor(query: string): Group[] {
	const wanted = query.toLowerCase().split(/\s+/).filter(Boolean);
	const fits = (sum: Calculation): boolean => wanted.every((word) => found.get(sum)?.includes(word));
	return GROUPS.map((title) => ({
		title,
		sums: all.filter((sum) => sum.group === title && fits(sum))
	})).filter(({ sums }) => sums.length > 0);
}
