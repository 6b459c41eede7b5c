import { expect, test } from 'vitest';
import {
	type Calculation,
	calculations,
	type Input,
	keysOf,
	picturesOf,
	runOn
} from '../../../src/lib/calculations/index.ts';
import { fromBase, unitOfKey } from '../../../src/lib/quantity/index.ts';
import { Dice } from '../../random.ts';

/** Whatever may be typed, in whatever combination: never a crash, never a figure that is none, never a verdict on bad input. */

const ROUNDS = 120;

/** No number at all, or none that any part or reading can have. */
const ABSURD = [
	NaN,
	Infinity,
	-Infinity,
	'',
	'nonsense',
	'12..5',
	'4k7k',
	'1e30',
	true,
	{},
	[],
	[[1]],
	'5 furlongs'
];
/** As the trade writes it: good in some units, refused with a question in others. */
const TRADE = [
	'4k7',
	'2M2',
	'47n',
	'0,05',
	'1,000',
	'10 µ',
	'u1',
	'.05 mfd',
	'12 V',
	'60 mA',
	'1k ±10 %',
	'-3'
];

type Fate = 'good' | 'bad' | 'open';
interface Typed {
	raw: unknown;
	/** Whether it has to be taken, has to be refused, or may be either. */
	fate: Fate;
}

const inUnit = (key: string, base: number): number => fromBase(base, unitOfKey(key).name);

function numberFor(dice: Dice, key: string, from: number, to: number): Typed {
	const inside = from > 0 ? dice.ratio(from, to) : dice.between(from, to);
	const at = dice.share();
	if (at < 0.6) return { raw: inUnit(key, inside), fate: 'good' };
	// The ends themselves may fall a hair outside on their way through the unit.
	if (at < 0.7) return { raw: inUnit(key, dice.one([from, to])), fate: 'open' };
	if (at < 0.78) {
		const beyond = dice.one([from - Math.abs(from) / 2 - 1e-3, to * dice.ratio(1.01, 1e6), -1e30, 1e30]);
		return { raw: inUnit(key, beyond), fate: beyond < from || beyond > to ? 'bad' : 'open' };
	}
	if (at < 0.88) return { raw: dice.one(ABSURD), fate: 'bad' };
	return { raw: dice.one(TRADE), fate: 'open' };
}

function several(dice: Dice, least: number, most: number, one: () => Typed): Typed {
	const typed = Array.from({ length: dice.whole(least, Math.min(most, least + 5)) }, one);
	const fate = typed.some(({ fate: of }) => of === 'bad') ? 'bad' : 'open';
	return { raw: typed.map(({ raw }) => raw), fate };
}

function typedFor(dice: Dice, input: Input, key: string): Typed {
	switch (input.kind) {
		case 'number':
			return numberFor(dice, key, input.from, input.to);
		case 'numbers':
			return several(dice, input.least, input.most, () => numberFor(dice, key, input.from, input.to));
		case 'rows':
			return several(dice, input.least, input.most, () => rowFor(dice, Object.values(input.columns)));
		case 'text':
			return {
				raw: dice.one([input.example, '0', 'x', '104', '100K', 'µ47', '#', '99999999']),
				fate: 'open'
			};
		case 'choice':
			return dice.share() < 0.9
				? { raw: dice.one(input.options), fate: 'good' }
				: { raw: dice.one(['nonsense', 7, {}]), fate: 'bad' };
		case 'list':
			return several(dice, 1, input.places?.length ?? input.options.length, () =>
				dice.share() < 0.95
					? { raw: dice.one(input.options), fate: 'good' }
					: { raw: 'nonsense', fate: 'bad' }
			);
	}
}

function rowFor(
	dice: Dice,
	columns: readonly { key: string; from: number; to: number; optional?: true }[]
): Typed {
	const cells = columns.map((cell) =>
		cell.optional && dice.share() < 0.5
			? ({ raw: null, fate: 'good' } as const)
			: numberFor(dice, cell.key, cell.from, cell.to)
	);
	// A cell that is empty text counts as not typed.
	const bad = cells.some(({ raw, fate }) => fate === 'bad' && raw !== '');
	return { raw: cells.map(({ raw }) => raw), fate: bad ? 'bad' : 'open' };
}

/** A row of the sum's own with some inputs left out, changed and added. */
function typedAll(
	dice: Dice,
	{ inputs, checks }: Calculation
): { given: Record<string, unknown>; bad: boolean } {
	const row = dice.one(checks).given;
	const kept = Object.entries(row).filter(() => dice.share() < 0.85);
	const given: Record<string, unknown> = Object.fromEntries(dice.share() < 0.8 ? kept : []);
	let bad = false;
	const chance = dice.one([0, 0.1, 0.3]);
	for (const input of Object.values(inputs)) {
		if (dice.share() >= chance) continue;
		const key = dice.one(keysOf(input));
		const typed = typedFor(dice, input, key);
		given[key] = typed.raw;
		bad ||= typed.fate === 'bad';
	}
	return { given, bad };
}

function numbersIn(value: unknown): number[] {
	if (typeof value === 'number') return [value];
	return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

const endless = (value: unknown): number[] => numbersIn(value).filter((one) => !Number.isFinite(one));
const BROKEN = /NaN|Infinity|undefined|null|\[object|\{\w+\}/;

test.each(Object.values<Calculation>(calculations))(
	'$id: anything typed is answered in finite figures and whole sentences, or refused with a sentence',
	(calculation) => {
		const dice = new Dice(100 + Object.keys(calculations).indexOf(calculation.id));
		let taken = 0;
		for (let i = 0; i < ROUNDS; i++) {
			const { given, bad } = typedAll(dice, calculation);
			const told = JSON.stringify(given);
			const answer = runOn(calculation, given);
			const drawn = picturesOf(calculation, given).map(({ curves, marks, bands }) => [curves, marks, bands]);
			expect(endless(drawn), told).toEqual([]);
			if (!answer.ok) {
				const words = answer.problems.map(({ message }) => message).join(' ');
				expect(words, told).toMatch(/\w{3,}.*[.?]$/s);
				expect(words, told).not.toMatch(BROKEN);
				expect(drawn, told).toEqual([]);
				continue;
			}
			taken++;
			expect(bad, `taken: ${told}`).toBe(false);
			expect(endless([answer.outputs, answer.spreads]), told).toEqual([]);
			expect(answer.sentence, told).toMatch(/\w{2,}.*\.$/s);
			expect(answer.sentence, told).not.toMatch(BROKEN);
		}
		// Both sides are met often enough to say something.
		expect(taken).toBeGreaterThan(ROUNDS / 10);
		expect(taken).toBeLessThan(ROUNDS);
	}
);
