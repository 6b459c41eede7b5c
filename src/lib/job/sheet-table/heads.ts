import type { Cell, Cut } from './cells.ts';

/** Electrodes as the columns of a sheet are headed; `at` is the anode of an oscillator triode. */
export type Electrode = 'a' | 'g2' | 'k' | 'g1' | 'at';

/** What a column holds: volts of an electrode, figures that are no volts (milliamps, AC), or the name of the row. */
export interface Head {
	of: Electrode | 'other' | 'name';
	from: number;
	to: number;
}

const WORDS: Readonly<Record<string, Electrode>> = {
	a: 'a',
	anode: 'a',
	anodes: 'a',
	plate: 'a',
	p: 'a',
	g2: 'g2',
	'g2,4': 'g2',
	'g2,g4': 'g2',
	g2g4: 'g2',
	'g2+g4': 'g2',
	'g2+4': 'g2',
	s: 'g2',
	sg: 'g2',
	screen: 'g2',
	schirmgitter: 'g2',
	k: 'k',
	c: 'k',
	cath: 'k',
	cathode: 'k',
	kathode: 'k',
	g: 'g1',
	g1: 'g1',
	grid: 'g1',
	at: 'at',
	'a(t)': 'at',
	aosc: 'at'
};

const NAMES = [
	'valve',
	'valves',
	'tube',
	'tubes',
	'type',
	'stage',
	'no',
	'pos',
	'position',
	'function',
	'use'
];
const VOLTS = ['v', 'volt', 'volts', 'voltage', 'voltages', 'dc'];
const OTHER = ['ma', 'current', 'currents', 'ac', 'ohm', 'ohms', 'ω', 'kω', 'w', 'watts'];
/** In front of an electrode they say whose it is. */
const OSC = ['osc', 'oscillator', 'triode'];
/** Which grid is meant stands before the word: `screen grid`, `control grid`. */
const GRIDS: Readonly<Record<string, Electrode>> = { screen: 'g2', control: 'g1', signal: 'g1' };

/** `Va`, `Ug2`, `Ek` name volts, `Ia` and `Ik` a current. */
const SYMBOL = /^([vuei])[_ ]?(a|p|k|c|s|g[12]?|sg)$/i;

const bare = (word: string) => word.toLowerCase().replace(/[.:()[\]]/g, '');

/** The electrode that one word means; `other` for a current. */
function electrodeOf(word: string): Electrode | 'other' | undefined {
	const key = word.toLowerCase().replace(/[.:]$/, '');
	if (Object.hasOwn(WORDS, key)) return WORDS[key];
	const symbol = SYMBOL.exec(bare(word));
	if (!symbol) return undefined;
	return symbol[1]?.toLowerCase() === 'i' ? 'other' : WORDS[symbol[2]?.toLowerCase() ?? ''];
}

/** A plain electrode word or symbol of volts, as it stands before its reading: `anode 245`, `Vk = 2.1`. */
export function electrodeWord(word: string): Electrode | undefined {
	const of = electrodeOf(word);
	return of === 'other' ? undefined : of;
}

/** Heads in words that follow each other, with no sign between them: `Anode Voltage (V) Screen (V)`. */
function headsIn(words: readonly Cell[]): (Head & { unit?: true })[] | undefined {
	const heads: (Head & { unit?: true })[] = [];
	let osc = false;
	for (const [index, { text, from, to }] of words.entries()) {
		const word = bare(text);
		const last = heads.at(-1);
		const electrode = electrodeOf(text);
		if (OSC.includes(word)) osc = true;
		else if (word === 'grid' && GRIDS[bare(words[index - 1]?.text ?? '')] && last) last.to = to;
		else if (GRIDS[word] && electrode === undefined) heads.push({ of: GRIDS[word], from, to });
		else if (electrode !== undefined) {
			heads.push({ of: osc && electrode === 'a' ? 'at' : electrode, from, to });
			osc = false;
		} else if (NAMES.includes(word)) heads.push({ of: 'name', from, to });
		else if (VOLTS.includes(word) && last) last.to = to;
		else if (OTHER.includes(word)) {
			if (last?.of === 'other') last.to = to;
			// `Anode V mA`: one head, two columns.
			else if (!last || last.unit) heads.push({ of: 'other', from, to });
			else Object.assign(last, { of: 'other', to });
		} else return undefined;
		const now = heads.at(-1);
		if (now && VOLTS.includes(word)) now.unit = true;
	}
	return heads;
}

const split = ({ text, from }: Cell): Cell[] =>
	[...text.matchAll(/\S+/g)].map(({ 0: word, index }) => ({
		text: word,
		from: from + index,
		to: from + index + word.length
	}));

/** The heads of a table's columns, where a line is made of nothing else. */
export function headsOf({ cells, by }: Cut): Head[] | undefined {
	const found =
		by === 'blank'
			? headsIn(cells)
			: cells.flatMap((cell, index): (Head | undefined)[] => {
					if (cell.text === '') return [{ of: index === 0 ? 'name' : 'other', from: cell.from, to: cell.to }];
					const heads = headsIn(split(cell));
					return heads?.length === 1
						? heads
						: index === 0 && !heads
							? [{ ...cell, of: 'name' }]
							: [undefined];
				});
	if (!found || found.includes(undefined)) return undefined;
	const heads = found as Head[];
	const measured = heads.filter(({ of }) => of !== 'name' && of !== 'other');
	const named = heads.some(({ of }) => of === 'name');
	return measured.length >= 2 || (named && measured.length === 1) ? heads : undefined;
}

/**
 * A second line of heads that gives the units: `V mA V mA V` under `Anode Screen Cathode`. Each V begins the next electrode; what
 * is no V belongs to the one before it.
 */
export function withUnits(heads: readonly Head[], { cells }: Cut): Head[] | undefined {
	const units = cells.map(({ text }) => bare(text)).filter((text) => text !== '');
	if (units.length < 2 || !units.every((unit) => VOLTS.includes(unit) || OTHER.includes(unit)))
		return undefined;
	const names = heads.filter(({ of }) => of === 'name');
	const measured = heads.filter(({ of }) => of !== 'name' && of !== 'other');
	if (units.filter((unit) => VOLTS.includes(unit)).length !== measured.length) return undefined;
	let at = -1;
	const columns = units.map((unit, index): Head => {
		const { from, to } = cells.filter(({ text }) => text !== '')[index] ?? { from: 0, to: 0 };
		if (VOLTS.includes(unit)) at++;
		return { of: VOLTS.includes(unit) ? (measured[at]?.of ?? 'other') : 'other', from, to };
	});
	return [...names, ...columns];
}
