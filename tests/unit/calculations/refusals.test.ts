import { describe, expect, test } from 'vitest';
import {
	type Calculation,
	calculations,
	type Input,
	type NumberInput,
	picturesOf,
	runOn
} from '../../../src/lib/calculations/index.ts';
import { fromBase, unitOfKey } from '../../../src/lib/quantity/index.ts';
import { Dice } from '../../random.ts';

/** Never a verdict on bad input, always a sentence on what is needed: for every sum there is. */

const all: Calculation[] = Object.values(calculations);
const inUnit = (key: string, base: number): number => fromBase(base, unitOfKey(key).name);
const isNumber = (input: Input): input is NumberInput => input.kind === 'number';

/** A row of the sum's own in which an input stands. */
const rowWith = ({ checks }: Calculation, { key, alsoKeys = [] }: NumberInput) =>
	checks.find(({ given }) => [key, ...alsoKeys].some((name) => typeof given[name] === 'number'));

/** One of each kind of value within the range, often at its ends. */
function draw(dice: Dice, input: Input): unknown {
	const within = (from: number, to: number, key: string): number => {
		const at = dice.one(['low', 'high', 'inside', 'inside', 'inside']);
		const value = from > 0 ? dice.ratio(from, to) : dice.between(from, to);
		return inUnit(key, at === 'low' ? from : at === 'high' ? to : value);
	};
	const times = <Value>(least: number, most: number, one: () => Value): Value[] =>
		Array.from({ length: dice.whole(least, Math.min(most, least + 4)) }, one);
	switch (input.kind) {
		case 'number':
			return within(input.from, input.to, input.key);
		case 'numbers':
			return times(input.least, input.most, () => within(input.from, input.to, input.key));
		case 'rows':
			return times(input.least, input.most, () =>
				Object.values(input.columns).map(({ from, to, key }) => within(from, to, key))
			);
		case 'text':
			return dice.one([input.example, '0', 'x', '99999999', '-']);
		case 'choice':
			return dice.one(input.options);
		case 'list':
			return times(1, input.places?.length ?? input.options.length, () => dice.one(input.options));
	}
}

/** Inputs of one way, now and then with an optional one beside. */
function drawGiven(dice: Dice, { inputs, ways }: Calculation): Record<string, unknown> {
	const names = Object.keys(inputs);
	const needs = ways ? dice.one(ways).needs : names.filter((name) => !inputs[name]?.optional);
	const ofWays = ways?.flatMap((way) => way.needs) ?? [];
	const free = names.filter((name) => !needs.includes(name) && !ofWays.includes(name));
	const chosen = [...needs, ...free.filter(() => dice.share() < 0.4)];
	return Object.fromEntries(
		chosen.flatMap((name) => {
			const input = inputs[name];
			return input ? [[input.key, draw(dice, input)] as const] : [];
		})
	);
}

function numbersIn(value: unknown): number[] {
	if (typeof value === 'number') return [value];
	return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

describe.each(all)('$id', (calculation) => {
	const numbers = Object.values(calculation.inputs).filter(isNumber);

	test('a value beyond its range is refused with the range', () => {
		const taken = numbers.flatMap((input) => {
			const row = rowWith(calculation, input);
			const key = [input.key, ...(input.alsoKeys ?? [])].find((name) => name in (row?.given ?? {}));
			if (!row || key === undefined) return [];
			const beyond = [input.from - Math.abs(input.from) / 2 - 1e-3, input.to * 1.5 + 1e-3];
			return beyond.flatMap((base) => {
				const answer = runOn(calculation, { ...row.given, [key]: inUnit(key, base) });
				const told = !answer.ok && answer.problems.some(({ message }) => message.includes('This sum holds'));
				return told ? [] : [`${key} at ${base}`];
			});
		});
		expect(taken).toEqual([]);
	});

	test.each([NaN, Infinity, 'nonsense', {}, '12..5'])('%j in the place of a number is refused', (bad) => {
		const taken = numbers.filter((input) => {
			const row = rowWith(calculation, input);
			return row !== undefined && runOn(calculation, { ...row.given, [input.key]: bad }).ok;
		});
		expect(taken.map(({ key }) => key)).toEqual([]);
	});

	test('nothing given is answered with what is missing', () => {
		const answer = runOn(calculation, {});
		const wanted = Object.values(calculation.inputs).some(({ optional }) => !optional) || calculation.ways;
		expect(answer.ok).toBe(!wanted);
		if (!answer.ok) expect(answer.problems[0]?.message).toMatch(/missing/i);
	});

	test('whatever is within the ranges gives finite figures and pictures, or a sentence', () => {
		const dice = new Dice(1 + all.indexOf(calculation));
		for (let i = 0; i < 300; i++) {
			const given = drawGiven(dice, calculation);
			const answer = runOn(calculation, given);
			const told = JSON.stringify(given);
			if (!answer.ok) {
				expect(answer.problems.map(({ message }) => message).join(' '), told).toMatch(/\w{3,}.*[.?]$/s);
				expect(picturesOf(calculation, given), told).toEqual([]);
				continue;
			}
			expect(
				numbersIn(answer.outputs).filter((value) => !Number.isFinite(value)),
				told
			).toEqual([]);
			const drawn = picturesOf(calculation, given).map(({ curves, marks }) => ({ curves, marks }));
			expect(
				numbersIn(drawn).filter((value) => !Number.isFinite(value)),
				told
			).toEqual([]);
		}
	});
});
