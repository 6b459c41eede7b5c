import type { z } from 'zod';
import type { KeyPath, SourceDocument } from './document.ts';
import type { Finding } from './finding.ts';

/** What a schema found, in words for the author: what is wrong, and what to write instead. */

type ZodIssue = z.core.$ZodIssue;

interface Wording {
	message: string;
	remedy: string;
}

const GUIDE = 'Compare with "Add a symptom" in DEVELOPERS.md.';

/** How a message of ours begins its remedy: "what is wrong. Use this." or the remedy alone. */
const REMEDY = /^(?:use|write|say|name|give|compare) /i;
const BOTH = /^(.*?[.:”"]) ((?:use|write|say|name|give|compare) .*)$/is;
/** The schema library's own sentences, which speak to programmers. */
const NOT_OURS = /^(?:invalid|too |unrecognized)/i;

const WANTED: Readonly<Record<string, string>> = {
	string: 'text, in quotes where it begins with a figure or a sign',
	number: 'a number',
	boolean: 'true or false',
	array: 'a list: [one, two]',
	object: 'keys with their values, each on a line below it',
	record: 'keys with their values, each on a line below it'
};

function shown(value: unknown): string {
	if (Array.isArray(value)) return value.length ? 'a list' : 'an empty list';
	return typeof value === 'object' ? 'keys with values' : `"${String(value)}"`;
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

function remedyFor(issue: ZodIssue): string {
	if (issue.code === 'invalid_type') return `Write ${WANTED[issue.expected] ?? issue.expected}.`;
	if (issue.code === 'invalid_value') return `Use one of: ${issue.values.map(String).join(', ')}.`;
	if (issue.code !== 'too_small' && issue.code !== 'too_big') return GUIDE;
	const start = issue.origin === 'array' ? 'Give a list of' : 'Write a number of';
	return issue.code === 'too_small'
		? `${start} ${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}.`
		: `${start} ${issue.inclusive ? 'at most' : 'less than'} ${issue.maximum}.`;
}

function worded(issue: ZodIssue, value: unknown): Wording {
	// An entry of a list is spoken of by the name of its list.
	const key = issue.path.findLast((step) => typeof step === 'string');
	const name = key === undefined ? 'The file' : `"${key}"`;
	const empty =
		value === undefined ? `${name} is missing.` : value === null ? `${name} stands empty.` : undefined;
	const plain = empty ?? `${name} cannot be ${shown(value)}.`;
	if (NOT_OURS.test(issue.message)) return { message: plain, remedy: remedyFor(issue) };
	if (REMEDY.test(issue.message)) return { message: plain, remedy: issue.message };
	const [, wrong = issue.message, remedy = GUIDE] = BOTH.exec(issue.message) ?? [];
	return { message: empty ?? wrong.replace(/:$/, '.'), remedy: capital(remedy) };
}

/** The complaint of the alternative that its author meant: the one that got furthest, else one on the right kind of value. */
function deepest(issue: ZodIssue): ZodIssue {
	if (issue.code !== 'invalid_union' || !issue.errors.length) return issue;
	const candidates = issue.errors.flat().map(deepest);
	const furthest = candidates.reduce<ZodIssue | undefined>(
		(a, b) => (b.path.length > (a?.path.length ?? 0) ? b : a),
		undefined
	);
	const fitting = NOT_OURS.test(issue.message)
		? candidates.find(({ code }) => code !== 'invalid_type')
		: undefined;
	const best = furthest ?? fitting;
	return best ? { ...best, path: [...issue.path, ...best.path] } : issue;
}

const valueAt = (data: unknown, path: KeyPath): unknown =>
	path.reduce<unknown>(
		(value, key) =>
			typeof value === 'object' && value !== null ? (value as Record<PropertyKey, unknown>)[key] : undefined,
		data
	);

function findings(document: SourceDocument, issue: ZodIssue): Finding[] {
	const finding = (code: string, path: KeyPath, key: boolean, wording: Wording): Finding => ({
		code,
		level: 'error',
		file: document.file,
		...document.locate(path, key),
		...wording
	});
	if (issue.code === 'unrecognized_keys')
		return issue.keys.map((key) =>
			finding('unknown-key', [...issue.path, key], true, {
				message: `There is no key "${key}" here.`,
				remedy: 'Remove it, or correct its spelling.'
			})
		);
	const value = valueAt(document.data, issue.path);
	const inner = issue.code === 'invalid_key' ? issue.issues[0] : undefined;
	if (inner) return [finding('schema', issue.path, true, worded({ ...inner, path: issue.path }, value))];
	const code = value === undefined && issue.path.at(-1) === 'source' ? 'source-missing' : 'schema';
	return [finding(code, issue.path, false, worded(issue, value))];
}

/** Turn what a schema found into findings with line, column and remedy. */
export const schemaFindings = (document: SourceDocument, error: z.ZodError): Finding[] =>
	error.issues.map((issue) => deepest(issue as ZodIssue)).flatMap((issue) => findings(document, issue));
