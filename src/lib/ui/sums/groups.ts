import { type Calculation, type CalculationId, calculations } from '$lib/calculations/index.ts';
import { verdictWords } from './wording.ts';

/** Where a restorer would look for a sum. One that stands in no group comes under "More sums". */
const GROUPS: Readonly<Record<string, readonly CalculationId[]>> = {
	'Current and heat': ['resistor-drop', 'valve-operating-point'],
	'Grids, leaks and meters': ['grid-leakage', 'meter-loading'],
	'Tuning and alignment': ['dial-frequencies', 'alignment-order']
};
const REST = 'More sums';

interface Group {
	title: string;
	sums: readonly Calculation[];
}

function wordsOf(sum: Calculation, group: string): string {
	const labels = [...Object.values(sum.inputs), ...Object.values(sum.outputs)].map(({ label }) => label);
	const verdicts = (sum.verdicts ?? []).map(({ verdict }) => verdictWords(verdict));
	return [group, sum.id, sum.title, sum.question, ...labels, ...verdicts, ...sum.pitfalls]
		.join(' ')
		.toLowerCase();
}

const all: readonly Group[] = (() => {
	const grouped: readonly string[] = Object.values(GROUPS).flat();
	const known = Object.entries(GROUPS).map(([title, ids]) => ({
		title,
		sums: ids.map((id) => calculations[id])
	}));
	const rest = Object.values<Calculation>(calculations).filter(({ id }) => !grouped.includes(id));
	return rest.length > 0 ? [...known, { title: REST, sums: rest }] : known;
})();

/** The sums in which every word of `query` is found: in question, title, inputs, results, verdicts or pitfalls. */
export function groupsFor(query: string): Group[] {
	const wanted = query.toLowerCase().split(/\s+/).filter(Boolean);
	return all
		.map(({ title, sums }) => ({
			title,
			sums: sums.filter((sum) => wanted.every((word) => wordsOf(sum, title).includes(word)))
		}))
		.filter(({ sums }) => sums.length > 0);
}
