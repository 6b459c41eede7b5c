import type { Plan } from '../../receiver/index.ts';
import type { SurveyPoint } from '../../receiver/survey.ts';
import { cellSays, cut, wordsOf, type CellSays, type Cut } from './cells.ts';
import { conditionsIn, type Conditions } from './conditions.ts';
import { electrodeWord, headsOf, withUnits, type Electrode, type Head } from './heads.ts';
import { pointNamed, pointOf, valveNamed, type Named } from './places.ts';

/** A table of volts as it stands on a sheet, pasted: what was understood, and what was not. */
export interface PastedTable {
	/** DC volts by test point. */
	volts: Record<string, number>;
	/** Each of them with the place by name, and the line that it was read in. */
	taken: { point: string; title: string; value: number; line: string }[];
	/** What the text says of the meter and the mains that the volts were measured with. */
	sheet: Conditions;
	/** Lines and cells that were not understood, with the number of the line, why, and what to do. */
	aside: { line: string; at: number; why: string }[];
	/** What was taken for granted or left out on purpose, told once. */
	notes: string[];
}

const NO_PLACE =
	'The survey has no such place: signal grids and AVC move with the station and are left to the steps of a trace.';
const NO_VOLTS =
	'The columns of current, AC or ohms are left out: the survey works currents out from the drops.';
const NO_HEADS =
	'Which electrode? Begin the table with a line of heads: valve, a, g2, k. Or write it before its reading: EL84 a 245 k 7.3.';

/** What has been read so far, and in what columns the next line stands. */
class Reading {
	readonly table: PastedTable = { volts: {}, taken: [], sheet: {}, aside: [], notes: [] };
	readonly #taken = new Set<string>();
	heads: Head[] | undefined;
	/** Valves as heads: then the rows are electrodes. */
	across: Named[] | undefined;
	/** The valve of the line before, for a line that names none. */
	last: Named | undefined;
	line = '';
	at = 0;

	constructor(readonly plan: Plan) {}

	aside(why: string, what = this.line): void {
		this.table.aside.push({ line: what, at: this.at, why });
	}

	note(words: string): void {
		if (!this.table.notes.includes(words)) this.table.notes.push(words);
	}

	put(point: SurveyPoint, value: number, what = this.line): void {
		if (this.#taken.has(point.id)) {
			this.aside(
				`${point.title} stands further up already: ${this.table.volts[point.id]} V. That is kept.`,
				what
			);
			return;
		}
		this.#taken.add(point.id);
		this.table.volts[point.id] = value;
		this.table.taken.push({ point: point.id, title: point.title, value, line: this.line });
	}

	/** A reading at an electrode of a valve. */
	read(named: Named, electrode: Electrode, cell: string): void {
		const says = cellSays(cell);
		if (says.is === 'empty') return;
		const what = `${this.line.slice(0, 60)} (${cell})`;
		if (says.is !== 'volts') {
			this.aside(
				says.is === 'other' ? says.why : `“${cell}” is no voltage. Correct it, or put a dash.`,
				what
			);
			return;
		}
		const point = pointOf(this.plan, named, electrode, this.#taken);
		if (!point) this.aside(NO_PLACE, what);
		else {
			if (named.byNumber) this.#tellNumber(named.byNumber, named.valves[0] ?? '');
			this.put(point, says.value, what);
		}
	}

	#tellNumber(number: string, id: string): void {
		const { type = '', title = '' } = this.plan.valves[id] ?? {};
		this.note(`${number} is taken as the ${type} (${title}), by the order of the list above.`);
	}

	/** The valve that a line is about: its own, or that of the line before where it names none or its triode only. */
	valveOf(words: readonly string[]): Named | undefined {
		const named = valveNamed(this.plan, words);
		if (named?.stranger !== undefined) {
			this.aside(
				`“${named.stranger}” is not among the valves of this set. If it stands in a place of the list, correct the type there and take the table again; for any other valve the survey has no place.`
			);
			return undefined;
		}
		const blank = words.every((word) => word.trim() === '');
		const found =
			named && named.valves.length > 0
				? named
				: this.last && (blank || named)
					? { ...this.last, osc: named?.osc ?? false }
					: undefined;
		if (found) this.last = found;
		else
			this.aside(
				`“${words.join(' ').trim() || this.line}” is no valve or point of this set. Name the valve by its type, as under Valves.`
			);
		return found;
	}
}

