import {
	type Answer,
	type Calculation,
	calculationOf,
	type Input,
	keysOf,
	type NumberInput,
	type NumbersInput,
	type Picture,
	picturesOf,
	type Problem,
	runOn
} from '$lib/calculations/index.ts';
import { fromBase, unitOfKey } from '$lib/quantity/index.ts';
import { readValues, type ValueReading } from '../value.ts';
import {
	fieldsOf,
	likelyWay,
	slugOf,
	textsFrom,
	textWithTolerance,
	toleranceApart,
	type Typed,
	WAY,
	wayOf
} from './fields.ts';
import { type Results, resultsOf } from './figures.ts';
import { rowsOfText } from './rows-text.ts';
import { problemWords } from './wording.ts';

export type Outcome =
	| { state: 'answer'; answer: Answer; results: Results }
	/** `lacking` and `unread` are labels; `messages` belong to no field that is filled in. */
	| { state: 'waiting'; lacking: string[]; unread: string[]; messages: string[] };

/** The key under which a number goes in: one whose unit was typed with it (`18 MHz`), else the first. */
function keyFor(input: Input, text: string): string {
	const named = keysOf(input)
		.slice(1)
		.find((key) => {
			const { symbol } = unitOfKey(key);
			return symbol !== unitOfKey(input.key).symbol && text.toLowerCase().includes(symbol.toLowerCase());
		});
	return named ?? input.key;
}

/** Whether the page reads the text as figures; values with names the core reads itself. */
const isFigures = (input: Input): boolean =>
	input.kind === 'number' || (input.kind === 'numbers' && !input.named);

/** The form of one calculation: what is typed, what is read from it, and the outcome. */
export class Sum {
	readonly calculation: Calculation;
	/** By the first key of each input, as typed; a list as words with commas. Texts of other ways are kept. */
	texts: Record<string, string> = $state({});
	/** Tolerance in per cent, as typed, of the numbers that have one. */
	tolerances: Record<string, string> = $state({});
	/** Place in the ways of the calculation. */
	way = $state(0);

	constructor(id: string, given: Typed) {
		const calculation = calculationOf(id);
		if (!calculation) throw new Error(`There is no calculation "${id}".`);
		this.calculation = calculation;
		this.texts = textsFrom(calculation, given);
		for (const { kind, key } of Object.values(calculation.inputs)) {
			if (kind !== 'number') continue;
			const { text, pct } = toleranceApart(this.texts[key] ?? '');
			this.texts[key] = text;
			this.tolerances[key] = pct;
		}
		this.way = wayOf(calculation, this.texts, given[WAY]);
	}

	readonly fields = $derived.by(() => fieldsOf(this.calculation, this.way));

	readonly #filled = $derived.by(() =>
		this.fields.filter(({ input }) => /[^\s,;|]/.test(this.texts[input.key] ?? ''))
	);

	/** Of the numbers that are filled in, by key. */
	readonly #readings: Readonly<Record<string, ValueReading>> = $derived.by(() => {
		const numbers = this.#filled.filter(({ input }) => isFigures(input));
		const read = numbers.map(({ input }) => [
			input.key,
			readValues(this.#text(input), unitOfKey(input.key).name)
		]);
		return Object.fromEntries(read) as Record<string, ValueReading>;
	});

	/** By key, ready for the core. */
	readonly #given: Readonly<Record<string, unknown>> = $derived.by(() => {
		const given = this.#filled.flatMap(({ input }) => {
			const value = this.#valueOf(input);
			return value === undefined ? [] : [[keyFor(input, this.#text(input)), value]];
		});
		return Object.fromEntries(given) as Record<string, unknown>;
	});

	readonly #ran = $derived.by(() => runOn(this.calculation, this.#given));

	readonly #problems: readonly Problem[] = $derived.by(() => (this.#ran.ok ? [] : this.#ran.problems));

	/** What is wrong with values that can be read, by key. */
	readonly errors = $derived.by(() => {
		const found = this.#filled.flatMap(({ input }) => {
			const problem = this.#problems.find(({ key }) => keysOf(input).includes(key));
			return problem ? [[input.key, problemWords(this.calculation, problem)]] : [];
		});
		return Object.fromEntries(found) as Record<string, string>;
	});

	/** Whether nothing has been filled in yet. */
	readonly empty = $derived.by(() => this.#filled.length === 0);

	readonly outcome: Outcome = $derived.by(() => {
		const unread = this.#filled.filter(
			({ input }) => this.errors[input.key] || this.#readings[input.key]?.state === 'refused'
		);
		if (this.#ran.ok && unread.length === 0) return this.#answered(this.#ran);
		const lacking = this.fields.filter((field) => field.needed && !this.#filled.includes(field));
		const loose = this.#problems.filter(
			({ key }) => !this.#filled.some(({ input }) => keysOf(input).includes(key))
		);
		return {
			state: 'waiting',
			lacking: lacking.map(({ input }) => input.label),
			unread: unread.map(({ input }) => input.label),
			messages: lacking.length > 0 ? [] : loose.map((problem) => problemWords(this.calculation, problem))
		};
	});

	/** What the form shows and holds, by key, as typed; with the way, where the keys would suggest another. */
	readonly typed: Typed = $derived.by(() => {
		const typed = Object.fromEntries(this.#filled.map(({ input }) => [input.key, this.#text(input)]));
		const chosen = this.calculation.ways?.[this.way];
		if (!chosen || likelyWay(this.calculation, typed) === this.way) return typed;
		return { ...typed, [WAY]: slugOf(chosen) };
	});

	/** What there is to look at; nothing while something cannot be read. */
	readonly pictures: readonly Picture[] = $derived.by(() =>
		this.outcome.state === 'answer' ? picturesOf(this.calculation, this.#given) : []
	);

	/** As typed, with its tolerance behind it. */
	#text({ kind, key }: Input): string {
		const text = this.texts[key] ?? '';
		const pct = kind === 'number' ? this.tolerances[key]?.trim() : '';
		return pct ? textWithTolerance(text, pct) : text;
	}

	/** In the unit of its key; several values as a list; undefined where the text cannot be read. */
	#valueOf(input: Input): unknown {
		const text = this.#text(input);
		switch (input.kind) {
			case 'number':
			case 'numbers':
				return isFigures(input) ? this.#numbersOf(input, text) : text.trim();
			case 'rows':
				return rowsOfText(text);
			case 'list':
				return text.replace(/,+$/, '').split(',');
			default:
				return text;
		}
	}

	#numbersOf(input: NumberInput | NumbersInput, text: string): unknown {
		const reading = this.#readings[input.key];
		if (reading?.state !== 'read') return undefined;
		const { name } = unitOfKey(keyFor(input, text));
		const values = reading.values.map((value, i) => {
			const own = fromBase(value, name);
			const pct = reading.tolerances?.[i];
			return pct === undefined ? own : `${own} ±${pct}%`;
		});
		return values.length === 1 ? values[0] : values;
	}

	#answered(answer: Answer): Outcome {
		const single = this.#filled.filter(({ input }) => input.kind === 'number');
		const counts = single.map(({ input }) => {
			const reading = this.#readings[input.key];
			return reading?.state === 'read' ? reading.values.length : 1;
		});
		const results = resultsOf(this.calculation, answer, Math.max(1, ...counts));
		return { state: 'answer', answer, results };
	}
}
