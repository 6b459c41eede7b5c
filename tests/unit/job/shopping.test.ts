import { describe, expect, test } from 'vitest';
import type { Duty, PartLook } from '../../../src/lib/flow/part-terms.ts';
import type { Part } from '../../../src/lib/job/parts.ts';
import { decisionFor, shoppingList, shoppingText } from '../../../src/lib/job/shopping.ts';
import { verdictFor } from '../../../src/lib/flow/parts.ts';
import { shippedLibrary } from '../../library.ts';

const library = shippedLibrary();
const part = (name: string, kind: PartLook, duty: Duty | undefined, more: Partial<Part> = {}): Part => ({
	id: name.toLowerCase(),
	name,
	kind,
	suspects: [],
	state: 'untouched',
	measured: false,
	...(duty ? { duty } : {}),
	...more
});
const bought = (...parts: Part[]) => shoppingList(parts, library);
const decided = (one: Part) => decisionFor(one, verdictFor(library, one.kind, one.duty));

describe('what to buy', () => {
	test('.015 uF 400 V paper coupler: 15 nF 630 V foil, or 22 nF with a note', () => {
		const [row] = bought(part('C12', 'paper', 'output-coupling', { value: 15e-9, rating: '400 V' }));
		expect(row?.text).toBe('15 nF, 630 V, plastic foil');
		expect(row?.notes).toEqual(['or 22 nF, 47 % more than marked']);
	});

	test('across the mains only class X is offered, mains to chassis only class Y', () => {
		const rows = bought(
			part('C1', 'paper', 'across-mains', { value: 1e-7, rating: '600 V' }),
			part('C2', 'paper', 'mains-chassis', { value: 5e-9 })
		);
		expect(rows.map(({ text }) => text)).toEqual([
			'100 nF, class X (X2), capacitor',
			'4.7 nF, class Y (Y2), capacitor'
		]);
	});

	test('alike parts are one row with their count', () => {
		const alike = ['C3', 'C4', 'C5'].map((name) =>
			part(name, 'paper', 'screen', { value: 5e-8, rating: '350 V' })
		);
		const rows = bought(...alike);
		expect(rows).toHaveLength(1);
		expect(rows[0]?.names).toEqual(['C3', 'C4', 'C5']);
		expect(shoppingText('a set', rows)).toContain('3 x 47 nF, 400 V, plastic foil');
	});

	test('16 uF 450 V found bad: 22 uF, not above what the rectifier bears', () => {
		const [row] = bought(
			part('C40', 'electrolytic', 'reservoir', { value: 16e-6, rating: '450 V', state: 'bad' })
		);
		expect(row?.text).toBe('22 µF, 450 V, electrolytic');
		expect(row?.notes).toContain('not above what the rectifier bears');
	});

	test('old and new values of the trade: 8 is 10, 25 is 22, 32 is 33, 50 is 47', () => {
		const texts = [8, 25, 32, 50].map(
			(uF) => bought(part('C1', 'electrolytic', 'cathode', { value: uF * 1e-6, rating: '25 V' }))[0]?.text
		);
		expect(texts.map((text) => text?.split(',')[0])).toEqual(['10 µF', '22 µF', '33 µF', '47 µF']);
	});

	test('a tone capacitor at the output anode asks for volts, not for a plain part', () => {
		expect(bought(part('C20', 'paper', 'output-anode', { value: 5e-9 }))[0]?.text).toContain(
			'1,600 V DC film'
		);
	});

	test('an unknown value or rating is left open and stands last', () => {
		const rows = bought(
			part('C6', 'electrolytic', 'smoothing', { state: 'bad', value: 32e-6 }),
			part('C7', 'paper', 'avc', { value: 1e-7, rating: '200 V' })
		);
		expect(rows.map(({ open }) => open)).toEqual([false, true]);
		expect(rows[1]?.text).toContain('volts not known');
	});

	test('a part that was changed, tested good or left on purpose is not bought', () => {
		const coupler = (state: Part['state']) => part('C12', 'paper', 'output-coupling', { state });
		expect(bought(coupler('changed'), coupler('good'), coupler('left'))).toEqual([]);
	});
});

describe('what was found speaks before the table', () => {
	test('a resistor within 20 % is left, beyond it is changed', () => {
		const measured = (found: string) =>
			part('R1', 'resistor', 'anode-load', { value: 100e3, state: 'value', found });
		expect(decided(measured('118 kΩ'))).toBe('leave');
		expect(decided(measured('132 kΩ'))).toBe('change');
	});

	test('a capacitor of the right value may still leak: the verdict stands', () => {
		expect(
			decided(part('C1', 'paper', 'output-coupling', { value: 5e-8, state: 'value', found: '52 nF' }))
		).toBe('change');
		expect(decided(part('C1', 'paper', 'tone', { value: 5e-8, state: 'value', found: '52 nF' }))).toBe(
			'measure'
		);
	});
});