/** A line of heads: electrodes, their units below, or valves over rows of electrodes. */
function takeHeads(reading: Reading, line: Cut): boolean {
	const units = reading.heads && withUnits(reading.heads, line);
	const heads = units ?? headsOf(line);
	if (heads) {
		reading.heads = heads;
		reading.across = undefined;
		return true;
	}
	const cells = line.cells.map(({ text }) => text);
	const body =
		cells[0] === '' || /^(?:valve|electrode|point)s?$/i.test(cells[0] ?? '') ? cells.slice(1) : cells;
	const across = body.map((cell) => valveNamed(reading.plan, [cell]));
	const ids = new Set(across.flatMap((named) => named?.valves ?? []));
	const least = body.length < cells.length ? 2 : 3;
	if (body.length < least || ids.size < body.length || across.some((named) => !named?.valves.length))
		return false;
	reading.across = across as Named[];
	reading.heads = undefined;
	return true;
}

/** A row of electrodes under heads that are valves. */
function takeAcross(reading: Reading, { cells }: Cut): boolean {
	const heads = headsOf({ cells: [{ text: 'valve', from: 0, to: 0 }, ...cells.slice(0, 1)], by: 'sign' });
	const [, head] = heads ?? [];
	if (!reading.across || !head) return false;
	const values = cells.slice(1).filter(({ text }) => !/^(?:m?v|volts?|ma)$/i.test(text));
	if (head.of === 'other' || head.of === 'name') reading.note(NO_VOLTS);
	else if (values.length > reading.across.length) reading.aside('More figures stand here than valves above.');
	else
		for (const [index, { text }] of values.entries()) {
			const named = reading.across[index];
			if (named) reading.read(named, head.of, text);
		}
	return true;
}

/** What stands before an electrode and says which: `screen grid`, `oscillator anode`. */
const plainWords = (line: string): string =>
	line
		.replace(/screen[- ]grid/gi, 'screen')
		.replace(/(?:control|signal)[- ]grid/gi, 'g1')
		.replace(/\bgrid ([12])\b/gi, 'g$1')
		.replace(/\b(?:osc(?:illator)?\.?|triode) (?:anode|plate|a)\b/gi, 'a(t)')
		.replace(/\b(anode|plate|screen|cathode|grid)\s+(?:volts?|voltage|v)\b\.?/gi, '$1');
const FILLERS = /^(?:on|at|the|is|to|of|and|=|:|-)$/i;

const isFigure = (says: CellSays) => says.is === 'volts' || says.is === 'other';

/** Readings told in words, each beside its electrode: `V3 a 85 V g2 85 V`, `EL84: 245 V on the anode`. */
function takePairs(reading: Reading): boolean {
	const words = wordsOf(plainWords(reading.line)).filter((word, index) => index === 0 || !FILLERS.test(word));
	const says = words.map(cellSays);
	const isPair = (index: number, step: 1 | -1) => {
		const beside = says[index + step];
		return electrodeWord(words[index] ?? '') !== undefined && beside !== undefined && isFigure(beside);
	};
	const step = electrodeWord(words.at(-1) ?? '') === undefined ? 1 : -1;
	const first = words.findIndex((_, index) => index > 0 - step && isPair(index, step));
	const start = step === 1 ? first : first - 1;
	if (start < 0) return false;
	const named = reading.valveOf(words.slice(0, start));
	if (!named) return true;
	for (let index = start; index < words.length; index += 2) {
		const [electrode, cell] =
			step === 1 ? [words[index], words[index + 1]] : [words[index + 1], words[index]];
		const of = electrodeWord(electrode ?? '');
		if (of === undefined || cell === undefined) {
			if (words.slice(index).some((word) => /\d/.test(word)))
				reading.aside(
					`“${words.slice(index).join(' ')}” was not understood. Write electrode and volts in turn.`
				);
			break;
		}
		reading.read(named, of, cell);
	}
	return true;
}

/** HT, or a point by its own name, with its volts at the end. */
function takePoint(reading: Reading, { cells, by }: Cut): boolean {
	const texts = cells.map(({ text }) => text).filter(Boolean);
	const at = texts.findIndex((text, index) => index > 0 && isFigure(cellSays(text)));
	const name = texts.slice(0, at < 0 ? undefined : at).join(by === 'sign' ? ' ' : ' ');
	const point = pointNamed(reading.plan, name);
	if (!point) return false;
	const cell = at < 0 ? '' : (texts[at] ?? '');
	const says = cellSays(cell);
	if (says.is === 'volts') reading.put(point, says.value);
	else if (says.is === 'other') reading.aside(says.why);
	else reading.aside('No volts stand in this line.');
	return true;
}

