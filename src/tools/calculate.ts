import { pathToFileURL } from 'node:url';
import {
	type Calculation,
	calculationOf,
	calculations,
	type Input,
	rangeOf,
	runCalculation
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

function lineOf(input: Input, free: boolean): string {
	const note = free ? ', may be left out' : '';
	if (input.kind !== 'number') return `  ${input.key}: ${input.label}: ${input.options.join(' | ')}${note}`;
	const other = input.alsoKeys ? ` (or ${input.alsoKeys.join(', ')})` : '';
	const unit = unitOfKey(input.key).symbol;
	return `  ${input.key}${other}: ${input.label}${unit && `, in ${unit}`}, ${rangeOf(input)}${note}`;
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

function calculate(id: string, text: string, io: Io): number {
	// An unknown id is the first thing to say, whatever the inputs look like.
	const read = calculationOf(id) ? readJson(text) : { given: {} };
	if ('message' in read) return fail(io, `${id}: ${read.message}`);
	const answer = runCalculation(id, read.given);
	if (!answer.ok) return fail(io, answer.problems.map(({ message }) => `${id}: ${message}`).join('\n'));
	io.out(JSON.stringify({ ...answer, ok: undefined }));
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
