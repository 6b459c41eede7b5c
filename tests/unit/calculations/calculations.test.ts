import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
	type Calculation,
	calculationIds,
	calculations,
	runOn,
	type Source
} from '../../../src/lib/calculations/index.ts';
import { unitOfKey } from '../../../src/lib/quantity/index.ts';
import { entries } from '../../../src/routes/sums/[id]/+page.ts';
import { differences } from './compare.ts';

const folder = new URL('../../../src/lib/calculations/', import.meta.url);
const all: Calculation[] = Object.values(calculations);

/** Numbers without a unit, by their nature. */
const BARE = new Set([
	'Q',
	'Q1',
	'Q2',
	'Q_L',
	'Q_C',
	'Q_operating_over_unloaded',
	'k',
	'kQ',
	'cans',
	'mu',
	'er',
	'ratio',
	'harmonics',
	't_over_tau',
	'times_rating',
	'value',
	'ripple_factor',
	'efficiency',
	'gain',
	'stages',
	'gm_ratio',
	'gain_expected',
	'circuits',
	'light_low_cp',
	'light_high_cp'
]);

const bandsOf = ({ judge = [] }: Calculation) => judge.flatMap(({ bands }) => bands);
const sourced = (source: Source): boolean => source.kind.length > 0 && source.what.length > 3;

describe.each(all)('calculation $id', (calculation) => {
	const { checks, verdicts = [] } = calculation;

	test.each(checks)('$id', (check) => {
		const answer = runOn(calculation, check.given);
		if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join('; '));
		expect(differences(check, answer.outputs)).toEqual([]);
		expect(answer.verdict).toBe(check.verdict);
	});

	test('every verdict of the bands has a place in the order, and every place a band', () => {
		const inBands = new Set(bandsOf(calculation).map(({ verdict }) => verdict));
		expect([...inBands].sort()).toEqual(verdicts.map(({ verdict }) => verdict).sort());
	});

	test('every verdict has a check row', () => {
		const checked = checks.map(({ verdict }) => verdict);
		expect(verdicts.map(({ verdict }) => verdict).filter((verdict) => !checked.includes(verdict))).toEqual(
			[]
		);
	});

	test('every band and every check row names its source', () => {
		expect(bandsOf(calculation).filter(({ source }) => !sourced(source))).toEqual([]);
		expect(checks.filter(({ source, basis }) => !sourced(source) || basis === '')).toEqual([]);
		expect(calculation.sources.length).toBeGreaterThan(0);
	});

	test('the rest of every judgement is taken by its last band', () => {
		for (const { bands } of calculation.judge ?? []) {
			const last = bands.at(-1);
			expect([last?.upTo, last?.below]).toEqual([undefined, undefined]);
		}
	});

	test('every output named in a sentence exists', () => {
		const texts = [...calculation.summary, ...bandsOf(calculation).map(({ says }) => says)];
		const named = texts.flatMap((text) => [...text.matchAll(/\{(\w+)\}/g)].map((match) => match[1] ?? ''));
		expect(named.filter((field) => !(field in calculation.outputs))).toEqual([]);
	});

	test('formula, question, pitfalls and sources are told, and what to look at after every worse verdict', () => {
		const { formulaText, question, pitfalls, sources } = calculation;
		expect([formulaText.length, pitfalls.length, sources.length].map((count) => count > 0)).not.toContain(
			false
		);
		expect(question).toMatch(/\w.*\?$/);
		const mute = verdicts.slice(1).filter(({ next }) => next.length === 0);
		expect(mute.map(({ verdict }) => verdict)).toEqual([]);
	});

	test('every number has a range, and a unit or none by its name', () => {
		const ranged = Object.values(calculation.inputs).flatMap((input) =>
			input.kind === 'rows' ? Object.values(input.columns) : 'from' in input ? [input] : []
		);
		expect(ranged.filter(({ from, to }) => !(from < to)).map(({ key }) => key)).toEqual([]);
		expect(ranged.filter(({ label }) => label.length < 1).map(({ key }) => key)).toEqual([]);
		const bare = ranged.filter(({ key }) => unitOfKey(key).unit === '');
		expect(bare.filter(({ key }) => !BARE.has(key)).map(({ key }) => key)).toEqual([]);
	});

	test('no two columns of a table have one head', () => {
		const tables = checks.flatMap(({ given }) => {
			const answer = runOn(calculation, given);
			return answer.ok ? Object.entries(answer.outputs) : [];
		});
		for (const [key, value] of tables) {
			if (!Array.isArray(value) || typeof value[0] !== 'object' || value[0] === null) continue;
			const { columns = {} } = Object.values(calculation.outputs).find((output) => output.key === key) ?? {};
			const lines = value.filter((line: unknown) => !Array.isArray(line)) as object[];
			const keys = [...new Set(lines.flatMap((line) => Object.keys(line)))];
			const heads = keys.map((column) => columns[column] ?? column);
			expect(new Set(heads).size, `${key}: ${heads.join(', ')}`).toBe(heads.length);
		}
	});

	test('a row that calls itself published is sourced so', () => {
		const wrong = checks.filter(
			({ basis, source }) => basis.startsWith('published') !== (source.kind === 'published')
		);
		expect(wrong.map(({ id }) => id)).toEqual([]);
	});
});

test('the registry holds every calculation of the folder under the name of its file', () => {
	const files = readdirSync(folder).filter((name) =>
		readFileSync(new URL(name, folder), 'utf8').includes('= defineCalculation({')
	);
	expect([...calculationIds].sort()).toEqual(files.map((name) => name.replace(/\.ts$/, '')).sort());
	for (const [id, calculation] of Object.entries(calculations)) expect(calculation.id).toBe(id);
});

test('every sum has its page, and no page is without a sum', async () => {
	const pages = await entries();
	expect(pages.map(({ id }) => id).sort()).toEqual([...calculationIds].sort());
});

test('a row of a sum begins with its name, and no two rows have one name', () => {
	const rows = all.flatMap(({ id, checks }) => checks.map((check) => ({ id, row: check.id })));
	expect(rows.filter(({ id, row }) => !row.startsWith(`${id}/`))).toEqual([]);
	expect(new Set(rows.map(({ row }) => row)).size).toBe(rows.length);
});
