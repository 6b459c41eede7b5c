import {
	isMap,
	isPair,
	isScalar,
	isSeq,
	LineCounter,
	parseDocument,
	visit,
	type Document,
	type Node
} from 'yaml';
import type { Finding } from './finding.ts';

export type KeyPath = readonly PropertyKey[];

/** A YAML file with its positions: what the loader and the checks ask for a line and column. */
export interface SourceDocument {
	file: string;
	data: unknown;
	/** Line and column of the node at this path, or of its nearest parent that exists. */
	locate(path: KeyPath, key?: boolean): { line: number; column: number };
}

/** No file of this project comes near it; a stranger's file beyond it is refused unread. */
export const MAX_BYTES = 1_000_000;

/** Of a file that is no YAML at all the first errors say enough. */
const MOST_ERRORS = 20;

/** No file of this project nests a tenth of it; the reader of YAML goes down one call for each. Our own choice. */
const MAX_DEPTH = 200;

/** Brackets open at once, and list dashes in a row: a bound from above on the depth, found without reading the file. */
function nestsTooDeep(text: string): boolean {
	let open = 0;
	let dashes = 0;
	for (const mark of text) {
		if (mark === '[' || mark === '{') open++;
		else if (mark === ']' || mark === '}') open = Math.max(0, open - 1);
		dashes = mark === '-' ? dashes + 1 : mark === ' ' ? dashes : 0;
		if (open > MAX_DEPTH || dashes > MAX_DEPTH) return true;
	}
	return false;
}

function offsetOf(doc: Document, path: KeyPath, wantKey: boolean): number {
	let node = doc.contents as Node | null;
	let offset = node?.range?.[0] ?? 0;
	for (const [index, step] of path.entries()) {
		const last = index === path.length - 1;
		if (isMap(node)) {
			const pair = node.items.find(
				(item) => isPair(item) && isScalar(item.key) && String(item.key.value) === String(step)
			);
			if (!pair) return offset;
			const key = pair.key as Node;
			node = pair.value as Node | null;
			offset = (last && wantKey ? key.range?.[0] : (node?.range?.[0] ?? key.range?.[0])) ?? offset;
		} else if (isSeq(node)) {
			node = (node.items[Number(step)] as Node | undefined) ?? null;
			if (!node) return offset;
			offset = node.range?.[0] ?? offset;
		} else return offset;
	}
	return offset;
}

const syntax = (message: string): { message: string; remedy: string } =>
	/unique/i.test(message)
		? { message: 'The same key stands here twice.', remedy: 'Keep one of the two, or rename one.' }
		: {
				message: `This is not YAML that can be read: ${message}`,
				remedy: 'Check indentation, colons and quotes on this line.'
			};

export type ReadResult = { ok: true; document: SourceDocument } | { ok: false; findings: Finding[] };

/** Read YAML 1.2. Aliases and anchors are refused; so are files over a megabyte. */
export function readDocument(file: string, text: string): ReadResult {
	const fail = (
		code: string,
		offset: number,
		message: string,
		remedy: string,
		lines: LineCounter
	): Finding => {
		const { line, col } = lines.linePos(offset);
		return { code, level: 'error', file, line: line || 1, column: col || 1, message, remedy };
	};
	const lines = new LineCounter();
	if (text.length > MAX_BYTES)
		return {
			ok: false,
			findings: [
				fail(
					'too-large',
					0,
					'The file is larger than one megabyte.',
					'Split it: one symptom, or one kind of part, a file.',
					lines
				)
			]
		};
	if (nestsTooDeep(text))
		return {
			ok: false,
			findings: [
				fail(
					'too-deep',
					0,
					'Brackets or lists stand in one another more than 200 deep.',
					'Close each bracket; a flow needs no more than ten levels.',
					lines
				)
			]
		};
	const doc = parseDocument(text, {
		lineCounter: lines,
		version: '1.2',
		strict: true,
		uniqueKeys: true,
		prettyErrors: false
	});
	const findings = doc.errors.slice(0, MOST_ERRORS).map((error) => {
		const { message, remedy } = syntax(error.message);
		return fail('not-yaml', error.pos[0], message, remedy, lines);
	});
	const anchor = (node: { anchor?: string; range?: [number, number, number] | null }) => {
		if (node.anchor)
			findings.push(
				fail(
					'alias',
					node.range?.[0] ?? 0,
					'Anchors and aliases are not used here.',
					'Write the value out.',
					lines
				)
			);
	};
	visit(doc, {
		Alias: (_, node) => {
			findings.push(
				fail(
					'alias',
					node.range?.[0] ?? 0,
					'Anchors and aliases are not used here.',
					'Write the value out.',
					lines
				)
			);
		},
		Pair: (_, { key }) => {
			// Harmless where it is read, but it would vanish without a word.
			if (isScalar(key) && key.value === '__proto__')
				findings.push(
					fail('unknown-key', key.range?.[0] ?? 0, 'There is no key "__proto__" here.', 'Remove it.', lines)
				);
		},
		Map: (_, node) => anchor(node),
		Seq: (_, node) => anchor(node),
		Scalar: (_, node) => anchor(node)
	});
	if (findings.length) return { ok: false, findings: findings.slice(0, MOST_ERRORS) };
	const locate = (path: KeyPath, key = false) => {
		const { line, col } = lines.linePos(offsetOf(doc, path, key));
		return { line: line || 1, column: col || 1 };
	};
	return { ok: true, document: { file, data: doc.toJS({ maxAliasCount: 0 }), locate } };
}