interface Row {
	label: string[];
	/** Each cell with the head that it stands under. */
	cells: { head: Head; text: string }[];
}

/** Cells parted by a sign stand under the head of the same number; a table without a head over its names has one cell more. */
function rowBySign(heads: readonly Head[], { cells }: Cut): Row {
	const texts = cells.map(({ text }) => text);
	const named = heads.some(({ of }) => of === 'name');
	const shift = named ? 0 : Math.max(texts.length - heads.length, 1);
	const first = shift + heads.findIndex(({ of }) => of !== 'name');
	return {
		label: texts.slice(0, first),
		cells: heads.flatMap((head, index) =>
			head.of === 'name' ? [] : [{ head, text: texts[index + shift] ?? '' }]
		)
	};
}

/** Cells parted by blanks: as many as there are columns, or each under the head that it stands below. */
function rowByRoom(heads: readonly Head[], { cells, by }: Cut): Row | string {
	const columns = heads.filter(({ of }) => of !== 'name');
	const last = cells.findLastIndex(({ text }, index) => index === 0 || cellSays(text).is === 'words');
	const start = Math.max(last + 1, cells.length - columns.length, 1);
	const label = cells.slice(0, start).map(({ text }) => text);
	const values = cells.slice(start);
	if (values.length === columns.length)
		return { label, cells: columns.map((head, index) => ({ head, text: values[index]?.text ?? '' })) };
	const below = values.map(({ text, from, to }) => {
		const middle = (from + to) / 2;
		const heading = columns.filter((head) => from < head.to && head.from < to);
		const near =
			heading.length === 1
				? heading[0]
				: columns.find((head) => Math.abs((head.from + head.to) / 2 - middle) <= 2);
		return near && { head: near, text };
	});
	const placed = below.filter((one) => one !== undefined);
	const plain = by === 'blanks' && placed.length === values.length;
	if (plain && values.length > 0 && new Set(placed.map(({ head }) => head)).size === placed.length)
		return { label, cells: placed };
	return `${values.length === 1 ? '1 figure stands' : `${values.length} figures stand`} under ${columns.length} heads: put a dash where nothing was read.`;
}

/** A row under heads that are electrodes. */
function takeRow(reading: Reading, line: Cut, bySign: boolean): void {
	const { heads } = reading;
	if (!heads) {
		const named = valveNamed(
			reading.plan,
			line.cells.map(({ text }) => text)
		);
		if (!line.cells.some(({ text }) => isFigure(cellSays(text))) && named && named.valves.length > 0) {
			// The name of a valve over lines of its own.
			reading.last = named;
			return;
		}
		if (named && named.stranger === undefined) reading.aside(NO_HEADS);
		else reading.valveOf(line.cells.map(({ text }) => text).slice(0, 1));
		return;
	}
	const row = bySign && line.by === 'sign' ? rowBySign(heads, line) : rowByRoom(heads, line);
	const label = typeof row === 'string' ? line.cells.slice(0, 2).map(({ text }) => text) : row.label;
	const named = reading.valveOf(label);
	if (!named) return;
	if (typeof row === 'string') {
		reading.aside(row);
		return;
	}
	for (const { head, text } of row.cells) {
		if (head.of === 'name') continue;
		if (head.of !== 'other') reading.read(named, head.of, text);
		else if (/\d/.test(text)) reading.note(NO_VOLTS);
	}
}

/**
 * Read a pasted table, in the shapes in which sheets and forum posts give one: a row for each valve under heads of electrodes, or the
 * other way round; one reading a line; all readings of a valve in one line (`V3 a 85 V g2 85 V k 2.1 V`). Columns of current are left
 * out; unknown valves, points and cells are listed, everything else is taken.
 */
export function readTable(text: string, plan: Plan): PastedTable {
	const reading = new Reading(plan);
	let bySign = false;
	for (const [index, raw] of text.split(/\r?\n/).entries()) {
		if (raw.trim() === '' || /^[\s|:+=-]+$/.test(raw)) continue;
		reading.line = raw.trim();
		reading.at = index + 1;
		const line = cut(raw);
		if (takeHeads(reading, line)) {
			bySign = line.by === 'sign';
			continue;
		}
		const conditions = conditionsIn(raw);
		if (conditions) Object.assign(reading.table.sheet, conditions);
		else if (!takeAcross(reading, line) && !takePoint(reading, line) && !takePairs(reading))
			takeRow(reading, line, bySign);
	}
	return reading.table;
}
