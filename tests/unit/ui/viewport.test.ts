import { describe, expect, test } from 'vitest';
import { Hand } from '../../../src/lib/ui/diagram/hand.ts';
import { drawn, MOST_ZOOM, moved, placeAt, WHOLE, zoomed } from '../../../src/lib/ui/diagram/viewport.ts';

const sheet = { width: 2000, height: 1000 };
const window = { width: 400, height: 400 };

describe('a sheet in a window', () => {
	test('the whole sheet fits and lies in the middle', () => {
		expect(drawn(WHOLE, sheet, window)).toEqual({ left: 0, top: 100, width: 400, height: 200 });
	});

	test('what lies under the finger stays there when it is zoomed', () => {
		const finger = { left: 300, top: 180 };
		const before = placeAt(WHOLE, sheet, window, finger);
		const close = zoomed(WHOLE, sheet, window, 4, finger);
		const after = placeAt(close, sheet, window, finger);
		expect(after.x).toBeCloseTo(before.x, 9);
		expect(after.y).toBeCloseTo(before.y, 9);
		expect(close.zoom).toBe(4);
	});

	test('the sheet follows the finger, to its edge and no further', () => {
		const close = { ...WHOLE, zoom: 4 };
		expect(moved(close, sheet, window, { left: 160, top: 0 }).x).toBeCloseTo(0.4, 9);
		expect(moved(close, sheet, window, { left: 99_999, top: -99_999 })).toMatchObject({ x: 0, y: 1 });
	});

	test('zoom ends at the whole sheet and at its fine print', () => {
		expect(zoomed(WHOLE, sheet, window, 0.01).zoom).toBe(1);
		expect(zoomed(WHOLE, sheet, window, 1000).zoom).toBe(MOST_ZOOM);
	});

	test('a place and its point in the window belong together at any zoom', () => {
		const view = { x: 0.3, y: 0.8, zoom: 5 };
		const { left, top, width, height } = drawn(view, sheet, window);
		const place = placeAt(view, sheet, window, { left: left + 0.35 * width, top: top + 0.75 * height });
		expect(place.x).toBeCloseTo(0.35, 9);
		expect(place.y).toBeCloseTo(0.75, 9);
	});
});

describe('fingers', () => {
	test('a short one marks a place, though it trembles', () => {
		const hand = new Hand();
		hand.press(1, { left: 50, top: 60 });
		expect(hand.move(1, { left: 52, top: 61 })).toBeUndefined();
		expect(hand.lift(1, { left: 52, top: 61 })).toEqual({ kind: 'tap', at: { left: 52, top: 61 } });
	});

	test('one that drags moves the sheet and marks nothing', () => {
		const hand = new Hand();
		hand.press(1, { left: 50, top: 60 });
		expect(hand.move(1, { left: 90, top: 60 })).toEqual({ kind: 'move', by: { left: 40, top: 0 } });
		expect(hand.lift(1, { left: 90, top: 60 })).toBeUndefined();
	});

	test('two that part zoom about their middle, and mark nothing when they are lifted', () => {
		const hand = new Hand();
		hand.press(1, { left: 100, top: 100 });
		hand.press(2, { left: 200, top: 100 });
		expect(hand.move(2, { left: 300, top: 100 })).toMatchObject({
			kind: 'zoom',
			factor: 2,
			about: { left: 200, top: 100 }
		});
		expect(hand.lift(1, { left: 100, top: 100 })).toBeUndefined();
		expect(hand.lift(2, { left: 300, top: 100 })).toBeUndefined();
	});

	test('one that the browser takes away marks nothing', () => {
		const hand = new Hand();
		hand.press(1, { left: 50, top: 60 });
		hand.cancel(1);
		expect(hand.down).toBe(false);
		expect(hand.lift(1, { left: 50, top: 60 })).toBeUndefined();
	});
});
