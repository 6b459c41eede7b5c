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
	const doc = parseDocument(text, {
		lineCounter: lines,
		version: '1.2',
		strict: true,
		uniqueKeys: true,
		prettyErrors: false
	});
	const findings = doc.errors.map((error) => {
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
		Map: (_, node) => anchor(node),
		Seq: (_, node) => anchor(node),
		Scalar: (_, node) => anchor(node)
	});
	if (findings.length) return { ok: false, findings };
	const locate = (path: KeyPath, key = false) => {
		const { line, col } = lines.linePos(offsetOf(doc, path, key));
		return { line: line || 1, column: col || 1 };
	};
	return { ok: true, document: { file, data: doc.toJS({ maxAliasCount: 0 }), locate } };
}
