import { z } from 'zod';
import { DUTIES, PART_LOOKS, type Duty, type PartLook } from '../flow/part-terms.ts';
import {
	INSTRUMENTS,
	PATH_OUTCOMES,
	POWER_STATES,
	PROVOCATIONS,
	SIGNS,
	type Instrument,
	type Provocation,
	type Sign
} from '../flow/terms.ts';
import { units, type Unit } from '../quantity/index.ts';
import { TUNED } from '../receiver/index.ts';
import {
	CAUSE,
	CHECKED,
	HISTORY,
	LISTENED,
	PART_WAS,
	PHASE_WORDS,
	PHASES,
	PICTURE_OF,
	RESULTS,
	SYMPTOM_NOW,
	TESTED,
	type EventData,
	type EventKind,
	type Json
} from './events.ts';
import { LARGEST_PICTURE, LONGEST_SIDE } from './picture.ts';

import { SetDescribed } from './set-data-schema.ts';

/** The shape of events that come from a file. Needed by import only: what the app writes is typed. */

const keysOf = <Key extends string>(table: Record<Key, unknown>) => Object.keys(table) as [Key, ...Key[]];

const Id = z
	.string()
	.regex(/^[a-z][a-z0-9@-]*$/)
	.max(100);
const Point = z
	.string()
	.regex(/^[a-z][a-z0-9-]*\.[a-z0-9-]+$/)
	.max(100);
const Ref = z
	.string()
	.regex(/^[A-Za-z0-9_-]+\.[1-9][0-9]*$/)
	.max(100);
/** What a person wrote. */
const Text = z.string().max(20_000);
const Power = z.enum(['off', ...POWER_STATES]);
const InstrumentName = z.enum(keysOf<Instrument>(INSTRUMENTS));

const Intake = z.strictObject({
	title: Text,
	plan: Id,
	symptom: z.record(Id, z.enum(PATH_OUTCOMES)),
	signs: z.array(z.enum(keysOf<Sign>(SIGNS))).exactOptional(),
	history: z.array(z.enum(keysOf(HISTORY))).max(100),
	mains: z.number().exactOptional(),
	meter: z.number().exactOptional(),
	instruments: z.array(InstrumentName).max(100),
	playing: z.boolean(),
	service: z.record(Point, z.number()).exactOptional()
});

const Reading = z.strictObject({
	typed: Text,
	value: z.number(),
	unit: z.enum(keysOf<Unit>(units)),
	point: Point,
	power: Power,
	instrument: InstrumentName.exactOptional(),
	ht: z.strictObject({ point: Point, value: z.number() }).exactOptional()
});

/** Rounds of one provocation; more than these are no sheet of a real bench. */
const Rounds = z.number().int().min(0).max(99);
const Sheet = z.partialRecord(
	z.enum(keysOf<Provocation>(PROVOCATIONS)),
	z.tuple([Rounds, Rounds]).refine(([tried, came]) => came <= tried, {
		error: 'the fault cannot have come in more rounds than were tried'
	})
);

/** Values of a sum: rows of rows at most. A file cannot nest deeper than this. */
const value = (depth: number): z.ZodType<Json> => {
	const plain = z.union([z.string(), z.number(), z.boolean(), z.null()]);
	return depth === 0
		? plain
		: z.union([plain, z.array(value(depth - 1)), z.record(z.string(), value(depth - 1))]);
};
const Values = z.record(z.string(), value(4));

const Side = z.number().int().min(1).max(LONGEST_SIDE);
/** The own name of a part, as on the diagram or as a suspect. */
const PartName = z.string().min(1).max(100);
const Pictured = z.strictObject({
	picture: z.string().regex(/^(sha256:[0-9a-f]{64}|fnv:[0-9a-f]{16})$/),
	of: z.strictObject({
		kind: z.enum(keysOf(PICTURE_OF)),
		part: PartName.exactOptional(),
		step: Id.exactOptional(),
		point: Point.exactOptional(),
		when: z.enum(['before', 'after']).exactOptional()
	}),
	caption: z.string().max(500).exactOptional(),
	width: Side,
	height: Side,
	bytes: z.number().int().min(1).max(LARGEST_PICTURE)
});

const Calculated = z.strictObject({
	calculation: Id,
	title: Text,
	given: Values,
	inputs: Text.exactOptional(),
	outputs: Values,
	sentence: Text,
	verdict: Text.exactOptional(),
	step: Id.exactOptional()
});

/** Jobs by suspect: more than these are no bench of one person. */
const Counts = z
	.record(Id, z.number().int().min(1).max(9999))
	.refine((counts) => Object.keys(counts).length <= 1000, {
		error: 'more than 1,000 causes of one complaint cannot be read'
	});

/** What stands on a part or beside it on the diagram. */
const Marking = z.string().max(60);
const Name = z.string().trim().min(1).max(80);
const Reason = z.string().max(500);
/** Farads or ohms. */
const PartValue = z.number().positive().max(1e12);
const Share = z.number().min(0).max(1);

