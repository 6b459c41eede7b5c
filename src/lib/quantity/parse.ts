import {
	doubtHint,
	emptyHint,
	numberHint,
	tailHint,
	tooLargeHint,
	unitNeededHint,
	wrongUnitHint
} from './hints.ts';
import { printInFull } from './print.ts';
import { type NumberReading, readNumber, tidy } from './read-number.ts';
import { type ScaleName, scaleOf, toBase } from './scales.ts';
import {
	type UnitReading,
	readUnit,
	tidyTail,
	unitLeftOut,
	unitOfLetter,
	unitsSpelled
} from './spellings.ts';
import { type Unit, units } from './units.ts';

/** One thing that a doubtful entry may mean: its value in base units, and how to show it on a button. */
export interface Choice {
	value: number;
	label: string;
}

export interface Refusal {
	ok: false;
	kind: 'empty' | 'unreadable' | 'wrong-unit' | 'doubtful';
	/** A sentence naming what is wrong and the remedy. */
	hint: string;
	/** For `doubtful`: one or more. Nothing is chosen for the person. */
	choices?: Choice[];
}

/** `value` is in base units; `echo` repeats it in full: `0.05 µF (50 nF)`. */
export type ParsedQuantity = { ok: true; value: number; echo: string } | Refusal;

export type ParsedAnyQuantity = { ok: true; value: number; unit: Unit; echo: string } | Refusal;

export interface ParseOptions {
	/** The scale of a number typed without a unit, where the field shows one: `kHz` beside the box. */
	bare?: ScaleName;
	/** What a comma before three figures is, where that is known (`1,000` from our own printing). Left out, it is asked. */
	comma?: 'thousands' | 'decimal';
}

type GoodNumber = Extract<NumberReading, { ok: true }>;

const refuse = (kind: 'empty' | 'unreadable' | 'wrong-unit', hint: string): Refusal => ({
	ok: false,
	kind,
	hint
});

/**
 * Reads a value as the trade writes it (`4k7`, `.05 mfd`, `300 mmfd`, `-1.2V`, `470 kc`) where `unit` is wanted. A number alone
 * is taken in base units if that is how people write that unit (volts, ohms, watts); for the others it is asked about.
 */
export function parseQuantity(text: string, unit: Unit, options: ParseOptions = {}): ParsedQuantity {
	const tidied = unit === '' ? tidy(text).replace(/ ?(:|to) ?1$/, '') : tidy(text);
	if (tidied === '') return refuse('empty', emptyHint(unit));
	const number = settleComma(readNumber(tidied, unit !== 's'), options);
	if (!number.ok) return refuse('unreadable', numberHint(number.fault, text, unit));
	const tail = tidyTail(number.tail);
	if (tail === '') return concludeBare(text, unit, number, options);
	const spelled = readUnit(tail, unit);
	return spelled ? conclude(text, unit, number, spelled) : refuseTail(text, tail, unit);
}

/** Reads a value with its unit (`1.2 V`, `4k7`, `2u2`), as case files write it. A number alone is a bare number. */
export function parseAnyQuantity(text: string, options: ParseOptions = {}): ParsedAnyQuantity {
	const tidied = tidy(text);
	if (tidied === '') return refuse('empty', emptyHint());
	const number = readNumber(tidied);
	if (!number.ok) return refuse('unreadable', numberHint(number.fault, text));
	const unit = unitOfTail(text, tidyTail(number.tail));
	if (typeof unit !== 'string') return unit;
	const parsed = parseQuantity(text, unit, options);
	return parsed.ok ? { ok: true, value: parsed.value, unit, echo: parsed.echo } : parsed;
}

function unitOfTail(text: string, tail: string): Unit | Refusal {
	if (tail === '') return '';
	if (tail === 'm' || tail === 'M')
		return tail === 'M' ? 'ohm' : refuse('unreadable', unitNeededHint(text, []));
	const found = unitsSpelled(tail);
	const [unit] = found;
	if (found.length > 1) return refuse('unreadable', unitNeededHint(text, found));
	return unitOfLetter(tail) ?? unit ?? refuse('unreadable', tailHint(text, tail));
}

function settleComma(number: NumberReading, { comma }: ParseOptions): NumberReading {
	if (!number.ok || comma === undefined || number.numbers.length < 2) return number;
	const [whole = '', decimal = ''] = number.numbers;
	return { ...number, numbers: [comma === 'thousands' ? whole : decimal], sure: true };
}

function refuseTail(text: string, tail: string, wanted: Unit): Refusal {
	const [found] = unitsSpelled(tail);
	if (found === undefined || found === wanted) return refuse('unreadable', tailHint(text, tail, wanted));
	return refuse('wrong-unit', wrongUnitHint(text, found, wanted));
}

function concludeBare(text: string, unit: Unit, number: GoodNumber, { bare }: ParseOptions): ParsedQuantity {
	if (bare === undefined)
		return conclude(text, unit, number, unitLeftOut(unit), codedCapacitor(unit, number));
	if (scaleOf(bare).unit !== unit) throw new TypeError(`${bare} is no scale for ${units[unit].spoken}.`);
	return conclude(text, unit, number, { meanings: [{ name: bare }], sure: true });
}

/** `104` on a capacitor may be the printed code: two figures, then how many noughts, in picofarads. */
function codedCapacitor(unit: Unit, { numbers }: GoodNumber): Choice[] {
	const [, figures, noughts] = /^([1-9]\d)([0-6])$/.exec(numbers[0] ?? '') ?? [];
	if (unit !== 'F' || figures === undefined || noughts === undefined) return [];
	const value = Number(`${figures}e${Number(noughts) - 12}`);
	return [{ value, label: `${printInFull(value, 'F', 'pF')} as a three-figure code` }];
}

/** Every number with every meaning; one certain value is the answer, anything else a question. */
function conclude(
	text: string,
	unit: Unit,
	number: GoodNumber,
	spelled: UnitReading,
	extra: readonly Choice[] = []
): ParsedQuantity {
	const read = number.numbers.flatMap((digits) =>
		spelled.meanings.map(({ name, shown = name }) => choiceOf(digits, name, shown, unit))
	);
	const choices = [...extra, ...read.filter((choice) => choice !== undefined)];
	const [first] = choices;
	if (!first || choices.length < read.length) return refuse('unreadable', tooLargeHint(text));
	const nought = choices.every(({ value }) => value === 0);
	if (nought || (number.sure && spelled.sure)) return { ok: true, value: first.value, echo: first.label };
	const labels = choices.map(({ label }) => label);
	return { ok: false, kind: 'doubtful', hint: doubtHint(text, unit, labels), choices };
}

function choiceOf(digits: string, name: ScaleName, shown: ScaleName, unit: Unit): Choice | undefined {
	const { power, times } = scaleOf(name);
	const value = times === undefined ? shiftDigits(digits, power) : toBase(Number(digits), name);
	// Minus nought is nought: it would print and compare oddly.
	return Number.isFinite(value) ? { value: value + 0, label: printInFull(value, unit, shown) } : undefined;
}

/** Moves the point in the figures as typed, so that `.05 mfd` is 5e-8 and no neighbour of it. */
function shiftDigits(digits: string, places: number): number {
	const [figures = '', power = '0'] = digits.toLowerCase().split('e');
	return Number(`${figures}e${Number(power) + places}`);
}
