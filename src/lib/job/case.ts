import { z } from 'zod';
import {
	HISTORY,
	INSTRUMENTS,
	PATH_OUTCOMES,
	SIGNS,
	type HistoryWord,
	type Instrument,
	type Sign
} from '../flow/terms.ts';
import { readDocument, type SourceDocument } from '../flow/document.ts';
import { schemaFindings } from '../flow/schema-findings.ts';
import type { Finding } from '../flow/finding.ts';
import { PlanTraits, Section } from '../receiver/plan.ts';

const Id = z.string().regex(/^[a-z][a-z0-9@-]*$/);

const Given = z.union(
	[
		z.strictObject({ step: Id, outcome: Id, finding: z.boolean().optional() }),
		z.strictObject({ step: Id, reading: z.string(), finding: z.boolean().optional() }),
		/** The step's own sum, filled from what is known and from these rows; its verdict is the outcome. */
		z.strictObject({
			step: Id,
			calculate: z.record(z.string(), z.json()),
			finding: z.boolean().optional()
		}),
		z.strictObject({ step: Id, 'cannot-tell': z.string() }),
		z.strictObject({
			repair: Id,
			symptom: z.enum(['cured', 'unchanged', 'changed']),
			'part-was': z.enum(['bad', 'good', 'not-tested']),
			/** The flow whose complaint was proved, where the case has two; else every flow that suspects the part. */
			flow: Id.optional()
		})
	],
	{
		error:
			'This is no answer that can be played. Write {step: …, outcome: …}, {step: …, reading: "1.2 V"}, {step: …, calculate: {ROW: value}}, {step: …, cannot-tell: reason} or {repair: …, symptom: …, part-was: …}.'
	}
);
export type Given = z.infer<typeof Given>;

/** What it really was. */
const Cause = z.strictObject({
	suspect: z.string(),
	section: Section,
	also: z.array(Section).default([])
});

/** A worked fault: what was heard, what was found step by step, and what it really was. Or a procedure: what it ends in. */
const WorkedCase = z.strictObject({
	id: Id,
	title: z.string(),
	source: z.strictObject({
		title: z.string(),
		kind: z.string(),
		year: z.number().nullable().optional(),
		site: z.string().optional()
	}),
	/** The flow that is played. Left out, `flow -- play` says which flows fit what is heard and noticed. */
	flow: Id.optional(),
	/** A second complaint of the same set: it is traced beside the first, and answers count in both. */
	'second-flow': Id.optional(),
	plan: Id,
	/** What each band does, and what is noticed beside it: needed where no flow is named. */
	heard: z.record(z.string(), z.enum(PATH_OUTCOMES)).default({}),
	signs: z.array(z.enum(Object.keys(SIGNS) as [Sign, ...Sign[]])).default([]),
	set: z
		.strictObject({
			/** It was running on full mains when it came in. */
			playing: z.boolean().default(true),
			/** Where the set differs from its plan: {chassis: live, heaters: series}. */
			traits: PlanTraits.default({}),
			instruments: z.array(z.enum(Object.keys(INSTRUMENTS) as [Instrument, ...Instrument[]])).optional(),
			/** What is known of the set's past. */
			history: z.array(z.enum(Object.keys(HISTORY) as [HistoryWord, ...HistoryWord[]])).default([]),
			/** Service volts by test point: "output.cathode": "7 V". */
			service: z.record(z.string(), z.string()).default({})
		})
		.default({ playing: true, traits: {}, history: [], service: {} }),
	complaint: z.string(),
	answers: z.array(Given),
	cause: Cause.optional(),
	/** Of work in a fixed order: all of it was done, or a finding led to the flow that traces it. */
	ends: z
		.union([z.literal('through'), z.strictObject({ opens: Id })], {
			error: 'Say how the work ends:  ends: through  or  ends: {opens: FLOW}.'
		})
		.optional(),
	/** Why the set lies outside the receiver plans; such cases are listed apart. */
	'outside-model': z.string().optional(),
	notes: z.string().optional()
});
export const Case = WorkedCase.refine(({ cause, ends }) => (cause === undefined) !== (ends === undefined), {
	// At a key that is always there: one that is missing would be told as missing, and nothing more.
	path: ['complaint'],
	error:
		'A case comes either to a cause or to an end. Give the  cause:  of a fault, or what a procedure  ends:  in.'
});
export type Case = z.infer<typeof Case>;

export type CaseResult =
	{ ok: true; case: Case; document: SourceDocument } | { ok: false; findings: Finding[] };

/** Read a case file. */
export function readCase(file: string, text: string): CaseResult {
	const read = readDocument(file, text);
	if (!read.ok) return read;
	const parsed = Case.safeParse(read.document.data);
	if (!parsed.success) return { ok: false, findings: schemaFindings(read.document, parsed.error) };
	return { ok: true, case: parsed.data, document: read.document };
}
