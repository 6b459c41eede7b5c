import type { Base } from './types.ts';

/** How the pins of a base stand, seen from the wiring side, and from where they are counted. */
export interface BaseShape {
	name: string;
	american: string;
	pins: number;
	/**
	 * `gap`: evenly on a circle with one place left out between the last and the first; `mark`: evenly all round, counted from a
	 * key, spigot or pip; `thick-pins`: the first and the last pin tell the way round;
	 * `pair`: so do they, by standing close together; `contacts`: not numbered here.
	 */
	order: 'gap' | 'mark' | 'thick-pins' | 'pair' | 'contacts';
	/** The mark stands on the rim, not on a spigot in the middle. */
	rim?: true;
	/** What the first pin is counted from, as the eye and the finger find it. */
	mark: string;
	/** Pins that usually carry the heater; from memory. */
	heater?: readonly [number, number];
	/** Whether the way of counting was read in a source or is from memory. */
	basis: 'maker sheets of valves on this base' | 'from memory';
}

const NINE = 'maker sheets of valves on this base';

/** Every base that a valve of the data stands on. Pin counts and marks from memory unless `basis` says otherwise. */
export const bases: Readonly<Record<Base, BaseShape>> = {
	B9A: {
		name: 'noval (B9A)',
		american: 'small-button 9-pin',
		pins: 9,
		order: 'gap',
		mark: 'the wide gap between pins 9 and 1',
		heater: [4, 5],
		basis: NINE
	},
	B7G: {
		name: 'miniature 7-pin (B7G)',
		american: 'miniature button 7-pin',
		pins: 7,
		order: 'gap',
		mark: 'the wide gap between pins 7 and 1',
		heater: [3, 4],
		basis: NINE
	},
	B8A: {
		name: 'rimlock (B8A)',
		american: 'rimlock 8-pin',
		pins: 8,
		order: 'mark',
		rim: true,
		mark: 'the pip on the side of the glass, which falls into the notch of the holder between pins 8 and 1',
		heater: [1, 8],
		basis: 'from memory'
	},
	B8G: {
		name: 'loctal (B8G)',
		american: 'loktal 8-pin',
		pins: 8,
		order: 'mark',
		mark: 'the key of the metal centre spigot, between pins 8 and 1',
		heater: [1, 8],
		basis: 'from memory'
	},
	octal: {
		name: 'international octal',
		american: 'octal',
		pins: 8,
		order: 'mark',
		mark: 'the key of the centre spigot, between pins 8 and 1',
		heater: [2, 7],
		basis: 'from memory'
	},
	P8: {
		name: 'side contact (P8)',
		american: 'side contact',
		pins: 8,
		order: 'contacts',
		mark: 'contacts on the side of the base, not numbered here',
		basis: 'from memory'
	},
	Y8A: {
		name: 'steel valve (Y8A)',
		american: 'steel tube base',
		pins: 8,
		order: 'contacts',
		mark: 'two groups of pins round a centre spigot, not numbered here',
		basis: 'from memory'
	},
	UX4: {
		name: 'American 4-pin (UX4)',
		american: '4-pin',
		pins: 4,
		order: 'thick-pins',
		mark: 'the two thick pins, which are 1 and 4',
		heater: [1, 4],
		basis: 'from memory'
	},
	UX5: {
		name: 'American 5-pin (UX5)',
		american: '5-pin',
		pins: 5,
		order: 'pair',
		mark: 'the two heater pins, which are 1 and 5 and stand closer together than the rest',
		heater: [1, 5],
		basis: 'from memory'
	},
	UX6: {
		name: 'American 6-pin (UX6)',
		american: '6-pin',
		pins: 6,
		order: 'thick-pins',
		mark: 'the two thick pins, which are 1 and 6',
		heater: [1, 6],
		basis: 'from memory'
	}
};
