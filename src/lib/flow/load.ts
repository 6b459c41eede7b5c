import type { z } from 'zod';
import { checkPlan } from '../receiver/index.ts';
import { Plan } from '../receiver/plan.ts';
import { runChecks } from './checks/index.ts';
import { readDocument, type SourceDocument } from './document.ts';
import { sortFindings, type Finding } from './finding.ts';
import { emptyLibrary, Origins, type EntityKind, type Library } from './library.ts';
import { schemaFindings } from './schema-findings.ts';
import { WANTED_FILE } from './wanted.ts';
import {
	CautionFile,
	Flow,
	GlossaryFile,
	HistoryFile,
	PartsFile,
	SayingFile,
	SourceFile,
	StepFile,
	SuspectFile,
	VerdictFile
} from './schema.ts';

export interface SourceText {
	/** Path from the top of the project, with forward slashes: `flows/shared/steps/output.yaml`. */
	path: string;
	text: string;
}

export type LoadResult =
	{ ok: true; library: Library; origins: Origins; advice: Finding[] } | { ok: false; findings: Finding[] };

interface Loading {
	library: Library;
	origins: Origins;
	findings: Finding[];
}

/** Files of one entity (a plan, a flow) carry its id; files of many hold one table. */
const kinds: { pattern: RegExp; kind: EntityKind; schema: z.ZodType; table: boolean }[] = [
	{ pattern: /^flows\/shared\/suspects\/[^/]+\.yaml$/, kind: 'suspects', schema: SuspectFile, table: true },
	{ pattern: /^flows\/shared\/steps\/[^/]+\.yaml$/, kind: 'steps', schema: StepFile, table: true },
	{ pattern: /^flows\/shared\/cautions\.yaml$/, kind: 'cautions', schema: CautionFile, table: true },
	{ pattern: /^flows\/shared\/sources\.yaml$/, kind: 'sources', schema: SourceFile, table: true },
	{ pattern: /^flows\/shared\/history\.yaml$/, kind: 'history', schema: HistoryFile, table: true },
	{ pattern: /^flows\/shared\/owner-words\.yaml$/, kind: 'sayings', schema: SayingFile, table: true },
	{ pattern: /^flows\/shared\/glossary\.yaml$/, kind: 'glossary', schema: GlossaryFile, table: true },
	{ pattern: /^flows\/shared\/parts\.yaml$/, kind: 'parts', schema: PartsFile, table: true },
	{ pattern: /^flows\/shared\/verdicts\.yaml$/, kind: 'verdicts', schema: VerdictFile, table: true },
	{ pattern: /^flows\/shared\/plans\/[^/]+\.yaml$/, kind: 'plans', schema: Plan, table: false },
	{ pattern: /^flows\/[^/]+\.yaml$/, kind: 'flows', schema: Flow, table: false }
];

function add(
	loading: Loading,
	kind: EntityKind,
	id: string,
	value: unknown,
	document: SourceDocument,
	prefix: string[]
) {
	const table = (loading.library[kind] ??= {}) as Record<string, unknown>;
	const earlier = loading.origins.fileOf(kind, id);
	if (earlier !== undefined) {
		loading.findings.push({
			code: 'twice',
			level: 'error',
			file: document.file,
			...document.locate(prefix.length ? prefix : ['id'], true),
			message: `"${id}" stands already in ${earlier}.`,
			remedy: 'Give it an id of its own, or remove one of the two.'
		});
		return;
	}
	table[id] = value;
	loading.origins.add(kind, id, document, prefix);
}

function loadFile(loading: Loading, { path, text }: SourceText): void {
	const place = kinds.find(({ pattern }) => pattern.test(path));
	if (!place) {
		const remedy =
			'Flows stand in flows/, shared parts in flows/shared/suspects, steps, plans, or cautions.yaml, sources.yaml, history.yaml, owner-words.yaml, glossary.yaml, parts.yaml and verdicts.yaml.';
		const message = 'A file in this folder belongs to nothing that is read.';
		loading.findings.push({
			code: 'stray-file',
			level: 'error',
			file: path,
			line: 1,
			column: 1,
			message,
			remedy
		});
		return;
	}
	const read = readDocument(path, text);
	if (!read.ok) {
		loading.findings.push(...read.findings);
		return;
	}
	const parsed = place.schema.safeParse(read.document.data);
	if (!parsed.success) {
		loading.findings.push(...schemaFindings(read.document, parsed.error));
		return;
	}
	const data = parsed.data as Record<string, unknown>;
	if (!place.table) add(loading, place.kind, String(data['id']), data, read.document, []);
	else
		for (const [id, value] of Object.entries(data[place.kind] as Record<string, unknown>))
			add(loading, place.kind, id, value, read.document, [place.kind, id]);
}

