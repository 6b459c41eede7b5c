import { describe, expect, test } from 'vitest';
import { pastedInto, rowsForEditing, rowsOfText, textOfRows } from '../../../../src/lib/ui/sums/rows-text.ts';
import { textWithTolerance, toleranceApart } from '../../../../src/lib/ui/sums/fields.ts';

const length = { least: 1, most: 4 };

describe('a typed table as text in an address', () => {
	test('comes back as it was', () => {
		const rows = [
			['10 min', '3.1'],
			['30', '2,6']
		];
		expect(rowsOfText(textOfRows(rows))).toEqual(rows);
	});

	test('rows without anything in them are passed over', () => {
		expect(rowsOfText('10|3;|; 30 |2')).toEqual([
			['10', '3'],
			['30', '2']
		]);
		expect(
			textOfRows([
				['10', '3'],
				['', '']
			])
		).toBe('10|3');
	});

	test('there is an empty row to go on in, while there is room', () => {
		expect(rowsForEditing('', 2, length)).toEqual([['', '']]);
		expect(rowsForEditing('10|3', 2, length)).toEqual([
			['10', '3'],
			['', '']
		]);
		expect(rowsForEditing('1;2;3;4', 1, length)).toHaveLength(4);
		expect(rowsForEditing('1;2', 1, { least: 5, most: 9 })).toHaveLength(5);
	});
});

describe('pasting', () => {
	const rows = [
		['1', '5'],
		['', '']
	];

	test.each([
		['a spreadsheet', '10\t3.1\n30\t2.6\n'],
		['semicolons', '10;3.1\r\n30;2.6'],
		['commas', '10, 3.1\n30, 2.6'],
		['blanks', '10 3.1\n30   2.6']
	])('%s', (_, pasted) => {
		expect(pastedInto(rows, pasted, 1, 0, 2)).toEqual([
			['1', '5'],
			['10', '3.1'],
			['30', '2.6']
		]);
	});

	test('a column goes down from the cell where it was pasted', () => {
		expect(pastedInto(rows, '7\n8', 0, 1, 2)).toEqual([
			['1', '7'],
			['', '8']
		]);
	});

	test.each(['12', '12 min'])('%s alone is left to the cell', (value) =>
		expect(pastedInto(rows, value, 0, 0, 2)).toBeUndefined()
	);
});

describe('a tolerance beside a value', () => {
	test('stands behind each value in the address, and comes apart again', () => {
		expect(textWithTolerance('4k7', '10')).toBe('4k7 ±10 %');
		expect(textWithTolerance('5; 10', '2')).toBe('5 ±2 %; 10 ±2 %');
		expect(toleranceApart('5 ±2 %; 10 ±2 %')).toEqual({ text: '5; 10', pct: '2' });
	});

	test('tolerances that differ stay where they are', () => {
		expect(toleranceApart('5 ±2 %; 10')).toEqual({ text: '5 ±2 %; 10', pct: '' });
		expect(toleranceApart('4k7')).toEqual({ text: '4k7', pct: '' });
	});
});
