/** Colours, letters and figures on parts. Values in ohms and farads, tolerances in per cent. */

export const DIGITS = [
	'black',
	'brown',
	'red',
	'orange',
	'yellow',
	'green',
	'blue',
	'violet',
	'grey',
	'white'
] as const;
export const COLOURS = [...DIGITS, 'gold', 'silver', 'none'] as const;
export type Colour = (typeof COLOURS)[number];

export interface Marked {
	value: number;
	tolerance: number | undefined;
}

/** 0 to 9; undefined for gold, silver and none. */
export function digitOf(colour: Colour): number | undefined {
	const digit = DIGITS.findIndex((one) => one === colour);
	return digit < 0 ? undefined : digit;
}

/** The power of ten that a multiplier colour stands for. */
function powerOf(colour: Colour): number | undefined {
	if (colour === 'gold') return -1;
	return colour === 'silver' ? -2 : digitOf(colour);
}

const TOLERANCES: Readonly<Partial<Record<Colour, number>>> = {
	brown: 1,
	red: 2,
	gold: 5,
	silver: 10,
	none: 20
};

/** Digits and a multiplier, as exact as print: 86 and -1 are 8.6. */
function valueOf(digits: readonly (number | undefined)[], power: number | undefined): number | undefined {
	if (power === undefined || digits.some((digit) => digit === undefined)) return undefined;
	return Number(`${digits.join('')}e${power}`);
}

/** Bands of a resistor from the end they crowd at: two digits, multiplier and tolerance, or three digits with five bands. */
export function fromBands(bands: readonly Colour[]): Marked | undefined {
	const figures = bands.length >= 5 ? 3 : 2;
	const multiplier = bands[figures];
	if (multiplier === undefined) return undefined;
	const value = valueOf(bands.slice(0, figures).map(digitOf), powerOf(multiplier));
	return value === undefined ? undefined : { value, tolerance: TOLERANCES[bands[figures + 1] ?? 'none'] };
}

/** Body, end and dot of an old resistor; a dot that cannot be seen has the colour of the body. */
export function fromBody(
	body: Colour,
	end: Colour,
	dot: Colour = body,
	fourth: Colour = 'none'
): Marked | undefined {
	const value = valueOf([digitOf(body), digitOf(end)], powerOf(dot));
	return value === undefined ? undefined : { value, tolerance: TOLERANCES[fourth] };
}

/** The four bands of a value of two figures; undefined where two figures do not tell it. Tolerance in per cent. */
export function bandsOf(ohms: number, tolerance: number): Colour[] | undefined {
	const [figures = '', power = '0'] = ohms.toExponential(1).split('e');
	const digits = figures.replace('.', '');
	const multiplier = Number(power) - 1;
	if (Math.abs(Number(`${digits}e${multiplier}`) / ohms - 1) > 1e-9) return undefined;
	const colour = multiplier === -1 ? 'gold' : multiplier === -2 ? 'silver' : DIGITS[multiplier];
	const fourth = COLOURS.find((one) => TOLERANCES[one] === tolerance);
	const [first, second] = [...digits].map((digit) => DIGITS[Number(digit)]);
	if (!first || !second || !colour || !fourth) return undefined;
	return fourth === 'none' ? [first, second, colour] : [first, second, colour, fourth];
}

export interface MarkedCapacitor extends Marked {
	volts: number | undefined;
	make: string | undefined;
}

const PICO = -12;
/** Mica dots tell their tolerance by the digit of the colour, black standing for 20 %. */
const micaTolerance = (colour: Colour): number | undefined =>
	colour === 'black' ? 20 : colour === 'gold' ? 5 : colour === 'silver' ? 10 : digitOf(colour);
/** Hundreds of volts by the digit, gold for 1000, silver for 2000, none for 500. */
function micaVolts(colour: Colour): number | undefined {
	const round = { gold: 1000, silver: 2000, none: 500 } as const;
	return colour in round ? round[colour as keyof typeof round] : (digitOf(colour) ?? 0) * 100 || undefined;
}

const TYPES: Readonly<Partial<Record<Colour, string>>> = {
	white: 'mica (EIA)',
	black: 'mica (military)',
	silver: 'paper'
};

function inPico(digits: readonly Colour[], multiplier: Colour): number | undefined {
	const power = powerOf(multiplier);
	return valueOf(digits.map(digitOf), power === undefined ? undefined : power + PICO);
}

/**
 * Mica dots: three along the arrow, five with volts and tolerance after them, or six, the top row first and the bottom row from its left end as well. Six dots that do not
 * begin with white, black or silver have three figures on top and volts at the lower left.
 */
export function fromMicaDots(dots: readonly Colour[]): MarkedCapacitor | undefined {
	const [first = 'none', second = 'none', third = 'none', fourth = 'none', fifth = 'none', sixth = 'none'] =
		dots;
	if (dots.length === 3 || dots.length === 5) {
		const value = inPico([first, second], third);
		const tolerance = fifth === 'none' ? 20 : micaTolerance(fifth);
		return value === undefined ? undefined : { value, tolerance, volts: micaVolts(fourth), make: undefined };
	}
	const make = TYPES[first];
	const value = inPico(make ? [second, third] : [first, second, third], sixth);
	if (dots.length !== 6 || value === undefined) return undefined;
	return {
		value,
		tolerance: micaTolerance(fifth),
		volts: make ? undefined : micaVolts(fourth),
		make: make ?? 'mica (RMA)'
	};
}
