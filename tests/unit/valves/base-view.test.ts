import { describe, expect, test } from 'vitest';
import { type Base, bases, countTo, pinPlaces } from '../../../src/lib/valves/index.ts';

const numbered = (Object.keys(bases) as Base[]).filter((base) => bases[base].order !== 'contacts');

describe.each(numbered)('%s', (base) => {
	const wiring = pinPlaces(base, 'wiring');

	test('every pin has a place of its own on the circle', () => {
		expect(wiring.map(({ pin }) => pin)).toEqual(Array.from({ length: bases[base].pins }, (_, i) => i + 1));
		for (const { x, y } of wiring) expect(Math.hypot(x, y)).toBeCloseTo(1, 9);
		expect(new Set(wiring.map(({ x, y }) => `${x.toFixed(3)} ${y.toFixed(3)}`)).size).toBe(wiring.length);
	});

	test('seen from the wiring side the pins go clockwise, pin 1 to the left of the mark below', () => {
		const turn = (x: number, y: number) => (Math.atan2(-x, y) * 180) / Math.PI;
		const angles = wiring.map(({ x, y }) => (turn(x, y) + 360) % 360);
		expect(angles).toEqual([...angles].sort((a, b) => a - b));
		expect(wiring[0]?.x).toBeLessThan(0);
		expect(wiring.at(-1)?.x).toBeGreaterThan(0);
	});

	test('seen from the valve side it is the mirror image', () => {
		const valve = pinPlaces(base, 'valve');
		wiring.forEach(({ x, y }, index) => {
			expect(valve[index]?.x).toBeCloseTo(-x, 9);
			expect(valve[index]?.y).toBeCloseTo(y, 9);
		});
	});

	test('every pin can be counted to, never further than half way round', () => {
		for (let pin = 1; pin <= bases[base].pins; pin++)
			for (const side of ['wiring', 'valve'] as const)
				expect(countTo(base, pin, side)).toMatch(/^(first|second|third|fourth|fifth) (anti)?clockwise from /);
	});
});

describe('counting', () => {
	test('pin 7 of a noval is the third anticlockwise from the gap, from below', () => {
		expect(countTo('B9A', 7, 'wiring')).toBe(
			'third anticlockwise from the wide gap between pins 9 and 1, seen from the wiring side'
		);
		expect(countTo('B9A', 7, 'valve')).toContain('third clockwise');
	});

	test('pin 3 of an octal is the third clockwise from the key, from below', () => {
		expect(countTo('octal', 3, 'wiring')).toContain('third clockwise from the key of the centre spigot');
	});

	test('a base with five pins is counted from the middle of its close pair: none of its pins is thick', () => {
		expect(countTo('UX5', 2, 'wiring')).toBe(
			'second clockwise from the middle between pins 5 and 1, seen from the wiring side'
		);
	});

	test('the close pair of a base with five pins is drawn closer than the rest', () => {
		const places = pinPlaces('UX5', 'wiring');
		const between = (one: number, other: number) =>
			Math.hypot(places[one]!.x - places[other]!.x, places[one]!.y - places[other]!.y);
		for (let pin = 0; pin < 4; pin++) expect(between(pin, pin + 1)).toBeGreaterThan(1.1 * between(4, 0));
	});

	test('a pin that the base has not, and a side contact, are not counted', () => {
		expect(countTo('B7G', 8, 'wiring')).toBeUndefined();
		expect(countTo('B7G', 0, 'wiring')).toBeUndefined();
		expect(countTo('P8', 1, 'wiring')).toBeUndefined();
		expect(pinPlaces('P8', 'wiring')).toEqual([]);
	});

	test('the gap of a noval and of a seven-pin base is one place wide', () => {
		const gapOf = (base: Base) => {
			const places = pinPlaces(base, 'wiring');
			const [first, last] = [places[0]!, places.at(-1)!];
			return Math.hypot(first.x - last.x, first.y - last.y);
		};
		expect(gapOf('B9A')).toBeCloseTo(2 * Math.sin(Math.PI / 5), 9);
		expect(gapOf('B7G')).toBeCloseTo(2 * Math.sin(Math.PI / 4), 9);
	});
});
