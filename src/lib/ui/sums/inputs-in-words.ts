import type { Calculation, Input, RowsInput } from '$lib/calculations/index.ts';
import { unitOfKey } from '$lib/quantity/index.ts';
import { capital } from '../capital.ts';
import { readValues } from '../value.ts';
import { textsFrom, type Typed } from './fields.ts';
import { rowsOfText } from './rows-text.ts';

/** A typed value with its unit; what cannot be read stays as it was typed. */
function printed(text: string, key: string): string {
	const reading = readValues(text, unitOfKey(key).name);
	// The echo says a value in full once more, in brackets.
	return reading.state === 'read' ? reading.echo.replaceAll(/ \([^)]*\)/g, '') : text;
}

const rowsInWords = (text: string, { columns }: RowsInput): string =>
	rowsOfText(text)
		.map((cells) =>
			Object.values(columns)
				.flatMap(({ key }, i) => (cells[i] ? [printed(cells[i], key)] : []))
				.join(' ')
		)
		.join('; ');

function entryInWords(input: Input, text: string): string {
	switch (input.kind) {
		case 'number':
		case 'numbers':
			return printed(text, input.key);
		case 'rows':
			return rowsInWords(text, input);
		default:
			return text.split(',').filter(Boolean).join(', ');
	}
}

/** What was put into a sum, each with its label and unit: `Volts across it 65 V, resistor 1.5 kΩ`. */
export function inputsInWords(calculation: Calculation, typed: Typed): string {
	const texts = textsFrom(calculation, typed);
	const said = Object.values(calculation.inputs).flatMap((input) => {
		const text = texts[input.key] ?? '';
		return text === '' ? [] : [`${input.label} ${entryInWords(input, text)}`];
	});
	return capital(said.join(', '));
}
