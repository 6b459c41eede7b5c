/** Codes printed on parts: `4K7`, `R47`, `4n7` (IEC 60062), `104K` in picofarads, `2A104J` with volts in front. */

export interface Letter {
	/** Per cent, both ways. */
	tolerance?: number;
	/** Farads, both ways, on small capacitors. */
	margin?: number;
	/** Where more is allowed up than down. */
	words?: string;
}

export const LETTERS: Readonly<Record<'B' | 'C' | 'D' | 'F' | 'G' | 'H' | 'J' | 'K' | 'M' | 'Z', Letter>> = {
	B: { margin: 0.1e-12 },
	C: { margin: 0.25e-12 },
	D: { margin: 0.5e-12 },
	F: { tolerance: 1 },
	G: { tolerance: 2 },
	H: { tolerance: 3 },
	J: { tolerance: 5 },
	K: { tolerance: 10 },
	M: { tolerance: 20 },
	Z: { words: '+80 −20 %' }
};
export type ToleranceLetter = keyof typeof LETTERS;

/** Working volts DC of film capacitors by their two-sign code (EIA). */
const VOLTS: Readonly<Record<string, number>> = {
	'1E': 25,
	'1H': 50,
	'1J': 63,
	'1K': 80,
	'2A': 100,
	'2B': 125,
	'2C': 160,
	'2D': 200,
	'2E': 250,
	'2F': 315,
	'2V': 350,
	'2G': 400,
	'2W': 450,
	'2H': 500,
	'2J': 630,
	'3A': 1000
};

const POINT_LETTERS: Readonly<Record<string, { kind: 'resistor' | 'capacitor'; power: number }>> = {
	R: { kind: 'resistor', power: 0 },
	K: { kind: 'resistor', power: 3 },
	M: { kind: 'resistor', power: 6 },
	G: { kind: 'resistor', power: 9 },
	p: { kind: 'capacitor', power: -12 },
	n: { kind: 'capacitor', power: -9 },
	u: { kind: 'capacitor', power: -6 }
};

export interface PrintedCode {
	kind: 'resistor' | 'capacitor';
	/** Ohms or farads. */
	value: number;
	letter: ToleranceLetter | undefined;
	volts: number | undefined;
}

const isLetter = (text: string | undefined): text is ToleranceLetter => text !== undefined && text in LETTERS;
const tidy = (code: string): string =>
	code
		.replace(/\s/g, '')
		.replace(/[µμU]/g, 'u')
		.replace(/^k|(?<=\d)k/, 'K');

/** A letter in the place of the point, with a letter of tolerance after it or none. */
function withPoint(code: string): PrintedCode | undefined {
	const [, whole = '', letter = '', part = '', last] =
		/^(\d*)([RKMGpnu])(\d*)([BCDFGHJKMZ]?)$/.exec(code) ?? [];
	const found = POINT_LETTERS[letter];
	if (!found || whole + part === '') return undefined;
	const value = Number(`${whole || '0'}.${part || '0'}e${found.power}`);
	return { kind: found.kind, value, letter: isLetter(last) ? last : undefined, volts: undefined };
}

/** Two figures and the number of noughts, in picofarads. */
function threeFigures(code: string): PrintedCode | undefined {
	const [, volts, figures = '', noughts, last] = /^(\d[A-HJ-Z])?(\d\d)(\d)([BCDFGHJKMZ]?)$/.exec(code) ?? [];
	if (noughts === undefined || (volts !== undefined && VOLTS[volts] === undefined)) return undefined;
	// 8 and 9 divide: 109 is 1 pF.
	const power = noughts === '9' ? -1 : noughts === '8' ? -2 : Number(noughts);
	return {
		kind: 'capacitor',
		value: Number(`${figures}e${power - 12}`),
		letter: isLetter(last) ? last : undefined,
		volts: volts === undefined ? undefined : VOLTS[volts]
	};
}

/** All that a code can mean: one reading, none, or two for `100K` (100 kohm, or 10 pF of 10 %). */
export function readPrinted(text: string): PrintedCode[] {
	const code = tidy(text);
	const readings = [threeFigures(code), withPoint(code)];
	return readings.filter((one) => one !== undefined && one.value > 0) as PrintedCode[];
}
