import MiniSearch from 'minisearch';

/** Words that stand in every complaint and tell none from another. */
const EMPTY = new Set(
	'a all an and are as at be been but by can does for from get gets got has have i if in is it its just me my of on or radio set so some sounds that the then there this time to very was when will with'.split(
		' '
	)
);

/** What people write for the words of the trade. */
const SAME: Readonly<Record<string, string>> = {
	tube: 'valve',
	wireless: 'radio',
	mw: 'medium',
	lw: 'long',
	sw: 'short',
	vhf: 'fm',
	ukw: 'fm',
	speaker: 'loudspeaker',
	condenser: 'capacitor',
	condensor: 'capacitor',
	cap: 'capacitor',
	antenna: 'aerial',
	color: 'colour',
	bulb: 'lamp',
	light: 'lamp',
	plate: 'anode',
	doesnt: 'not',
	dont: 'not',
	isnt: 'not',
	wont: 'not',
	cant: 'cannot'
};

/** Endings off, so that "hums", "humming" and "hum" are one word. */
function stem(word: string): string {
	const bare = word.replace(/(?:ing|ed|es|e|s|y)$/, '');
	return bare.length < 3 ? word : bare.replace(/([b-df-hj-np-tv-z])\1$/, '$1');
}

/** A word as an index keeps it: in the trade's own form, its ending off; null for one that tells nothing. */
export function termOf(word: string): string | null {
	const plain = word.toLowerCase().replaceAll(/['’]/g, '');
	const single = plain.replace(/s$/, '');
	const said = SAME[plain] ?? SAME[single] ?? plain;
	return EMPTY.has(said) ? null : stem(said);
}

export interface Heard {
	flow: string;
	/** The phrase of the index that came nearest. */
	phrase: string;
}

/** Looks up complaints in the owner's words, misspelt ones too. */
export type WordIndex = (text: string) => Heard[];

/** From each phrase its flow. */
export function wordIndex(sayings: Readonly<Record<string, readonly string[]>>): WordIndex {
	const phrases = Object.entries(sayings).flatMap(([flow, said]) => said.map((phrase) => ({ flow, phrase })));
	const search = new MiniSearch<Heard & { id: number }>({
		fields: ['phrase'],
		storeFields: ['flow', 'phrase'],
		processTerm: termOf,
		searchOptions: { prefix: (term) => term.length > 2, fuzzy: (term) => (term.length > 3 ? 0.25 : false) }
	});
	search.addAll(phrases.map((one, id) => ({ id, ...one })));
	return (text) => {
		const found = search.search(text) as unknown as Heard[];
		const first = new Map<string, Heard>();
		for (const { flow, phrase } of found) if (!first.has(flow)) first.set(flow, { flow, phrase });
		return [...first.values()];
	};
}