function planFindings({ library, origins }: Loading): Finding[] {
	return Object.values(library.plans).flatMap((plan) =>
		checkPlan(plan).map(({ path, key, message, remedy }) => ({
			code: 'plan',
			level: 'error' as const,
			...origins.at('plans', plan.id, path, key),
			message,
			remedy
		}))
	);
}

/** A flow's own suspects and steps join the shared tables under their own ids; a clash is an error. */
function addOwn(loading: Loading): void {
	for (const flow of Object.values(loading.library.flows)) {
		for (const kind of ['suspects', 'steps'] as const)
			for (const id of Object.keys(flow.own[kind]))
				if (Object.hasOwn(loading.library[kind], id))
					loading.findings.push({
						code: 'changes-shared',
						level: 'error',
						...loading.origins.at('flows', flow.id, ['own', kind, id], true),
						message: `"${id}" is shared already; a flow cannot change it.`,
						remedy: 'Give what is special to this flow an id of its own.'
					});
	}
}

/**
 * Read the whole library from its files, whatever the checks would say of it. Every file is read before anything is
 * reported, so that an author sees all there is to mend.
 */
export const readLibrary = (files: readonly SourceText[], flowsBeside: readonly string[] = []): Loading =>
	readInto(emptyLibrary(), files, new Origins(flowsBeside));

function readInto(library: Library, files: readonly SourceText[], origins = new Origins()): Loading {
	const loading: Loading = { library, origins, findings: [] };
	// The list of wanted flows is for authors; no set is traced by it.
	for (const file of files) if (file.path !== WANTED_FILE) loadFile(loading, file);
	if (loading.findings.length) return loading;
	addOwn(loading);
	loading.findings.push(...planFindings(loading));
	return loading;
}

/**
 * Read the library and check it; the checks run only on one whose files can be read.
 *
 * @param flowsBeside ids of flows that exist though they are not among the files
 */
export function loadLibrary(files: readonly SourceText[], flowsBeside: readonly string[] = []): LoadResult {
	const { library, origins, findings: read } = readLibrary(files, flowsBeside);
	return resultOf(library, origins, read.length ? read : runChecks(library, origins));
}

function resultOf(library: Library, origins: Origins, found: readonly Finding[]): LoadResult {
	const findings = sortFindings(found);
	return findings.some((f) => f.level === 'error')
		? { ok: false, findings }
		: { ok: true, library, origins, advice: findings };
}

/**
 * Read files beside a library that is sound already. What they hold stands in place of what has the same id there. Only
 * they are checked, with the flows among them; the result holds no finding about any other file.
 */
export function loadBeside(base: Library, files: readonly SourceText[]): LoadResult {
	const {
		library,
		origins,
		findings: read
	} = readInto(copyOfTables(base), files, new Origins(Object.keys(base.flows)));
	if (read.length) return resultOf(library, origins, read);
	const own = new Set(files.map(({ path }) => path));
	const found = runChecks(onlyOwn(library, origins), origins).filter(({ file }) => own.has(file));
	return resultOf(library, origins, found);
}

const copyOfTables = (base: Library): Library =>
	Object.fromEntries(Object.entries(base).map(([kind, table]) => [kind, { ...table }])) as unknown as Library;

/** The library with the flows of these files alone, and without what is said of others. */
function onlyOwn(library: Library, origins: Origins): Library {
	const flows = Object.entries(library.flows).filter(([id]) => origins.fileOf('flows', id) !== undefined);
	return { ...library, flows: Object.fromEntries(flows), sayings: {} };
}
