import { z } from 'zod';
import { TRAITS, type TraitName } from '../receiver/index.ts';
import { PartKind, Section, Sources } from '../receiver/plan.ts';
import {
	LIKELIHOODS,
	SHIFT_WORDS,
	TRUST,
	WEIGHTS,
	type LikelihoodWord,
	type WeightWord
} from '../suspects/index.ts';
import {
	DUTIES,
	FITS,
	PART_LOOKS,
	VERDICTS,
	type Duty,
	type FitWord,
	type PartLook,
	type Verdict
} from './part-terms.ts';
import {
	HISTORY,
	INSTRUMENTS,
	PATH_OUTCOMES,
	POWER_STATES,
	PROVOCATIONS,
	SIGNS,
	SUSPECT_KINDS,
	type HistoryWord,
	type Instrument,
	type PathOutcome,
	type Provocation,
	type Sign
} from './terms.ts';

/**
 * The shape of everything under `flows/`. What one file can say is here; what only the whole library can
 * show (names, gaps, order) is in `checks/`. Each message names the remedy.
 */

const wordsOf = (table: object) => Object.keys(table) as [string, ...string[]];
const synonyms: Record<string, string> = { often: '"usually" or "half the time"' };

const Likelihood = z.enum(wordsOf(LIKELIHOODS) as [LikelihoodWord, ...LikelihoodWord[]], {
	error: ({ input }) =>
		`"${String(input)}" is not a likelihood word. Use ${synonyms[String(input)] ?? `one of: ${Object.keys(LIKELIHOODS).join(', ')}`}.`
});
const Weight = z.enum(wordsOf(WEIGHTS) as [WeightWord, ...WeightWord[]], {
	error: ({ input }) =>
		`"${String(input)}" does not say how common a suspect is. Use one of: ${Object.keys(WEIGHTS).join(', ')}.`
});

/** Ids are stored in trails: never reused, never renumbered. */
const Id = z.string().regex(/^[a-z][a-z0-9-]*$/, {
	error: ({ input }) => `"${String(input)}" is not an id. Use lower-case letters, digits and hyphens.`
});
const Place = z.string().regex(/^[a-z][a-z0-9-]*$/, {
	error: ({ input }) =>
		`"${String(input)}" is not a stage or line. Use lower-case letters, digits and hyphens.`
});
const Text = z.string().trim().min(1, { error: 'Write the sentence: nothing stands here.' });

const filterShape = Object.fromEntries(
	Object.entries(TRAITS).map(([name, values]) => [
		name,
		z.array(z.enum(values as readonly string[] as [string])).optional()
	])
) as unknown as Record<TraitName, z.ZodOptional<z.ZodArray<z.ZodType<string>>>>;
const Filter = z.strictObject(filterShape);

const Symptom = z.enum(PATH_OUTCOMES, {
	error: ({ input }) =>
		`"${String(input)}" is not something one hears. Use one of: ${PATH_OUTCOMES.join(', ')}.`
});
const SignName = z.enum(wordsOf(SIGNS) as [Sign, ...Sign[]], {
	error: ({ input }) =>
		`"${String(input)}" is not a sign that the start page offers. Use one of: ${Object.keys(SIGNS).join(', ')}.`
});
const Effects = z.partialRecord(
	z.enum(PATH_OUTCOMES.filter((o) => o !== 'good') as [PathOutcome]),
	Likelihood
);

const Power = z.enum(POWER_STATES, {
	error: 'Say which power state the step needs: unplugged, limiter or live.'
});

const InstrumentName = z.enum(wordsOf(INSTRUMENTS) as [Instrument, ...Instrument[]], {
	error: ({ input }) =>
		`"${String(input)}" is not on the list of instruments. Use one of: ${Object.keys(INSTRUMENTS).join(', ')}.`
});

const Way = z.strictObject({
	needs: z.array(InstrumentName),
	trust: z.enum(wordsOf(TRUST) as [keyof typeof TRUST], {
		error: 'Say how far this way can be trusted: full, fair or rough.'
	}),
	/** What is done otherwise than the step's own text says. */
	text: Text.optional()
});

