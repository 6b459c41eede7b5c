import { isMap, isPair, isScalar, isSeq, LineCounter, parseDocument, visit, type Document, type Node } from 'yaml';
import type { z } from 'zod';
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
			const pair = node.items.find((item) => isPair(item) && isScalar(item.key) && String(item.key.value) === String(step));
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
		: { message: `This is not YAML that can be read: ${message}`, remedy: 'Check indentation, colons and quotes on this line.' };

export type ReadResult = { ok: true; document: SourceDocument } | { ok: false; findings: Finding[] };

/** Read YAML 1.2. Aliases and anchors are refused; so are files over a megabyte. */
export function readDocument(file: string, text: string): ReadResult {
	const fail = (code: string, offset: number, message: string, remedy: string, lines: LineCounter): Finding => {
		const { line, col } = lines.linePos(offset);
		return { code, level: 'error', file, line: line || 1, column: col || 1, message, remedy };
	};
	const lines = new LineCounter();
	if (text.length > MAX_BYTES)
		return {
			ok: false,
			findings: [fail('too-large', 0, 'The file is larger than one megabyte.', 'Split it: one symptom, or one kind of part, a file.', lines)]
		};
	const doc = parseDocument(text, { lineCounter: lines, version: '1.2', strict: true, uniqueKeys: true, prettyErrors: false });
	const findings = doc.errors.map((error) => {
		const { message, remedy } = syntax(error.message);
		return fail('not-yaml', error.pos[0], message, remedy, lines);
	});
	const anchor = (node: { anchor?: string; range?: [number, number, number] | null }) => {
		if (node.anchor)
			findings.push(fail('alias', node.range?.[0] ?? 0, 'Anchors and aliases are not used here.', 'Write the value out.', lines));
	};
	visit(doc, {
		Alias: (_, node) => {
			findings.push(fail('alias', node.range?.[0] ?? 0, 'Anchors and aliases are not used here.', 'Write the value out.', lines));
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

type ZodIssue = z.core.$ZodIssue;

const remedies: Record<string, string> = {
	invalid_type: 'Compare with the guide for flow authors.',
	unrecognized_keys: 'Remove it, or correct its spelling.',
	invalid_union: 'Compare with the guide for flow authors.'
};

/** The deepest complaint of a union: the alternative that got furthest is the one its author meant. */
function deepest(issue: ZodIssue): ZodIssue {
	if (issue.code !== 'invalid_union' || !issue.errors.length) return issue;
	const candidates = issue.errors.flat().map(deepest);
	const best = candidates.reduce<ZodIssue | undefined>((a, b) => (!a || b.path.length > a.path.length ? b : a), undefined);
	return best && best.path.length > 0 ? { ...best, path: [...issue.path, ...best.path] } : issue;
}

function sentences(issue: ZodIssue): { path: PropertyKey[]; key: boolean; message: string }[] {
	if (issue.code === 'unrecognized_keys')
		return issue.keys.map((key) => ({ path: [...issue.path, key], key: true, message: `There is no key "${key}" here.` }));
	const last = String(issue.path.at(-1) ?? 'file');
	const missing = issue.code === 'invalid_type' && issue.message.includes('received undefined');
	const message = missing ? `"${last}" is missing.` : issue.message.startsWith('Invalid') ? `"${last}": ${issue.message}.` : issue.message;
	return [{ path: [...issue.path], key: false, message }];
}

/** Turn what a schema found into findings with line, column and remedy. */
export function schemaFindings(document: SourceDocument, error: z.ZodError): Finding[] {
	return error.issues.map((issue) => deepest(issue as ZodIssue)).flatMap((issue) =>
		sentences(issue).map(({ path, key, message }) => {
			// A message of ours is "what is wrong. What to do.": the second sentence is the remedy.
			const split = /^(.*?[.:"”]) ((?:Use|Write|Say|Name|Give|Compare) .*)$/s.exec(message);
			return {
				code: issue.code === 'unrecognized_keys' ? 'unknown-key' : 'schema',
				level: 'error' as const,
				file: document.file,
				...document.locate(path, key),
				message: split?.[1] ?? message,
				remedy: split?.[2] ?? remedies[issue.code] ?? 'Compare with the guide for flow authors.'
			};
		})
	);
}
