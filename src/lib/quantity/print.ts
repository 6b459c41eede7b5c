import { plainDigits, roundTo, significantDigits, withCommas } from './decimal.ts';
import { type ScaleName, fromBase, scaleOf } from './scales.ts';
import { type Unit, units } from './units.ts';

export interface PrintOptions {
	/** `plain`: `4.7 kΩ`. `code`: `4k7`, the letter in the place of the point, for keys and narrow columns. */
	style?: 'plain' | 'code';
	/**
	 * Significant digits at most, 1 to 15. Left out, a value of six digits or fewer is printed whole and any longer one, which
	 * can only come from a calculation, in four.
	 */
	digits?: number;
	/** The scale to print in, `kHz` for 1,600 kHz; left out, the usual one for the size of the value. */
	as?: ScaleName;
	/** Keeps the noughts at the end up to `digits`, so that a column lines up: `4.70 kΩ`. */
	keepNoughts?: boolean;
}

/** The scales in use for each unit, each with the least value in base units that is printed in it; largest first. */
const LADDERS: Readonly<Partial<Record<Unit, readonly (readonly [ScaleName, number])[]>>> = {
	V: [
		['kV', 1e4],
		['V', 0.1],
		['mV', 1e-4],
		['uV', 0]
	],
	A: [
		['A', 1],
		['mA', 1e-4],
		['uA', 1e-7],
		['nA', 0]
	],
	ohm: [
		['Gohm', 1e9],
		['Mohm', 1e6],
		['kohm', 1e3],
		['ohm', 0]
	],
	W: [
		['kW', 1e4],
		['W', 0.1],
		['mW', 1e-4],
		['uW', 0]
	],
	F: [
		['uF', 1e-6],
		['nF', 1e-9],
		['pF', 0]
	],
	H: [
		['H', 1],
		['mH', 1e-3],
		['uH', 1e-7],
		['nH', 0]
	],
	Hz: [
		['GHz', 1e9],
		['MHz', 1e6],
		['kHz', 1e3],
		['Hz', 0]
	],
	S: [
		['A_V', 1],
		['mA_V', 1e-4],
		['uA_V', 0]
	],
	m: [
		['m', 1],
		['mm', 0]
	],
	'ohm/V': [
		['kohm_per_volt', 1e4],
		['ohm_per_volt', 0]
	],
	'F/m': [['pF_per_m', 0]],
	'A/V^1.5': [['uA_V1_5', 0]]
};

const UNPREFIXED: Readonly<Partial<Record<Unit, ScaleName>>> = {
	'%': 'pct',
	'': 'number',
	dB: 'dB',
	degC: 'C',
	VA: 'VA',
	deg: 'deg'
};

/** A tolerance is known to no more. */
const SPREAD_DIGITS = 2;

/** Letters that may stand for the point (IEC 60062 for R, k, M, G, p, n, u; V, A, W and H as the trade writes 6V3). */
const CODE_LETTERS: Readonly<Partial<Record<ScaleName, string>>> = {
	kV: 'k',
	V: 'V',
	mV: 'm',
	uV: 'u',
	A: 'A',
	mA: 'm',
	uA: 'u',
	nA: 'n',
	Gohm: 'G',
	Mohm: 'M',
	kohm: 'k',
	ohm: 'R',
	W: 'W',
	mW: 'm',
	uW: 'u',
	uF: 'u',
	nF: 'n',
	pF: 'p',
	H: 'H',
	mH: 'm',
	uH: 'u',
	nH: 'n',
	GHz: 'G',
	MHz: 'M',
	kHz: 'k'
};

/** The scale that a value of this size is usually printed in. */
function usualScale(value: number, unit: Unit): ScaleName {
	if (unit === 's') return usualTime(value);
	const size = Math.abs(value);
	const ladder = LADDERS[unit] ?? [];
	const step =
		size === 0 ? ladder.find(([name]) => scaleOf(name).power === 0) : ladder.find(([, from]) => size >= from);
	return step?.[0] ?? ladder.at(-1)?.[0] ?? UNPREFIXED[unit] ?? 'number';
}

