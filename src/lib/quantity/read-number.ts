/** The figures at the beginning of what was typed, and what stands after them. */
export type NumberReading =
	| {
			ok: true;
			/** Decimal spellings that the figures may stand for: one, or more where the commas leave a doubt. */
			numbers: readonly string[];
			/** False where the person is to be asked, even about a single reading. */
			sure: boolean;
			/** Unit and prefix letters, as typed. */
			tail: string;
	  }
	| { ok: false; fault: NumberFault };

export type NumberFault =
	'no-number' | 'number-not-first' | 'two-points' | 'two-commas' | 'two-signs' | 'point-and-letter';

interface Figures {
	numbers: readonly string[];
	sure: boolean;
}

const MINUS = /[\u2010-\u2015\u2212\uFE63\uFF0D]/g;
const FRACTIONS: readonly (readonly [RegExp, string])[] = [
	[/½/g, '.5'],
	[/¼/g, '.25'],
	[/¾/g, '.75']
];

/** Brings look-alike signs to the ones used inside: minus, micro, ohm, degree, spaces. */
export function tidy(text: string): string {
	const signs = text
		.replace(MINUS, '-')
		.replace(/[µμ]/g, 'u')
		.replace(/[ΩΩ]/g, 'ohm')
		.replace(/[º˚]/g, '°')
		.replace(/\s+/g, ' ')
		.trim();
	return FRACTIONS.reduce((sofar, [mark, digits]) => sofar.replace(mark, digits), signs);
}

/**
 * Reads the number from tidied text: `4k7` gives 4.7 with `k` after it, `-1.2V` gives -1.2 with `V`. With `letterForPoint`
 * false, as for times, `1h30` is not taken for 1.30 h.
 */
export function readNumber(text: string, letterForPoint = true): NumberReading {
	const [, signs = '', rest = ''] = /^((?:[-+] ?)*)(.*)$/.exec(text.replace(/^minus ?/i, '-')) ?? [];
	const sign = signs.replace(/ /g, '');
	if (sign.length > 1) return { ok: false, fault: 'two-signs' };
	const read =
		readFraction(rest) ?? (letterForPoint ? readLetterForPoint(rest) : undefined) ?? readFigures(rest);
	if (!read.ok || sign !== '-') return read;
	return { ...read, numbers: read.numbers.map((digits) => `-${digits}`) };
}

/** `1/2 W` and `1 1/2 W`: halves, quarters and eighths only, which are exact. */
function readFraction(text: string): NumberReading | undefined {
	const found = /^(?:(\d{1,3})[ -])?([1-7])\/([248])(?!\d)(.*)$/.exec(text);
	if (!found) return undefined;
	const [, whole = '0', above, below, tail = ''] = found;
	return { ok: true, numbers: [String(Number(whole) + Number(above) / Number(below))], sure: true, tail };
}

/** `4k7`, `M47`, `2u2`, `6V3`: the letter stands where the point would. */
function readLetterForPoint(text: string): NumberReading | undefined {
	const found = /^(\d*)([RrkKMGpPnNuUm]|(?<=\d)[VvAaWwHE])(\d+)(?![\d.,]*[.,]\d)(.*)$/.exec(text);
	if (!found)
		return /^\d*[.,]\d*[RrkKMGpPnNuUm]\d/.test(text) ? { ok: false, fault: 'point-and-letter' } : undefined;
	const [, whole = '', letter = '', part = '', after = ''] = found;
	const number = `${whole || '0'}.${part}`;
	if (letter !== 'E') return { ok: true, numbers: [number], sure: true, tail: letter + after };
	return { ok: true, numbers: [number, `${whole}e${part}`], sure: false, tail: after };
}

function readFigures(text: string): NumberReading {
	const spaced = /^(\d{1,3}(?: \d{3})+)(?![\d.,])(.*)$/.exec(text);
	if (spaced)
		return { ok: true, numbers: [spaced[1]?.replace(/ /g, '') ?? ''], sure: false, tail: spaced[2] ?? '' };
	const [, figures = '', power = '', tail = ''] = /^([\d.,]*)((?<=[\d.])[eE][-+]?\d+)?(.*)$/.exec(text) ?? [];
	if (!/\d/.test(figures)) return { ok: false, fault: /\d/.test(text) ? 'number-not-first' : 'no-number' };
	const read = readSeparators(figures);
	if (typeof read === 'string') return { ok: false, fault: read };
	return { ok: true, numbers: read.numbers.map((digits) => digits + power), sure: read.sure, tail };
}

/** Settles which commas and points are decimal and which only set off thousands. */
function readSeparators(figures: string): Figures | NumberFault {
	const points = figures.split('.').length - 1;
	const commas = figures.split(',').length - 1;
	if (points > 0 && commas > 0) return readMixed(figures, points, commas);
	if (points > 1) return 'two-points';
	if (commas > 1)
		return /^\d{1,3}(,\d{3})+$/.test(figures) ? certain(figures.replace(/,/g, '')) : 'two-commas';
	const decimal = figures.replace(',', '.');
	if (/^[1-9]\d{0,2},\d{3}$/.test(figures))
		return { numbers: [figures.replace(',', ''), decimal], sure: false };
	return certain(decimal);
}

/** `1,234.5` and the Continental `1.234,5`: the last mark is the decimal one if the rest groups by three. */
function readMixed(figures: string, points: number, commas: number): Figures | NumberFault {
	if (/^\d{1,3}(,\d{3})+\.\d*$/.test(figures)) return certain(figures.replace(/,/g, ''));
	if (/^\d{1,3}(\.\d{3})+,\d*$/.test(figures)) return certain(figures.replace(/\./g, '').replace(',', '.'));
	return points >= commas ? 'two-points' : 'two-commas';
}

const certain = (number: string): Figures => ({ numbers: [number], sure: true });