const PartListed = z.strictObject({
	part: Id,
	name: Name,
	kind: z.enum(keysOf<PartLook>(PART_LOOKS)),
	place: Id.exactOptional(),
	duty: z.enum(keysOf<Duty>(DUTIES)).exactOptional(),
	typed: Marking.exactOptional(),
	value: PartValue.exactOptional(),
	rating: Marking.exactOptional(),
	suspects: z.array(Id).max(30).exactOptional(),
	off: z.literal(true).exactOptional()
});

const PartChanged = z.strictObject({
	flow: Id.exactOptional(),
	part: Text,
	fitted: Text.exactOptional(),
	listed: Id.exactOptional(),
	value: PartValue.exactOptional(),
	rating: Marking.exactOptional(),
	reason: Reason.exactOptional()
});

const Marked = z.strictObject({
	sheet: z.string().regex(/^(sha256:[0-9a-f]{64}|fnv:[0-9a-f]{16})$/),
	mark: Id,
	x: Share,
	y: Share,
	part: Id.exactOptional(),
	point: Point.exactOptional(),
	label: Marking.exactOptional()
});

const flow = { flow: Id };
const step = { flow: Id, step: Id };

/** Data of each kind of event. */
export const DATA = {
	started: z.strictObject({
		copyOf: z.string().max(100).exactOptional(),
		like: z.string().max(100).exactOptional()
	}),
	intake: Intake,
	'set-described': SetDescribed,
	read: z.strictObject({
		point: Point,
		reading: Reading,
		out: z.literal(true).exactOptional(),
		tuned: z.enum(TUNED).exactOptional()
	}),
	'flow-opened': z.strictObject({
		flow: Id,
		plan: Id,
		hash: z.string().regex(/^(sha256:[0-9a-f]{64}|fnv:[0-9a-f]{16})$/)
	}),
	took: z.strictObject(step),
	left: z.strictObject(flow),
	prepared: z.strictObject(flow),
	power: z.strictObject({ to: Power, volts: z.tuple([z.number(), z.number()]).exactOptional() }),
	answered: z.strictObject({
		...step,
		outcome: Id,
		sure: z.boolean(),
		way: z.number().int().min(0).exactOptional(),
		reading: Reading.exactOptional(),
		provoked: Sheet.exactOptional()
	}),
	tallied: z.strictObject({ ...step, provoked: Sheet }),
	'clock-started': z.strictObject(step),
	'cannot-tell': z.strictObject({ ...step, reason: Text }),
	skipped: z.strictObject(step),
	suspected: z.strictObject({ ...flow, suspect: Id }),
	repairing: z.strictObject(flow),
	'part-changed': PartChanged,
	'part-tested': z.strictObject({
		part: Id,
		result: z.enum(keysOf(TESTED)),
		found: Text.exactOptional(),
		listed: Id.exactOptional()
	}),
	'part-listed': PartListed,
	'part-checked': z.strictObject({
		part: Id,
		state: z.enum(keysOf(CHECKED)),
		typed: Marking.exactOptional(),
		value: z.number().min(0).max(1e12).exactOptional(),
		reason: Reason.exactOptional()
	}),
	marked: Marked,
	unmarked: z.strictObject({ mark: Id }),
	proved: z.strictObject({
		...flow,
		symptom: z.enum(keysOf(SYMPTOM_NOW)),
		partWas: z.enum(keysOf(PART_WAS))
	}),
	'cause-sought': z.strictObject({
		...flow,
		part: Text,
		result: z.enum(keysOf(CAUSE)),
		found: Text.exactOptional()
	}),
	heard: z.strictObject({
		bands: z.record(Id, z.enum(PATH_OUTCOMES)),
		signs: z.array(z.enum(keysOf<Sign>(SIGNS))).exactOptional(),
		listened: z.enum(keysOf(LISTENED)).exactOptional()
	}),
	guessed: z.strictObject({ ...flow, suspect: Id.exactOptional(), text: Text.exactOptional() }),
	calculated: Calculated,
	noted: z.strictObject({ text: Text, step: Id.exactOptional(), part: Text.exactOptional() }),
	pictured: Pictured,
	undone: z.strictObject({ target: Ref }),
	resolved: z.strictObject({ step: Id, keep: Ref }),
	'gave-up': z.strictObject(flow),
	'went-on': z.strictObject(flow),
	closed: z.strictObject({ result: z.enum(keysOf(RESULTS)), note: Text.exactOptional() }),
	phase: z.strictObject({
		phase: z.enum(keysOf(PHASES)),
		state: z.enum(keysOf(PHASE_WORDS)),
		reason: Text.exactOptional()
	}),
	experience: z.strictObject({ ...flow, proved: Counts, untested: Counts })
} satisfies { [Kind in EventKind]: z.ZodType<EventData[Kind]> };

export const EVENT_KINDS = keysOf(DATA) as EventKind[];

/** Everything of an event but its data, which is read by its kind. */
export const Envelope = z.strictObject({
	id: Ref,
	job: z
		.string()
		.regex(/^[A-Za-z0-9_-]+$/)
		.max(100),
	bench: z
		.string()
		.regex(/^[A-Za-z0-9_-]+$/)
		.max(80),
	seq: z.number().int().min(1),
	// Heads of benches that wrote apart: more than these are no log of a bench.
	parents: z.array(Ref).max(100),
	kind: z.string(),
	data: z.unknown(),
	at: z.iso.datetime()
});