/** Minutes and hours only where they come out in tenths and in six digits at most, so that nothing is lost. */
function usualTime(seconds: number): ScaleName {
	const size = Math.abs(seconds);
	if (size >= 7200 && size < 3.6e8 && size % 360 === 0) return 'h';
	if (size >= 120 && size < 6e6 && size % 6 === 0) return 'min';
	if (size >= 0.1 || size === 0) return 's';
	return size >= 1e-4 ? 'ms' : 'us';
}

function tidyValue(value: number, digits: number | undefined): number {
	if (!Number.isFinite(value)) throw new TypeError(`A value to print must be finite, not ${value}.`);
	if (digits !== undefined) return roundTo(value, digits);
	const cleaned = roundTo(value, 12);
	return significantDigits(cleaned) <= 6 ? cleaned : roundTo(value, 4);
}

function paddedDigits(value: number, { digits, keepNoughts }: PrintOptions): string {
	const shown = plainDigits(value);
	const missing = keepNoughts && digits !== undefined && value !== 0 ? digits - significantIn(shown) : 0;
	if (missing <= 0) return shown;
	return `${shown}${shown.includes('.') ? '' : '.'}${'0'.repeat(missing)}`;
}

/** Figures in a printed number, noughts at its front left out, those before the point counted. */
const significantIn = (shown: string): number => shown.replace(/[-.]/g, '').replace(/^0+/, '').length;

/** `4.7` and `k` make `4k7`, `0.47` and `R` make `R47` (but `0V5` keeps its nought); without a point the letter comes last. */
function inCode(number: string, letter: string): string {
	if (!number.includes('.')) return number + letter;
	const short = /[VAWH]/.test(letter) ? number : number.replace(/^(-?)0\./, '$1.');
	return short.replace('.', letter);
}

function inPlain(number: string, symbol: string): string {
	const figures = withCommas(number.replace('-', '')) + (symbol === '' || symbol === '°' ? '' : ' ') + symbol;
	return number.startsWith('-') ? `\u2212${figures}` : figures;
}

/**
 * Prints a value given in base units, with the prefix that the trade uses: `4.7 kΩ`, `50 nF`, `−1.2 V`, `455 kHz`, `12 min`.
 * A unit that has no letter code is printed plain in either style. The plain style reads back through `parseQuantity` (with
 * `comma: 'thousands'` from 1,000 up).
 */
export function printQuantity(value: number, unit: Unit, options: PrintOptions = {}): string {
	const tidied = tidyValue(value, options.digits);
	const name = options.as ?? usualScale(tidied, unit);
	const { symbol, unit: owner } = scaleOf(name);
	if (owner !== unit) throw new TypeError(`A value in ${units[unit].spoken} cannot be printed in ${name}.`);
	const number = paddedDigits(tidyValue(fromBase(tidied, name), options.digits), options);
	const letter = options.style === 'code' ? CODE_LETTERS[name] : undefined;
	return letter ? inCode(number, letter) : inPlain(number, symbol);
}

/**
 * Prints a value in the scale it was written in, then in the usual one if that is another: `0.05 µF (50 nF)`. Every digit is
 * kept, up to 12.
 */
export function printInFull(value: number, unit: Unit, as: ScaleName): string {
	const written = printQuantity(value, unit, { as, digits: 12 });
	const usual = printQuantity(value, unit, { digits: 12 });
	return written === usual ? written : `${written} (${usual})`;
}

/** The figure alone, in the scale named: `1,600` for 1.6 MHz in kilohertz. */
export const printFigure = (value: number, as: ScaleName, digits?: number): string =>
	inPlain(plainDigits(tidyValue(fromBase(value, as), digits)), '');

/** A value and how far it may be off either way, both in the scale of the value: `50 ± 6 mA`. */
export function printWithSpread(
	value: number,
	spread: number,
	unit: Unit,
	options: PrintOptions = {}
): string {
	const as = options.as ?? usualScale(tidyValue(value, options.digits), unit);
	const figures = `${printFigure(value, as, options.digits)} ± ${printFigure(spread, as, SPREAD_DIGITS)}`;
	return [figures, scaleOf(as).symbol].filter(Boolean).join(' ');
}
