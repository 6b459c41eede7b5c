import {
	parseQuantity,
	printQuantity,
	type ScaleName,
	scaleOf,
	scales,
	splitTolerance,
	type Unit
} from '$lib/quantity/index.ts';

/** What stands in a field for one value, or for several with semicolons between them. */
export type ValueReading =
	| { state: 'empty' }
	| {
			state: 'read';
			/** In base units. */
			values: readonly number[];
			/** In full: `4.7 kΩ (4,700 Ω)`. */
			echo: string;
			/** In per cent, for each value that was typed with one: `4k7 ±10%`. */
			tolerances?: readonly (number | undefined)[];
	  }
	| {
			state: 'refused';
			/** What is wrong and how to put it right. */
			hint: string;
			/** Where the text may mean several values: what to type for each, and how to show it. */
			choices: readonly { text: string; label: string }[];
	  };

const EMPTY: ValueReading = { state: 'empty' };

/** A value as text that can be read in one way only, for a field. */
export const typedValue = (value: number, unit: Unit): string =>
	printQuantity(value, unit, { digits: 12 }).replaceAll(',', '').replace('−', '-');

const plainScale = (unit: Unit): ScaleName | undefined =>
	(Object.keys(scales) as ScaleName[]).find((name) => {
		const { unit: owner, power, times } = scaleOf(name);
		return owner === unit && power === 0 && times === undefined;
	});

/** Adds the value without a prefix, down to thousandths: below, a row of noughts says less than the prefix. */
function inFull(value: number, unit: Unit, echo: string): string {
	const as = plainScale(unit);
	if (!as || echo.includes('(') || Math.abs(value) < 1e-3) return echo;
	const plain = printQuantity(value, unit, { as, digits: 12 });
	return plain === echo ? echo : `${echo} (${plain})`;
}

/** Reads one value; a number alone is in `scale`. */
export function readValue(text: string, scale: ScaleName): ValueReading {
	if (text.trim() === '') return EMPTY;
	const { unit } = scaleOf(scale);
	const parsed = parseQuantity(text, unit, { bare: scale });
	if (parsed.ok)
		return { state: 'read', values: [parsed.value], echo: inFull(parsed.value, unit, parsed.echo) };
	const choices = (parsed.choices ?? []).map(({ value, label }) => ({
		text: typedValue(value, unit),
		label
	}));
	return { state: 'refused', hint: parsed.hint, choices };
}

/** Reads one value and the tolerance that may stand behind it. */
function readWithTolerance(text: string, scale: ScaleName): ValueReading {
	const split = splitTolerance(text);
	if (!split) return readValue(text, scale);
	if (!split.ok) return { state: 'refused', hint: split.hint, choices: [] };
	const { text: value, pct } = split;
	const reading = readValue(value, scale);
	if (reading.state === 'read') return { ...reading, echo: `${reading.echo} ±${pct} %`, tolerances: [pct] };
	if (reading.state === 'empty') return reading;
	const behind = text.slice(value.length);
	return { ...reading, choices: reading.choices.map((one) => ({ ...one, text: one.text + behind })) };
}

/** Reads one value or, with semicolons, several: `5; 10; 30`, each perhaps with its tolerance. */
export function readValues(text: string, scale: ScaleName): ValueReading {
	const parts = text.split(';').map((part) => part.trim());
	while (parts.length > 1 && parts.at(-1) === '') parts.pop();
	const readings = parts.map((part) => readWithTolerance(part, scale));
	const refused = readings.findIndex(({ state }) => state === 'refused');
	const found = readings[refused];
	if (found?.state === 'refused') {
		const whole = (choice: string): string => parts.with(refused, choice).join('; ');
		return { ...found, choices: found.choices.map(({ text, label }) => ({ text: whole(text), label })) };
	}
	const read = readings.filter((reading) => reading.state === 'read');
	if (read.length === 0) return EMPTY;
	if (read.length < parts.length) {
		return { state: 'refused', hint: 'Between two semicolons nothing is typed. Leave one out.', choices: [] };
	}
	const echo = read.map((one) => one.echo).join('; ');
	const values = read.flatMap((one) => one.values);
	if (!read.some(({ tolerances }) => tolerances)) return { state: 'read', values, echo };
	return { state: 'read', values, echo, tolerances: read.map(({ tolerances }) => tolerances?.[0]) };
}
