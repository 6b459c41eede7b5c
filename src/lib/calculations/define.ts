import type { Group } from './groups.ts';
import type { Picture } from './picture.ts';

/** Where a figure or a rule comes from. `what` names the page, book or law; nothing read is called published. */
export interface Source {
	kind: 'published' | 'arithmetic' | 'common practice, no source' | 'from memory';
	what: string;
}

interface InputBase {
	/** The name in JSON; it carries the unit: `R_ohm`, `IF_kHz`. */
	key: string;
	label: string;
	optional?: true;
}

/** A number between `from` and `to`, both included, in base units. Outside them the formula is not run. */
export interface NumberInput extends InputBase {
	kind: 'number';
	/** Other names of the same quantity, perhaps in another unit: `f_signal_MHz`. */
	alsoKeys?: readonly string[];
	/** The word `large` may stand for it: so large that it does not count, the same as left out. */
	large?: true;
	from: number;
	to: number;
}

/** How many values or rows a series has at least and at most. */
export interface Length {
	least: number;
	most: number;
}

/** Several values for one sum, each as for a number: the heaters of a chain. */
export interface NumbersInput extends InputBase, Length {
	kind: 'numbers';
	/** The browser may keep the list for the next time: what lies in somebody's drawer. */
	kept?: true;
	/** Each may carry a name: `{"mixer grid": 25, "IF grid": 800}`. The formula then gets name and value. */
	named?: true;
	from: number;
	to: number;
}

/** One column of a typed table; its key carries the unit. */
export interface Column {
	key: string;
	label: string;
	from: number;
	to: number;
	optional?: true;
}

/** One of several values, with the name that was given to it. */
export interface NamedValue {
	name: string | undefined;
	value: number;
}

/** A typed table: times and currents. In JSON a list for each row, in the order of the columns, or an object by column key. */
export interface RowsInput extends InputBase, Length {
	kind: 'rows';
	columns: Readonly<Record<string, Column>>;
}

/** A short text as it stands on a part. */
export interface TextInput extends InputBase {
	kind: 'text';
	example: string;
}

/** One of a few words. */
export interface ChoiceInput extends InputBase {
	kind: 'choice';
	options: readonly string[];
}

/** Some of a few words. With `places` their order counts and a word may come twice: the bands of a colour code. */
export interface ListInput extends InputBase {
	kind: 'list';
	options: readonly string[];
	places?: readonly string[];
}

export type Input = NumberInput | NumbersInput | RowsInput | TextInput | ChoiceInput | ListInput;
export type Inputs = Readonly<Record<string, Input>>;

export interface Output {
	key: string;
	/** The same quantity in another unit, used when an input was given in that unit. */
	alsoKeys?: readonly string[];
	/** Another name of the same figure, on the command line only. */
	alias?: string;
	label: string;
	/** Significant digits in a sentence; three when not told. */
	digits?: number;
	/** Heads of a table by the keys of its lines; a key that is left out is its own head. */
	columns?: Readonly<Record<string, string>>;
}
export type Outputs = Readonly<Record<string, Output>>;

/** A line of a table that a calculation returns; the keys carry units, null stands where there is nothing. */
export type TableLine = Readonly<Record<string, string | number | null>>;
/** Numbers are in base units inside a calculation, in the unit of their key outside. */
export type OutputValue =
	| number
	| string
	| boolean
	| readonly number[]
	| readonly string[]
	| readonly TableLine[]
	| Readonly<Record<string, number>>;

type RowOf<C extends RowsInput['columns']> = {
	readonly [K in keyof C]: C[K] extends { optional: true } ? number | undefined : number;
};

type ValueOf<I extends Input> = I extends ChoiceInput
	? I['options'][number]
	: I extends ListInput
		? readonly I['options'][number][]
		: I extends TextInput
			? string
			: I extends NumbersInput
				? I extends { named: true }
					? readonly NamedValue[]
					: readonly number[]
				: I extends RowsInput
					? readonly RowOf<I['columns']>[]
					: number;

