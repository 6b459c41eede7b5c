import MiniSearch from 'minisearch';
import { type Calculation, calculations, verdictTitle } from '$lib/calculations/index.ts';
import { termOf } from '$lib/flow/owner-words.ts';

/** Words of a question that tell no sum from another. */
const ASKED = new Set(
	'any before between both could did else far find found give given good how know look made make many may measure measured mine more much must need no not now ok old one only other out over reading right should than think through too under use used want what where which who why would work wrong you your'.split(
		' '
	)
);

const all = Object.values<Calculation>(calculations);

/** What a sum is found by, the telling fields first. */
function entryOf(sum: Calculation) {
	const labels = [...Object.values(sum.inputs), ...Object.values(sum.outputs)].map(({ label }) => label);
	const verdicts = (sum.verdicts ?? []).map(({ verdict }) => verdictTitle(sum, verdict));
	return {
		id: sum.id,
		words: (sum.words ?? []).join(', '),
		title: sum.title,
		question: sum.question,
		labels: [...labels, sum.group].join(', '),
		rest: [...verdicts, ...sum.pitfalls].join(' ')
	};
}

const processTerm = (word: string): string | null => (ASKED.has(word.toLowerCase()) ? null : termOf(word));

const search = new MiniSearch<ReturnType<typeof entryOf>>({
	fields: ['words', 'title', 'question', 'labels', 'rest'],
	processTerm,
	searchOptions: {
		boost: { words: 4, title: 4, question: 3, labels: 1, rest: 0.4 },
		prefix: (term) => term.length > 2,
		fuzzy: (term) => (term.length > 3 ? 0.2 : false)
	}
});
search.addAll(all.map(entryOf));

const termsOf = (text: string): string[] =>
	text.split(/[^\p{L}\p{N}]+/u).flatMap((word) => processTerm(word) ?? []);
/** What a sum is called in two words or more. */
const phrases = new Map(
	all.map(({ id, words = [] }) => [id, words.map(termsOf).filter((terms) => terms.length > 1)])
);
/** Worth of a phrase that was typed whole, against words that stand in several. */
const WHOLE = 2;

/** A find that fits less than this share of the best is no answer to what was typed. */
const LEAST = 0.15;

/** The sums that answer what was typed, misspelt words too, the likeliest first. */
export function sumsFor(query: string): Calculation[] {
	const typed = termsOf(query);
	const said = (id: string): boolean =>
		phrases.get(id)?.some((terms) => terms.every((term) => typed.includes(term))) ?? false;
	const found = search
		.search(query)
		.map(({ id, score }) => ({ id: id as string, score: said(id as string) ? score * WHOLE : score }))
		.sort((a, b) => b.score - a.score);
	const least = (found[0]?.score ?? 0) * LEAST;
	return found
		.filter(({ score }) => score >= least)
		.flatMap(({ id }) => all.find((sum) => sum.id === id) ?? []);
}
