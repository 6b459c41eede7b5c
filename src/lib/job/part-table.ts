import { DUTIES, isCapacitor, isResistor, PART_LOOKS, type Duty, type PartLook } from '../flow/part-terms.ts';
import { parseAnyQuantity, parseQuantity, type ParsedQuantity } from '../quantity/index.ts';
import type { Plan } from '../receiver/index.ts';

/** A parts list typed or pasted: one part a line, its name first, then value, rating, kind, duty and place in any order. */

export interface TablePart {
	name: string;
	kind: PartLook;
	typed?: string;
	value?: number;
	rating?: string;
	duty?: Duty;
	place?: string;
}

/** A value that can mean several things: nothing is chosen for the person. */
export interface Question {
	cell: string;
	hint: string;
	choices: readonly { text: string; label: string }[];
}

export interface TableRow {
	/** Counted from 1. */
	line: number;
	text: string;
	/** What the line says; complete only where nothing is asked and nothing is wrong. */
	part: TablePart;
	questions: Question[];
	problems: string[];
}

/** Longest lists that are read; more is no radio. */
const MOST_LINES = 300;
const MOST_WORDS = 5;

const KIND_WORDS: Readonly<Record<string, PartLook>> = {
	elec: 'electrolytic',
	electro: 'electrolytic',
	can: 'electrolytic',
	paper: 'paper',
	wax: 'paper',
	waxed: 'paper',
	tar: 'paper',
	moulded: 'paper',
	foil: 'foil',
	film: 'foil',
	polyester: 'foil',
	ceramic: 'ceramic',
	disc: 'ceramic',
	mica: 'mica',
	'silver mica': 'mica',
	carbon: 'resistor',
	resistor: 'resistor',
	wirewound: 'wirewound',
	'wire wound': 'wirewound',
	ww: 'wirewound',
	pot: 'control',
	potentiometer: 'control',
	choke: 'choke',
	'field coil': 'choke',
	tube: 'valve',
	selenium: 'rectifier',
	silicon: 'rectifier',
	bulb: 'lamp',
	lamp: 'lamp',
	speaker: 'loudspeaker'
};

const DUTY_WORDS: Readonly<Record<string, Duty>> = {
	'output coupling': 'output-coupling',
	'coupling output': 'output-coupling',
	'coupling to output': 'output-coupling',
	'cathode bypass': 'cathode',
	'cathode by-pass': 'cathode',
	cathode: 'cathode',
	screen: 'screen',
	'screen bypass': 'screen',
	avc: 'avc',
	agc: 'avc',
	'avc line': 'avc',
	decoupling: 'decoupling',
	decoupler: 'decoupling',
	'across mains': 'across-mains',
	'mains filter': 'across-mains',
	'across the line': 'across-mains',
	'line to chassis': 'mains-chassis',
	isolating: 'isolating',
	'aerial isolating': 'isolating',
	tone: 'tone',
	feedback: 'tone',
	'output tone': 'output-anode',
	padder: 'tuned',
	tuned: 'tuned',
	'anode load': 'anode-load',
	'anode feed': 'anode-feed',
	bias: 'cathode-bias',
	'cathode resistor': 'cathode-bias',
	'grid leak': 'grid-leak',
	'grid stopper': 'grid-stopper',
	dropper: 'dropper'
};

/** Every word for a kind or a duty, its title and its id among them. */
const wordsFor = <Key extends string>(
	table: Readonly<Record<Key, { title: string }>>,
	more: Readonly<Record<string, Key>>
): ReadonlyMap<string, Key> =>
	new Map([
		...(Object.entries(table) as [Key, { title: string }][]).flatMap(([id, { title }]): [string, Key][] => [
			[id.replaceAll('-', ' '), id],
			[id, id],
			[title.toLowerCase(), id]
		]),
		...Object.entries(more)
	]);
const KINDS = wordsFor<PartLook>(PART_LOOKS, KIND_WORDS);
const DUTY_NAMES = wordsFor<Duty>(DUTIES, DUTY_WORDS);

/** What the letters of a name on a diagram stand for. */
const LETTERS: readonly [RegExp, PartLook][] = [
	[/^C\d/i, 'capacitor'],
	[/^(VR|RV|P)\d/i, 'control'],
	[/^R\d/i, 'resistor'],
	[/^L\d/i, 'coil'],
	[/^(T|TR)\d/i, 'transformer'],
	[/^(V|E[A-Z]{1,3}|U[A-Z]{1,3}|\d{1,2}[A-Z])\d/i, 'valve'],
	[/^(S|SW)\d/i, 'switch'],
	[/^F\d/i, 'fuse']
];

/** From here on a capacitor of unknown kind is taken for an electrolytic. Common practice. */
const ELECTROLYTIC_FROM = 1e-6;

function kindOf(name: string, { kind, value }: Partial<TablePart>): PartLook {
	const byName = kind ?? LETTERS.find(([letters]) => letters.test(name))?.[1] ?? 'other';
	return byName === 'capacitor' && value !== undefined && value >= ELECTROLYTIC_FROM
		? 'electrolytic'
		: byName;
}

const plain = (cell: string): string =>
	cell
		.trim()
		.toLowerCase()
		.replace(/[.,:]$/, '')
		.replaceAll(/\s+/g, ' ');

/** Halves and quarters of a watt as the trade writes them. */
const spelledOut = (cell: string): string =>
	cell
		.replace(/^(½|1\/2)(?=\s*w)/i, '0.5')
		.replace(/^(¼|1\/4)(?=\s*w)/i, '0.25')
		.replace(/^(⅓|1\/3)(?=\s*w)/i, '0.33');

