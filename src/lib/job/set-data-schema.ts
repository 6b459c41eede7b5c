import { z } from 'zod';
import { MOST, type SetData } from './set-data.ts';

/** The shape of a set's data that comes from a file. */

const Name = z
	.string()
	.regex(/^[a-z][a-z0-9-]*$/)
	.max(60);
const Dotted = z
	.string()
	.regex(/^[a-z][a-z0-9-]*\.[a-z0-9-]+$/)
	.max(100);
const Type = z.string().min(1).max(30);
const Words = z.string().max(500);
const Ohms = z.number().positive().max(MOST.ohms);
const Volts = z.number().min(-MOST.volts).max(MOST.volts);

const few = (table: object) => Object.keys(table).length <= 200;
const FEW = { error: 'more than 200 entries are no set of this kind' };

const Valve = z.strictObject({
	id: Name,
	role: Words,
	listed: Type,
	planned: Type.exactOptional(),
	fitted: Type.exactOptional(),
	kept: Words.exactOptional(),
	bands: z.array(Name).max(20).exactOptional()
});

const Part = z.strictObject({
	typed: z.string().max(60),
	value: z.number().nonnegative().max(MOST.ohms),
	measured: z.literal(true).exactOptional(),
	name: z.string().max(30).exactOptional(),
	watts: z.number().positive().max(MOST.watts).exactOptional()
});

const Answers = z.strictObject({
	supply: z.enum(['transformer', 'ac-dc', 'battery']).exactOptional(),
	fm: z.enum(['yes', 'no']).exactOptional(),
	cans: z.enum(['combined', 'separate']).exactOptional(),
	rectifier: z.enum(['valve', 'selenium', 'silicon']).exactOptional(),
	bias: z.enum(['cathode', 'back']).exactOptional(),
	aerial: z.enum(['rod', 'loop', 'wire']).exactOptional()
});

export const SetDescribed = z.strictObject({
	valves: z.array(Valve).max(40),
	volts: z.record(Dotted, Volts).refine(few, FEW),
	sheet: z.strictObject({
		meter: Ohms.exactOptional(),
		ohmsPerVolt: Ohms.exactOptional(),
		range: z.number().positive().max(MOST.range).exactOptional(),
		mains: z.number().positive().max(MOST.mains).exactOptional(),
		from: Words.exactOptional()
	}),
	parts: z.record(Dotted, Part).refine(few, FEW),
	supply: z
		.strictObject({
			winding: z.number().positive().max(MOST.winding).exactOptional(),
			reservoir: z.number().positive().max(MOST.reservoir).exactOptional(),
			current: z.number().positive().max(MOST.current).exactOptional()
		})
		.exactOptional(),
	differs: z.array(z.strictObject({ what: Words, why: Words.exactOptional() })).max(100),
	answers: Answers.exactOptional()
}) satisfies z.ZodType<SetData>;