/** What the formula receives: base units; an optional input that was not given is undefined. */
export type Given<I extends Inputs> = {
	readonly [K in keyof I]: I[K] extends { optional: true } ? ValueOf<I[K]> | undefined : ValueOf<I[K]>;
};

/** What the formula returns; undefined where the inputs given do not reach. */
export type Results<O extends Outputs> = { readonly [K in keyof O]?: OutputValue | undefined };

/** A set of inputs that suffices. `also` lists what else may be given; an input that no way names may stand beside each. */
export interface Way<Field extends string = string> {
	title: string;
	needs: readonly Field[];
	also?: readonly Field[];
}

/**
 * A band takes what is left by the bands above it, up to and including `upTo`, or up to but not including `below`, or the word
 * `is`; a band without any takes the rest. Limits are in base units. `says` may name outputs in braces: `{heat}`.
 */
export interface Band {
	upTo?: number;
	below?: number;
	is?: string;
	verdict: string;
	says: string;
	source: Source;
}

/** Bands over one output; of several outputs the first that is known. */
export interface Judgement<Field extends string = string> {
	by: Field | readonly Field[];
	bands: readonly Band[];
}

/** A verdict and what to look at after it. */
export interface Verdict {
	verdict: string;
	/** As it is read out, where the id alone would be too short or misread. */
	title?: string;
	/** Somebody could be hurt, or something burn. */
	danger?: true;
	next: readonly string[];
}

/** A case with a known result, in the units of its keys. The row names of the reference are kept in `id`. */
export interface Check {
	id: string;
	given: Readonly<Record<string, unknown>>;
	gives: Readonly<Record<string, unknown>>;
	verdict?: string;
	/** Largest relative difference, in per cent; 0 where the figures are exact. */
	withinPct: number;
	/** Largest difference in the unit of the key, for keys where a percentage says little. */
	withinAbsolute?: Readonly<Record<string, number>>;
	/** On what the row stands, in words; begins with `published` where the outside world says so. */
	basis: string;
	source: Source;
}

/** A problem that the person can mend: `key` names the input, `message` what is wrong and the cure. */
export interface Problem {
	key: string;
	message: string;
}

export interface Calculation<I extends Inputs = Inputs, O extends Outputs = Outputs> {
	id: string;
	title: string;
	/** As a restorer would ask it. */
	question: string;
	/** Where a restorer would look for it. */
	group: Group;
	/** What may be typed to find it, besides what stands in its texts. */
	words?: readonly string[];
	inputs: I;
	/** Tried in order; without ways every input that is not optional must be given. */
	ways?: readonly Way<keyof I & string>[];
	outputs: O;
	/** The formula as the page prints it, a line each. */
	formulaText: readonly string[];
	/** Pure; base units in and out. */
	formula(given: Given<I>): Results<O>;
	/** Combinations that the ranges of single inputs cannot refuse. */
	refuse?(given: Given<I>): Problem | undefined;
	/** What the figures are, in sentences with outputs in braces; one is left out where an output is not known. */
	summary: readonly string[];
	judge?: readonly Judgement<keyof O & string>[];
	/** From best to worst; the worst judgement is the verdict. */
	verdicts?: readonly Verdict[];
	/** What is better looked at than read; base units in and out. Drawn by the page, with a table beside it. */
	pictures?(given: Given<I>, results: Results<O>): readonly Picture[];
	cautions: readonly string[];
	pitfalls: readonly string[];
	sources: readonly Source[];
	checks: readonly Check[];
}

/** Returns its argument and gives it types. */
export function defineCalculation<const I extends Inputs, const O extends Outputs>(
	calculation: Calculation<I, O>
): Calculation<I, O> {
	return calculation;
}

/** Two resistances side by side, ohm. Left alone when there is no second one. */
export function parallel(one: number, other?: number): number {
	return other === undefined ? one : (one * other) / (one + other);
}
