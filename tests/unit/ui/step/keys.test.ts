import { describe, expect, test } from 'vitest';
import { digitOf, isLetter, takesText, type KeyPress } from '../../../../src/lib/ui/step/keys.ts';

const element = (change: object) => change as unknown as EventTarget;
const press = (key: string, change: Partial<KeyPress> = {}): KeyPress => ({
	key,
	ctrlKey: false,
	altKey: false,
	metaKey: false,
	shiftKey: false,
	repeat: false,
	isComposing: false,
	defaultPrevented: false,
	target: element({ tagName: 'BODY' }),
	...change
});

describe('digits answer', () => {
	test.each([
		['1', 1],
		['9', 9],
		['0', 0]
	])('%s', (key, digit) => expect(digitOf(press(key))).toBe(digit));

	test('a digit that a keyboard reaches by Shift counts', () =>
		expect(digitOf(press('2', { shiftKey: true }))).toBe(2));
	test('a digit on a button counts', () =>
		expect(digitOf(press('2', { target: element({ tagName: 'INPUT', type: 'radio' }) }))).toBe(2));
	test('other keys are no digits', () =>
		expect(['F1', 'a', ' ', 'Enter', '½'].map((k) => digitOf(press(k)))).toEqual([
			undefined,
			undefined,
			undefined,
			undefined,
			undefined
		]));
});

describe('a press that means something else answers nothing', () => {
	test.each<[string, Partial<KeyPress>]>([
		['typed into a reading', { target: element({ tagName: 'INPUT', type: 'text' }) }],
		['typed into a note', { target: element({ tagName: 'TEXTAREA' }) }],
		['typed into a choice', { target: element({ tagName: 'SELECT' }) }],
		['typed into editable text', { target: element({ tagName: 'P', isContentEditable: true }) }],
		['with Ctrl, which changes the tab', { ctrlKey: true }],
		['with Alt', { altKey: true }],
		['with the command key', { metaKey: true }],
		['held down, which would answer the next step too', { repeat: true }],
		['while a sign is composed', { isComposing: true }],
		['already taken by another control', { defaultPrevented: true }]
	])('%s', (_, change) => {
		expect(digitOf(press('1', change))).toBeUndefined();
		expect(isLetter(press('s', change), 's')).toBe(false);
	});
});

test('S with caps lock on still skips, with Shift it does not', () => {
	expect(isLetter(press('S'), 's')).toBe(true);
	expect(isLetter(press('S', { shiftKey: true }), 's')).toBe(false);
});

test('a press outside any element goes into no field', () => expect(takesText(null)).toBe(false));
