import { describe, expect, test } from 'vitest';
import { readPartTable, withChoice } from '../../../src/lib/job/part-table.ts';
import { shippedLibrary } from '../../library.ts';

const plan = shippedLibrary().plans['am-fm-shared'];
const read = (text: string) => readPartTable(text, plan);
const one = (text: string) => read(text)[0];

describe('a line of the parts list', () => {
	test.each([
		[
			'C12 .05 mfd 400V paper output coupling',
			{ kind: 'paper', value: 5e-8, rating: '400V', duty: 'output-coupling' }
		],
		[
			'C12\t0.05 uF\t400 V\tpaper\tcoupling',
			{ kind: 'paper', value: 5e-8, rating: '400 V', duty: 'coupling' }
		],
		['C3; 300 mmfd; mica', { kind: 'mica', value: 3e-10 }],
		['C40 16 mfd 450V reservoir', { kind: 'electrolytic', value: 16e-6, rating: '450V', duty: 'reservoir' }],
		[
			'R7 4k7 1/2 W carbon screen feed',
			{ kind: 'resistor', value: 4700, rating: '1/2 W', duty: 'screen-feed' }
		],
		['R9  M47  ½W  grid leak', { kind: 'resistor', value: 470e3, rating: '½W', duty: 'grid-leak' }],
		['V4 valve', { kind: 'valve' }],
		['C8 2n2 ceramic', { kind: 'ceramic', value: 2.2e-9 }]
	])('%s', (text, part) => {
		const row = one(text);
		expect(row?.problems).toEqual([]);
		expect(row?.questions).toEqual([]);
		expect(row?.part).toMatchObject(part);
	});

	test('a place of the plan is taken by its title or its id', () => {
		expect(one('C5 10n mica AVC line')?.part).toMatchObject({ kind: 'mica' });
		expect(one('R3\t1M\tif-valve')?.part.place).toBe('if-valve');
	});

	test('a doubtful value is asked, and the choice reads in one way only', () => {
		const text = 'R1 4k7\nC2 1k mica';
		const row = read(text)[1];
		expect(row?.part.value).toBeUndefined();
		expect(row?.questions[0]?.choices.map(({ label }) => label)).toContain('1,000 pF (1 nF)');
		const settled = withChoice(text, 2, '1k', row?.questions[0]?.choices[0]?.text ?? '');
		expect(read(settled)[1]).toMatchObject({ questions: [], part: { value: 1e-9, kind: 'mica' } });
		expect(read(settled)[0]?.part.value).toBe(4700);
	});

	test('a word that is nothing is named, the rest is kept', () => {
		const row = one('C1 47n wibble paper');
		expect(row?.problems).toEqual([expect.stringContaining('"wibble" is no value')]);
		expect(row?.part).toMatchObject({ value: 47e-9, kind: 'paper' });
	});

	test('the same name twice is told', () => {
		expect(read('C1 47n\n\nc1 22n')[1]?.problems).toEqual([
			expect.stringContaining('stands in line 1 already')
		]);
	});

	test('an empty paste lists nothing', () => {
		expect(read(' \n\n')).toEqual([]);
	});
});
