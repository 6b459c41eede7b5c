import { z } from 'zod';
import { SECTION_IDS, type SectionId } from './sections.ts';
import { TRAITS, type TraitName } from './traits.ts';

/** Stage, line, valve and band names: lower case, digits, hyphens. A point adds one dot: `output.grid`. */
const Name = z.string().regex(/^[a-z][a-z0-9-]*$/, {
	error: ({ input }) => `"${String(input)}" is not a name. Use lower-case letters, digits and hyphens.`
});
const PointName = z.string().regex(/^[a-z][a-z0-9-]*\.[a-z0-9-]+$/, {
	error: ({ input }) =>
		`"${String(input)}" is not a test point. Write stage and point with one dot: "output.grid".`
});

export const Section = z.enum(SECTION_IDS as [SectionId, ...SectionId[]], {
	error: ({ input }) => `"${String(input)}" is not a section. Use one of: ${SECTION_IDS.join(', ')}.`
});

/** Kinds of part that stand in many stages; a family of suspects names one with `every:`. */
export const PART_KINDS = [
	'valve',
	'socket',
	'joints',
	'earth',
	'contacts',
	'winding',
	'core',
	'fixed-capacitor',
	'mica-base',
	'screening',
	'plug',
	'resistor'
] as const;
export const PartKind = z.enum(PART_KINDS, {
	error: ({ input }) => `"${String(input)}" is not a kind of part. Use one of: ${PART_KINDS.join(', ')}.`
});
export type PartKind = z.infer<typeof PartKind>;

/** Keys of `flows/shared/sources.yaml`, or `common practice`, `from memory`, `valve data`. */
export const Sources = z.union([z.string().min(2), z.array(z.string().min(2)).min(1)], {
	error: 'Name the source: a key of flows/shared/sources.yaml, "common practice" or "from memory".'
});

const traitShape = Object.fromEntries(
	Object.entries(TRAITS).map(([name, values]) => [
		name,
		z.enum(values as readonly string[] as [string]).optional()
	])
) as unknown as Record<TraitName, z.ZodOptional<z.ZodType<string>>>;

/** Traits of a set, each from its own list. */
export const PlanTraits = z.strictObject(traitShape);

const Valve = z.strictObject({
	type: z.string().min(2),
	title: z.string()
});

const Stage = z.strictObject({
	section: Section,
	title: z.string(),
	valve: Name.optional(),
	parts: z.array(PartKind).default([])
});

const Line = z.strictObject({
	kind: z.enum(['supply', 'control', 'drive'], {
		error: 'Say what kind of line it is: supply, control or drive.'
	}),
	section: Section,
	title: z.string(),
	feeds: z.array(Name).min(1),
	/** Bands on which the line matters; all of them where this is left out. */
	bands: z.array(Name).optional(),
	valve: Name.optional(),
	parts: z.array(PartKind).default([])
});

const Point = z.strictObject({
	title: z.string(),
	stage: Name,
	valve: Name.optional(),
	electrode: z.string().optional(),
	system: z.string().optional(),
	where: z.string().optional(),
	/** DC volts to HT negative that a sound set shows there. */
	volts: z
		.strictObject({ expect: z.number(), basis: z.enum(['typical', 'sheet']), source: Sources })
		.optional()
});

const PartValue = z.strictObject({ title: z.string(), value: z.string(), source: Sources });

/** A receiver plan: one family of sets, as data. What each key means stands beside it; how a plan comes in, in DEVELOPERS.md. */
export const Plan = z.strictObject({
	id: Name,
	title: z.string(),
	about: z.string(),
	source: Sources,
	traits: PlanTraits,
	bands: z.record(Name, z.strictObject({ title: z.string() })),
	valves: z.record(Name, Valve),
	stages: z.record(Name, Stage),
	lines: z.record(Name, Line),
	points: z.record(PointName, Point),
	/** Stages and test points of each band from the aerial to the loudspeaker. */
	paths: z.record(Name, z.array(z.string()).min(1)),
	values: z.record(PointName, PartValue).default({})
});
export type Plan = z.infer<typeof Plan>;
export type Place = Plan['stages'][string] | Plan['lines'][string];
