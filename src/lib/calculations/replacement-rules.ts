/** What a new part may differ by, and the safety class that a place asks for. */

export const USES = [
	'like for like',
	'tuned or tone circuit',
	'coupling or decoupling',
	'reservoir or smoothing'
] as const;
export type Use = (typeof USES)[number];

/** Per cent by which the new value may be under and over the old one. */
const ALLOWED: Readonly<Record<Use, { under: number; over: number }>> = {
	'like for like': { under: 10, over: 10 },
	'tuned or tone circuit': { under: 5, over: 5 },
	'coupling or decoupling': { under: 20, over: 50 },
	'reservoir or smoothing': { under: 20, over: 50 }
};

const LIKE = 10;
const CRUMBS = 1e-9;

/** `same` within 10 % where the place bears that, `fits` within what the place bears, else `outside`. */
export function valueFit(offPct: number, use: Use): 'same' | 'fits' | 'outside' {
	const { under, over } = ALLOWED[use];
	if (offPct < -under - CRUMBS || offPct > over + CRUMBS) return 'outside';
	return Math.abs(offPct) <= LIKE + CRUMBS ? 'same' : 'fits';
}

export const POSITIONS = [
	'across the mains',
	'mains to chassis, or live chassis to aerial/earth',
	'rectifier anode to chassis',
	'anode to chassis in the output stage'
] as const;
export type Position = (typeof POSITIONS)[number];

const HIGH_VOLTAGE = '1000 to 1600 V DC film';
export const MARKS = ['X1', 'X2', 'Y1', 'Y2', 'Y4', HIGH_VOLTAGE, 'none'] as const;
export type SafetyMark = (typeof MARKS)[number];

interface Place {
	classes: readonly SafetyMark[];
	notAllowed: readonly string[];
}

export const PLACES: Readonly<Record<Position, Place>> = {
	'across the mains': {
		classes: ['X1', 'X2', 'Y1', 'Y2'],
		notAllowed: ['any part without an X or Y mark']
	},
	'mains to chassis, or live chassis to aerial/earth': {
		classes: ['Y1', 'Y2'],
		notAllowed: ['any X part', 'any part without a Y mark']
	},
	'rectifier anode to chassis': {
		classes: [HIGH_VOLTAGE, 'Y1', 'Y2'],
		notAllowed: ['any part of 630 V or less']
	},
	'anode to chassis in the output stage': {
		classes: [HIGH_VOLTAGE, 'Y1', 'Y2'],
		notAllowed: ['any part of 630 V or less']
	}
};

/** A place at the mains asks for a class, one under high peaks for volts. */
export function markFit(mark: SafetyMark, position: Position): 'right' | 'wrong' | 'high enough' | 'too low' {
	const { classes } = PLACES[position];
	const fits = classes.includes(mark);
	if (!classes.includes(HIGH_VOLTAGE)) return fits ? 'right' : 'wrong';
	return fits ? 'high enough' : 'too low';
}

/** Largest impulse that a class is tested for, V (IEC 60384-14). */
export const IMPULSE = { X1: 4000, X2: 2500, Y1: 8000, Y2: 5000, Y4: 2500 } as const;
export type Subclass = keyof typeof IMPULSE;
