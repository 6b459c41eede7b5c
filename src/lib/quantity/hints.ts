import type { NumberFault } from './read-number.ts';
import { type Unit, units } from './units.ts';

const LONGEST_QUOTE = 24;

/** What was typed, in quotation marks, cut to fit a small screen. */
export function quote(text: string): string {
	const trimmed = text.trim();
	return `"${trimmed.length > LONGEST_QUOTE ? `${trimmed.slice(0, LONGEST_QUOTE - 1)}…` : trimmed}"`;
}

const example = (unit: Unit | undefined): string => `for example ${units[unit ?? 'V'].example}`;

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

export function emptyHint(unit?: Unit): string {
	return unit === undefined
		? `Nothing is typed yet. Type a value with its unit, ${example(unit)}.`
		: `Nothing is typed yet. Type ${units[unit].quantity}, ${example(unit)}.`;
}

/** With two points side by side the cure can be spelled out. */
function oneInstead(text: string, mark: string): string {
	const cured = text.trim().replaceAll(mark + mark, mark);
	return cured.split(mark).length === 2
		? `Keep one: ${cured.replace(',', '.')}.`
		: 'Keep only the decimal one.';
}

export function numberHint(fault: NumberFault, text: string, unit?: Unit): string {
	switch (fault) {
		case 'two-points':
			return `There are two points in ${quote(text)}. ${oneInstead(text, '.')}`;
		case 'two-commas':
			return `The commas in ${quote(text)} do not set off thousands. ${oneInstead(text, ',')}`;
		case 'two-signs':
			return `There are two signs before the number in ${quote(text)}. Keep one, or none.`;
		case 'point-and-letter':
			return `${quote(text)} has a point and a letter in its place. Keep one of them: 4.7k or 4k7.`;
		case 'number-not-first':
			return `${quote(text)} does not begin with a number. Leave off what stands before it, ${example(unit)}.`;
		case 'no-number':
			return `There is no number in ${quote(text)}. Type figures, ${example(unit)}.`;
	}
}

const wanted = (unit: Unit): string => {
	if (unit === '') return 'a number alone is wanted here';
	return unit === '%' ? 'a percentage is wanted here' : `${units[unit].spoken} are wanted here`;
};

export function wrongUnitHint(text: string, found: Unit, asked: Unit): string {
	return `${quote(text)} is ${units[found].quantity}; ${wanted(asked)}. Type it like ${units[asked].example}.`;
}

export function tailHint(text: string, tail: string, unit?: Unit): string {
	if (/^[-+]$/.test(tail.trim())) return `The sign in ${quote(text)} stands last. Type it before the number.`;
	if (/\d/.test(tail))
		return `There is more than one value in ${quote(text)}. Type one only, ${example(unit)}.`;
	const letter = /[FGJKM]$/.exec(tail)?.[0];
	if (letter && tail.length === 2) {
		return `${letter} at the end of ${quote(text)} looks like a tolerance letter. Leave it off.`;
	}
	if (unit === '') return `A number alone is wanted here. Leave off the end of ${quote(text)}.`;
	const known = unit === undefined ? 'a unit' : `a unit for ${units[unit].quantity}`;
	return `The end of ${quote(text)}, ${quote(tail)}, is not ${known}. Type it like ${units[unit ?? 'V'].example}.`;
}

export function unitNeededHint(text: string, found: readonly Unit[]): string {
	const named = found.map((unit) => units[unit].quantity);
	const could = named.length > 1 ? ` could be ${named.join(' or ')}` : ' does not name its unit';
	return `${quote(text)}${could}. Write the unit out, for example ${units[found[0] ?? 'V'].example}.`;
}

export function tooLargeHint(text: string): string {
	return `${quote(text)} is beyond anything in a set. Check the figures and the power of ten.`;
}

export function doubtHint(text: string, unit: Unit, labels: readonly string[]): string {
	const [only = ''] = labels;
	if (labels.length === 1) return `${capital(units[unit].quantity)} of ${quote(text)}: is ${only} meant?`;
	return `${quote(text)} could be ${labels.slice(0, -1).join(', ')} or ${labels.at(-1)}. Which is meant?`;
}