const Kind = z.enum(SUSPECT_KINDS, {
	error: ({ input }) =>
		`"${String(input)}" is not a kind of suspect. Use one of: ${SUSPECT_KINDS.join(', ')}.`
});

const ProvocationName = z.enum(wordsOf(PROVOCATIONS) as [Provocation, ...Provocation[]], {
	error: ({ input }) =>
		`"${String(input)}" is not a way to provoke a fault. Use one of: ${Object.keys(PROVOCATIONS).join(', ')}.`
});

const Repair = z.strictObject({
	do: Text,
	minutes: z.number().positive().max(480),
	/** Suspects with the same word here are mended by one and the same repair. */
	same: Id.optional()
});

export const Suspect = z.strictObject({
	part: Text,
	failure: Text,
	/** What age, storage and earlier hands do to it; the history of the set speaks of kinds. */
	kind: Kind.optional(),
	section: Section.optional(),
	/** A place of the plan, several of them, or every place that holds this kind of part. */
	at: z.union([Place, z.array(Place).min(1), z.strictObject({ every: PartKind })], {
		error:
			'Say where the part stands: a stage or line ("output"), several ([mixer, if-valve]) or {every: socket}.'
	}),
	bands: z.array(Id).optional(),
	common: Weight,
	/** What is heard on a band that goes through it. */
	shows: Effects,
	'shows-on': z.record(Id, Effects).optional(),
	/** Can pass one band and spoil another, as contacts and tired valves do. */
	patchy: z.boolean().default(false),
	repair: Repair,
	proof: Text,
	/** What to look for before power goes back on, where this part fails because of another. */
	behind: Text.optional(),
	only: Filter.optional(),
	never: Filter.optional(),
	cautions: z.array(Id).default([]),
	source: Sources
});
export type Suspect = z.infer<typeof Suspect>;

const Outcome = z.strictObject({
	label: Text,
	/** Readings that count as this outcome: `> 0.5 V`, `0.1 .. 0.5 V`, `> 120 % of expected`. */
	when: Text.optional(),
	/** What was learnt, in one sentence. */
	means: Text.optional(),
	next: Id.optional(),
	/** In a procedure: the flow that traces what was found here. */
	opens: Id.optional(),
	/** Switch off now; full mains again only by way of the limiter. */
	'switch-off': z.boolean().optional()
});

/** A number, a word of the calculation, or where the value comes from. */
const Said = z.union([z.string(), z.number()]);

const CalculationUse = z.strictObject({
	id: Id,
	/** Input key -> where it comes from; see `fill.ts`. A list for several values, of mappings by column key for a table. */
	fill: z
		.record(z.string(), z.union([Said, z.array(Said).min(1), z.array(z.record(z.string(), Said)).min(1)]))
		.default({}),
	/** Verdict of the calculation -> outcome of the step. */
	outcome: z.record(z.string(), Id).optional()
});

const Expect = z.record(z.string(), z.record(Id, Likelihood));

const common = {
	title: Text,
	text: Text,
	why: Text,
	power: Power,
	/** The state in which the connection is made, where it differs from that of the reading. */
	prepare: z.literal('unplugged').optional(),
	minutes: z.number({ error: 'Say how many minutes a practised restorer needs.' }).positive().max(240),
	/** Nothing of the chassis is touched: no proof of a dead set is asked for. */
	'hands-off': z.boolean().default(false),
	/** Offered only when nothing else can be learnt (cores come last). */
	last: z.boolean().default(false),
	/** Part of the closing safety test: the report calls it passed, not passed or not tested. */
	safety: z.literal(true, { error: 'Write  safety: true  or leave it out.' }).optional(),
	/** Steps with the same word share a cause of error (one meter, one tap): a second answer counts half. */
	group: Id.optional(),
	/** Taken only by choice, never suggested: a test on the mains itself. */
	'by-choice': z.boolean().optional(),
	/** Minutes under power, or since the clock was started, before the answer holds. */
	after: z.number({ error: 'Say after how many minutes the answer holds.' }).positive().max(240).optional(),
	ways: z
		.array(Way)
		.min(1)
		.default([{ needs: [], trust: 'full' }]),
	needs: z.array(Id).default([]),
	cautions: z.array(Id).default([]),
	calculation: CalculationUse.optional(),
	expect: Expect.default({}),
	only: Filter.optional(),
	never: Filter.optional(),
	source: Sources
};

