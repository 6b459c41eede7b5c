import { pathToFileURL } from 'node:url';
import {
	type Calculation,
	calculationOf,
	calculations,
	type Input,
	rangeOf,
	runCalculation,
	withLabels
} from '../lib/calculations/index.ts';
import { unitOfKey } from '../lib/quantity/index.ts';

/** Where the answer goes. */
export interface Io {
	out(text: string): void;
	err(text: string): void;
}

const USAGE = `usage: npm run -s calculate -- ID 'JSON'
       npm run -s calculate -- --list
for example: npm run -s calculate -- resistor-drop '{"R_ohm": 1200, "V": 60}'`;

/** What an input takes, in words. */
function takes(input: Input): string {
	const inUnit = (key: string): string => {
		const { symbol } = unitOfKey(key);
		return symbol && `, in ${symbol}`;
	};
	switch (input.kind) {
		case 'number':
			return `${input.label}${inUnit(input.key)}, ${rangeOf(input)}${input.large ? ', or "large"' : ''}`;
		case 'numbers':
			return `${input.label}${inUnit(input.key)}, a list of ${input.least} to ${input.most}${input.named ? ', or an object by name' : ''}, each ${rangeOf(input)}`;
		case 'rows': {
			const columns = Object.values(input.columns);
			const each = columns.map((cell) => `${cell.key} (${cell.label}, ${rangeOf(cell)})`);
			return `${input.label}, ${input.least} to ${input.most} rows [${each.join(', ')}]`;
		}
		case 'text':
			return `${input.label}, a text such as ${input.example}`;
		case 'list': {
			const order = input.places ? `, in the order ${input.places.join(', ')}` : ', some of';
			return `${input.label}${order}: ${input.options.join(' | ')}`;
		}
		default:
			return `${input.label}: ${input.options.join(' | ')}`;
	}
}

function lineOf(input: Input, free: boolean): string {
	const other = input.kind === 'number' && input.alsoKeys ? ` (or ${input.alsoKeys.join(', ')})` : '';
	return `  ${input.key}${other}: ${takes(input)}${free ? ', may be left out' : ''}`;
}

function entryOf({ id, title, inputs, ways = [] }: Calculation): string {
	const keys = (fields: readonly string[]): string =>
		fields.map((field) => inputs[field]?.key ?? field).join(' + ');
	const alternatives = ways.map(({ title: name, needs }) => `  by ${name}: ${keys(needs)}`);
	const inWays = new Set(ways.flatMap(({ needs }) => needs));
	const lines = Object.entries(inputs).map(([field, input]) =>
		lineOf(input, input.optional === true && !inWays.has(field))
	);
	return [`${id}: ${title}`, ...lines, ...alternatives].join('\n');
}

const listing = (): string => Object.values<Calculation>(calculations).map(entryOf).join('\n\n');

function readJson(text: string): { given: Record<string, unknown> } | { message: string } {
	try {
		const given: unknown = JSON.parse(text);
		if (typeof given === 'object' && given !== null && !Array.isArray(given)) {
			return { given: given as Record<string, unknown> };
		}
		return { message: 'The inputs are no JSON object. Write them as {"R_ohm": 1200, "V": 60}.' };
	} catch (error) {
		const reason = error instanceof Error ? error.message : String(error);
		return {
			message: `The inputs are not readable as JSON: ${reason}. Write {"R_ohm": 1200, "V": 60}, in single quotes.`
		};
	}
}

/** The outputs, with those that have a second name told under both. */
function withAliases(
	calculation: Calculation,
	outputs: Readonly<Record<string, unknown>>
): Record<string, unknown> {
	const others = Object.values(calculation.outputs).flatMap(({ key, alias }) =>
		alias !== undefined && key in outputs ? [[alias, outputs[key]] as const] : []
	);
	return { ...outputs, ...Object.fromEntries(others) };
}

function calculate(id: string, text: string, io: Io): number {
	// An unknown id is the first thing to say, whatever the inputs look like.
	const calculation = calculationOf(id);
	const read = calculation ? readJson(text) : { given: {} };
	if ('message' in read) return fail(io, `${id}: ${read.message}`);
	const answer = runCalculation(id, read.given);
	if (!answer.ok) {
		const words = answer.problems.map((one) => (calculation ? withLabels(calculation, one) : one.message));
		return fail(io, words.map((message) => `${id}: ${message}`).join('\n'));
	}
	const outputs = calculation ? withAliases(calculation, answer.outputs) : answer.outputs;
	io.out(JSON.stringify({ ...answer, ok: undefined, outputs }));
	return 0;
}

function fail(io: Io, message: string): number {
	io.err(message);
	return 2;
}

/** `argv` without the program: an id and its inputs, or `--list`. Returns the exit code: 0, or 2 for what can be mended. */
export function main(argv: readonly string[], io: Io): number {
	const [id, text = '{}', ...rest] = argv;
	if (id === '--help') return (io.out(USAGE), 0);
	if (id === '--list') return (io.out(listing()), 0);
	if (id === undefined || rest.length > 0) return fail(io, USAGE);
	return calculate(id, text, io);
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
	process.exitCode = main(process.argv.slice(2), {
		out: (line) => void process.stdout.write(`${line}\n`),
		err: (line) => void process.stderr.write(`${line}\n`)
	});
}
