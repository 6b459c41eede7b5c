import { bases } from './bases.ts';
import type { Base } from './types.ts';

/** The side from which a base is looked at: the wiring below the chassis, or the valve above it. */
export type Side = 'wiring' | 'valve';

/** A pin on a circle of radius 1 round 0, 0; y grows downwards, the mark is at the bottom. */
export interface PinPlace {
	pin: number;
	x: number;
	y: number;
}

const DEGREE = Math.PI / 180;
/** Degrees between two pins that stand close together; from memory. */
const PAIR = 60;

/** Degrees from the mark to a pin, clockwise as seen from the wiring side. */
function angleOf(base: Base, pin: number): number {
	const { pins, order } = bases[base];
	if (order === 'pair') return PAIR / 2 + ((pin - 1) * (360 - PAIR)) / (pins - 1);
	return order === 'gap' ? (pin * 360) / (pins + 1) : ((pin - 0.5) * 360) / pins;
}

/** Where the pins stand; none for a base whose contacts are not numbered here. */
export function pinPlaces(base: Base, side: Side): PinPlace[] {
	const { pins, order } = bases[base];
	if (order === 'contacts') return [];
	const way = side === 'wiring' ? -1 : 1;
	return Array.from({ length: pins }, (_, index) => {
		const angle = angleOf(base, index + 1) * DEGREE;
		return { pin: index + 1, x: way * Math.sin(angle), y: Math.cos(angle) };
	});
}

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth'];

/**
 * How to count to a pin by eye and finger, by the shorter way round: "third anticlockwise from the wide gap between pins 9
 * and 1, seen from the wiring side". Nothing for a base that is not numbered here or a pin that it has not.
 */
export function countTo(base: Base, pin: number, side: Side): string | undefined {
	const { pins, order, mark } = bases[base];
	if (order === 'contacts' || !Number.isInteger(pin) || pin < 1 || pin > pins) return undefined;
	const fromFirst = pin <= (pins + 1) / 2;
	const ordinal = ORDINALS[(fromFirst ? pin : pins + 1 - pin) - 1];
	const clockwise = fromFirst === (side === 'wiring');
	const byPair = order === 'thick-pins' || order === 'pair';
	const start = byPair ? `the middle between pins ${pins} and 1` : mark.replace(/,.*$/, '');
	return `${ordinal} ${clockwise ? 'clockwise' : 'anticlockwise'} from ${start}, seen from the ${side} side`;
}