const Outcomes = z.record(Id, Outcome).refine((o) => Object.keys(o).length > 1, {
	error: 'A step that can end in only one way tells nothing: give two outcomes or more.'
});
const Normal = Id.describe('The outcome that a sound set shows.');
const At = z.string().regex(/^[a-z][a-z0-9-]*\.[a-z0-9-]+$/, {
	error: ({ input }) =>
		`"${String(input)}" is not a test point. Write stage and point with one dot: "output.grid".`
});

const Measure = z.strictObject({
	kind: z.literal('measure'),
	measure: z.enum(['DC volts', 'AC volts', 'ohms', 'milliamps', 'capacitance', 'frequency'], {
		error: 'Say what is measured: DC volts, AC volts, ohms, milliamps, capacitance or frequency.'
	}),
	at: At,
	outcomes: Outcomes,
	normal: Normal,
	...common
});
const Observe = z.strictObject({
	kind: z.literal('observe'),
	at: At.optional(),
	outcomes: Outcomes,
	normal: Normal,
	/** What is tried on a fault that comes and goes; the page counts how often it was tried and how often the fault came. */
	provoke: z.array(ProvocationName).min(1, { error: 'Say what is tried: provoke: [tap].' }).optional(),
	...common
});
const Adjust = Observe.extend({ kind: z.literal('adjust') });
const Listen = z.strictObject({ kind: z.literal('listen'), band: Id, ...common });
const Inject = z.strictObject({ kind: z.literal('inject'), band: Id, at: At, ...common });
const Trace = z.strictObject({ kind: z.literal('trace'), band: Id, at: At, ...common });

export const Step = z.discriminatedUnion('kind', [Measure, Observe, Adjust, Listen, Inject, Trace], {
	error: 'Say what kind of step it is: measure, observe, adjust, listen, inject or trace.'
});
export type Step = z.infer<typeof Step>;
export type PathStep = Extract<Step, { kind: 'listen' | 'inject' | 'trace' }>;

const Named = z.union([
	Weight,
	z.strictObject({
		common: Weight,
		in: z.array(z.string()).optional(),
		/** Sets in which it has this weight; in others it counts as not listed. */
		only: Filter.optional(),
		note: Text.optional()
	})
]);

export const Flow = z
	.strictObject({
		id: Id,
		title: Text,
		about: Text,
		/** Work in a fixed order that traces nothing: its steps are the opening, and each is recorded. */
		procedure: z.literal(true, { error: 'Write  procedure: true  or leave it out.' }).optional(),
		/** Band, or `all`, -> what is heard there: the answers that lead to this flow. Empty where a sign alone does. */
		symptom: z.record(Id, Symptom),
		/** Other words in which people tell the same complaint of a band of the symptom: `{fm: [noise]}`. */
		'also-heard': z.record(Id, z.array(Symptom).min(1)).default({}),
		/** What is noticed beside the sound: any one of them leads to this flow. */
		signs: z.array(SignName).default([]),
		/** Bands that a set must have for this flow to make sense. */
		bands: z.array(Id).default([]),
		only: Filter.optional(),
		never: Filter.optional(),
		/** Suspect (or `family@place`, or a family) -> how common it is, given this symptom. */
		suspects: z.record(z.string(), Named),
		/** Steps asked before the set gets any power at all, and before it gets full mains: for a set that trips or burns. */
		before: z.strictObject({ limiter: z.array(Id).default([]), live: z.array(Id).default([]) }).optional(),
		/** Steps asked first, in this order. */
		opening: z.array(Id).default([]),
		uses: z.array(Id).min(1),
		own: z
			.strictObject({ suspects: z.record(Id, Suspect).default({}), steps: z.record(Id, Step).default({}) })
			.default({ suspects: {}, steps: {} }),
		source: Sources
	})
	.refine(({ symptom, signs, procedure }) => procedure ?? Object.keys(symptom).length + signs.length > 0, {
		path: ['symptom'],
		error:
			'Nothing leads to this flow: it says neither what is heard nor what is noticed. Write one of the two.'
	});
export type Flow = z.infer<typeof Flow>;

