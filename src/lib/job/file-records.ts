import { DEEPEST, LARGEST_FILE, LARGEST_OLD_FILE, LONGEST_LINE, nestsTooDeep } from './file-limits.ts';
import { AGAIN, refuse } from './file-refused.ts';
import { FORMAT } from './file.ts';

/** A piece of a file as it was read, not looked at yet, and where it ends. */
export interface RawRecord {
	line: number;
	value: unknown;
	/** Of the file's bytes, those that are read when this is handed over. */
	read: number;
	/** A file of version 1 is one piece; its lines are found in the text. */
	text?: string;
}

/** The text as JSON. An engine that names the position of the fault lets us name the line. */
function parse(text: string, line: number): unknown {
	if (nestsTooDeep(text))
		refuse(
			`line ${line}`,
			`It holds more than ${DEEPEST} brackets within each other and cannot be read: no job does.`
		);
	const value = parsed(text, line);
	// A key that would change what other values inherit; it may be written with escapes.
	if ((text.includes('__proto__') || text.includes('\\u')) && namesPrototype(value))
		refuse(`line ${line}`, `It has a key "__proto__", which this program never writes. ${AGAIN}`);
	return value;
}

const namesPrototype = (value: unknown): boolean =>
	typeof value === 'object' &&
	value !== null &&
	(Object.hasOwn(value, '__proto__') || Object.values(value).some(namesPrototype));

function parsed(text: string, line: number): unknown {
	try {
		return JSON.parse(text) as unknown;
	} catch (error) {
		const position = Number(/position (\d+)/.exec(String(error))?.[1] ?? text.length);
		const within = text.slice(0, position).split('\n').length - 1;
		return refuse(
			`line ${line + within}`,
			'The file breaks off or is damaged here. Take it again from where it was saved.'
		);
	}
}

/** Lines of a file of this version and later ones begin so. */
const BEGINS = new RegExp(`^\\s*\\{\\s*"format"\\s*:\\s*"${FORMAT}"\\s*,`);

interface Line {
	line: number;
	text: string;
	read: number;
}

/** The lines of a file, one after the other; only one of them is in memory. */
async function* linesOf(file: Blob): AsyncGenerator<Line> {
	const decoder = new TextDecoder('utf-8', { fatal: true });
	let [rest, line, read] = ['', 1, 0];
	const reader = file.stream().getReader();
	try {
		for (let piece = await reader.read(); !piece.done; piece = await reader.read()) {
			read += piece.value.length;
			const lines = (rest + decoded(decoder, piece.value, line)).split('\n');
			rest = lines.pop() ?? '';
			for (const text of lines) yield { line: line++, text, read };
			if (rest.length > LONGEST_LINE)
				refuse(`line ${line}`, `The line is longer than any that this program writes. ${AGAIN}`);
		}
		rest += decoded(decoder, undefined, line);
		if (rest.trim()) yield { line, text: rest, read };
	} finally {
		await reader.cancel();
	}
}

function decoded(decoder: TextDecoder, bytes: Uint8Array | undefined, line: number): string {
	try {
		return bytes ? decoder.decode(bytes, { stream: true }) : decoder.decode();
	} catch {
		return refuse(`after line ${line}`, `The file holds bytes that are no text. ${AGAIN}`);
	}
}

async function* recordLines(file: Blob): AsyncGenerator<RawRecord> {
	if (file.size > LARGEST_FILE)
		refuse('the file', `It is larger than ${LARGEST_FILE / 1e6} MB. Save the jobs in several files.`);
	for await (const { line, text, read } of linesOf(file))
		if (text.trim()) yield { line, value: parse(text, line), read };
}

async function* oneRecord(file: Blob): AsyncGenerator<RawRecord> {
	if (file.size > LARGEST_OLD_FILE)
		refuse(
			'the file',
			`It is larger than ${LARGEST_OLD_FILE / 1e6} MB, which no single job comes near. Choose a file that was saved from here.`
		);
	const text = await file.text();
	yield { line: 1, value: parse(text, 1), read: file.size, text };
}

/** What a file holds, piece by piece. Files before version 2 are a single piece. */
export async function* rawRecords(file: Blob): AsyncGenerator<RawRecord> {
	const beginning = await file.slice(0, 200).text();
	yield* BEGINS.test(beginning) ? recordLines(file) : oneRecord(file);
}