function placeOf(cell: string, plan: Plan | undefined): string | undefined {
	const places = Object.entries({ ...plan?.stages, ...plan?.lines });
	const word = plain(cell);
	const exact = places.find(([id, { title }]) => id === word || title.toLowerCase() === word);
	const begun = places.filter(([, { title }]) => title.toLowerCase().startsWith(word));
	return exact?.[0] ?? (word.length > 2 && begun.length === 1 ? begun[0]?.[0] : undefined);
}

type Reading = { put: Partial<TablePart> } | { question: Question } | undefined;

function valueAs(cell: string, unit: 'F' | 'ohm'): Reading {
	const parsed: ParsedQuantity = parseQuantity(cell, unit);
	if (parsed.ok) return { put: { typed: cell, value: parsed.value } };
	if (parsed.kind !== 'doubtful') return undefined;
	// A choice is put in the place of the cell, so it has to read in one way only.
	const choices = (parsed.choices ?? []).map(({ value, label }) => ({
		text: `${Number((unit === 'F' ? value * 1e12 : value).toPrecision(12))} ${unit === 'F' ? 'pF' : 'ohm'}`,
		label
	}));
	return { question: { cell, hint: parsed.hint, choices } };
}

/** What one cell says; nothing where it cannot be read. */
function readCell(cell: string, name: string, plan: Plan | undefined): Reading {
	const word = plain(cell);
	const kind = KINDS.get(word);
	const duty = DUTY_NAMES.get(word);
	// "Rectifier" is a kind by itself, and a duty of a capacitor.
	if (duty && (!kind || /^C\d/i.test(name))) return { put: { duty } };
	if (kind) return { put: { kind } };
	const place = placeOf(cell, plan);
	if (place) return { put: { place } };
	const spelled = spelledOut(cell.trim());
	const any = parseAnyQuantity(spelled);
	if (any.ok && (any.unit === 'V' || any.unit === 'W')) return { put: { rating: cell.trim() } };
	const look = LETTERS.find(([letters]) => letters.test(name))?.[1] ?? 'other';
	const unit =
		any.ok && (any.unit === 'F' || any.unit === 'ohm') ? any.unit : isCapacitor(look) ? 'F' : 'ohm';
	return isCapacitor(look) || isResistor(look) || (any.ok && any.unit === unit) || look === 'coil'
		? valueAs(spelled, isCapacitor(look) ? 'F' : unit)
		: undefined;
}

/** The longest run of words that can be read, then the next; what cannot be read stands alone. */
function readWords(words: readonly string[], name: string, plan: Plan | undefined): [string, Reading][] {
	if (words.length === 0) return [];
	for (let length = Math.min(MOST_WORDS, words.length); length > 0; length--) {
		const cell = words.slice(0, length).join(' ');
		const reading = readCell(cell, name, plan);
		if (reading) return [[cell, reading], ...readWords(words.slice(length), name, plan)];
	}
	return [[words[0] ?? '', undefined], ...readWords(words.slice(1), name, plan)];
}

/** Words between cells that say nothing by themselves. */
const FILLING = new Set(['', '-', 'the', 'of', 'at', 'in', 'x', 'n/a']);

function readLine(text: string, line: number, plan: Plan | undefined): TableRow {
	const cells = text.split(/\t|;|\||\s{2,}/).map((cell) => cell.trim());
	const [first = '', ...others] = cells.filter((cell) => cell !== '');
	const [name = '', ...rest] = first.split(/[\s,]+(?=\S)/);
	const read = [...(rest.length ? [rest.join(' ')] : []), ...others].flatMap((cell) => {
		const whole = readCell(cell, name, plan);
		return whole ? ([[cell, whole]] as [string, Reading][]) : readWords(cell.split(/\s+/), name, plan);
	});
	const row: TableRow = { line, text, part: { name, kind: 'other' }, questions: [], problems: [] };
	for (const [cell, reading] of read) {
		if (reading && 'put' in reading) Object.assign(row.part, reading.put);
		else if (reading) row.questions.push(reading.question);
		else if (!FILLING.has(plain(cell)))
			row.problems.push(
				`"${cell}" is no value, rating, kind, duty or place of this set. Mend the word, or leave it out.`
			);
	}
	const { kind: _none, ...said } = row.part;
	const kinds = read.flatMap(([, reading]) => (reading && 'put' in reading ? (reading.put.kind ?? []) : []));
	row.part.kind = kindOf(name, { ...said, ...(kinds[0] ? { kind: kinds[0] } : {}) });
	if (name.length > 40) row.problems.push('The name is too long. Write it as on the diagram: C12.');
	return row;
}

/** Every line that says something; names that stand twice are told. */
export function readPartTable(text: string, plan: Plan | undefined): TableRow[] {
	const lines = text.split(/\r?\n/).slice(0, MOST_LINES);
	const rows = lines.flatMap((line, index) =>
		line.trim() === '' ? [] : [readLine(line.trim(), index + 1, plan)]
	);
	const seen = new Map<string, number>();
	for (const row of rows) {
		const name = row.part.name.toUpperCase();
		const before = seen.get(name);
		if (before === undefined) seen.set(name, row.line);
		else row.problems.push(`"${row.part.name}" stands in line ${before} already. Leave one of the two out.`);
	}
	return rows;
}

/** The text with a doubtful cell of one line settled. */
export const withChoice = (text: string, line: number, cell: string, choice: string): string =>
	text
		.split(/\r?\n/)
		.map((one, index) => (index + 1 === line ? one.replace(cell, choice) : one))
		.join('\n');