export const Caution = z.strictObject({
	title: Text,
	text: Text,
	/** Power states that it covers. */
	covers: z.array(Power).default([]),
	only: Filter.optional(),
	source: Sources
});
export type Caution = z.infer<typeof Caution>;

export const Source = z.strictObject({
	title: Text,
	kind: z.enum(['book', 'course', 'military', 'article', 'forum', 'data sheet']),
	site: z.string().optional(),
	note: z.string().optional()
});
export type Source = z.infer<typeof Source>;

const Shift = z.enum(SHIFT_WORDS, {
	error: ({ input }) =>
		`"${String(input)}" does not say how the past shifts a weight. Use one of: ${SHIFT_WORDS.join(', ')}.`
});

/** What one word of a set's past does: kind of part, or suspect -> how much likelier it gets. */
export const History = z.strictObject({
	why: Text,
	shifts: z.record(z.string(), Shift),
	source: Sources
});
export type History = z.infer<typeof History>;

const PastWord = z.enum(wordsOf(HISTORY) as [HistoryWord, ...HistoryWord[]], {
	error: ({ input }) =>
		`"${String(input)}" is no word of a set's past. Use one of: ${Object.keys(HISTORY).join(', ')}.`
});

/** A trade word: in British English, its American twin where there is one, and what it means. */
export const Word = z.strictObject({
	british: Text,
	american: Text.optional(),
	/** Other forms in which it stands in a text: plurals, short forms. */
	forms: z.array(Text).default([]),
	means: Text
});
export type Word = z.infer<typeof Word>;

const Look = z.enum(wordsOf(PART_LOOKS) as [PartLook, ...PartLook[]], {
	error: ({ input }) =>
		`"${String(input)}" is not a kind of part. Use one of: ${Object.keys(PART_LOOKS).join(', ')}.`
});
const DutyName = z.enum(wordsOf(DUTIES) as [Duty, ...Duty[]], {
	error: ({ input }) =>
		`"${String(input)}" is not a duty of a part. Use one of: ${Object.keys(DUTIES).join(', ')}.`
});

/** A part that sets of a family usually have: the parts list of a job begins with these. */
export const UsualPart = z.strictObject({
	name: Text,
	kind: Look,
	duty: DutyName.optional(),
	/** Suspects that are about this part; wherever the first stands, it stands. */
	suspects: z.array(Id).min(1),
	/** Where one does not see it from below the chassis. */
	hidden: Text.optional(),
	/** Where the plan gives its value: the last word of a key of `values`. */
	value: Id.optional()
});
export type UsualPart = z.infer<typeof UsualPart>;

/** What becomes of a part by kind and duty. The first row that fits speaks. */
export const PartVerdict = z.strictObject({
	kinds: z.array(Look).min(1),
	/** Left out: whatever its duty is. */
	duties: z.array(DutyName).min(1).optional(),
	verdict: z.enum(wordsOf(VERDICTS) as [Verdict, ...Verdict[]], {
		error: 'Say what becomes of it: change, measure or leave.'
	}),
	/** What a new one has to be. */
	fit: z.enum(wordsOf(FITS) as [FitWord, ...FitWord[]]).optional(),
	reason: Text,
	source: Sources
});
export type PartVerdict = z.infer<typeof PartVerdict>;

/** Shared files hold one table each; its name is the first key of the file. */
export const SuspectFile = z.strictObject({ suspects: z.record(Id, Suspect) });
export const StepFile = z.strictObject({ steps: z.record(Id, Step) });
export const CautionFile = z.strictObject({ cautions: z.record(Id, Caution) });
export const SourceFile = z.strictObject({ sources: z.record(z.string(), Source) });
export const HistoryFile = z.strictObject({ history: z.partialRecord(PastWord, History) });
/** Flow -> how owners tell its complaint, in their words. */
export const SayingFile = z.strictObject({
	sayings: z.record(Id, z.array(Text).min(1, { error: 'Write at least one phrase, or remove the line.' }))
});
export const GlossaryFile = z.strictObject({ glossary: z.record(Id, Word) });
export const PartsFile = z.strictObject({ parts: z.record(Id, UsualPart) });
export const VerdictFile = z.strictObject({ verdicts: z.record(Id, PartVerdict) });
