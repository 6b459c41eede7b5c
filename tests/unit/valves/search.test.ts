import { expect, test } from 'vitest';
import { searchValves, valves } from '../../../src/lib/valves/index.ts';

const found = (query: string) => searchValves(query).map(({ type }) => type);

test('a valve is found by the beginning of any of its names', () => {
	expect(found('6bq5')).toEqual(['EL84']);
	expect(found('ecc8')).toEqual(expect.arrayContaining(['ECC81', 'ECC83', 'ECC85']));
	expect(found('CV 2975')).toEqual(['EL84']);
});

test('valves are found by kind and base', () => {
	expect(found('octal rectifier')).toEqual(expect.arrayContaining(['5Y3GT', '35Z5GT']));
	expect(found('octal rectifier')).not.toContain('EZ80');
});

test('nothing typed is every valve, and nonsense none', () => {
	expect(searchValves('  ')).toHaveLength(valves.length);
	expect(found('transistor')).toEqual([]);
});
