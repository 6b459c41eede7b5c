import { z } from 'zod';
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
} from '../flow/schema.ts';
import { SymptomFile } from '../flow/wanted.ts';
import { Plan } from '../receiver/plan.ts';
import { Case } from './case.ts';

/** Every kind of file that an author writes, by the name of its schema under `static/schemas/`. */
const FILES: Readonly<Record<string, { title: string; schema: z.ZodType }>> = {
	flow: { title: 'A flow: one symptom', schema: Flow },
	suspects: { title: 'Suspects that flows share', schema: SuspectFile },
	steps: { title: 'Steps that flows share', schema: StepFile },
	plan: { title: 'A receiver plan', schema: Plan },
	cautions: { title: 'Cautions', schema: CautionFile },
	sources: { title: 'Sources', schema: SourceFile },
	history: { title: 'What the past of a set tells', schema: HistoryFile },
	'owner-words': { title: 'How owners tell a complaint', schema: SayingFile },
	glossary: { title: 'Words of the trade', schema: GlossaryFile },
	parts: { title: 'Parts that sets usually have', schema: PartsFile },
	verdicts: { title: 'Change, measure or leave', schema: VerdictFile },
	symptoms: { title: 'Complaints, and the flow of each', schema: SymptomFile },
	case: { title: 'A worked fault', schema: Case }
};

/**
 * The JSON Schemas that editors read, made from the schemas that the loader uses, for what is written: what has a default may
 * be left out. What JSON Schema cannot say (rules across keys) is left to `flow -- check`.
 */
export const jsonSchemas = (): Record<string, unknown> =>
	Object.fromEntries(
		Object.entries(FILES).map(([name, { title, schema }]) => [
			name,
			{ title, ...z.toJSONSchema(schema, { io: 'input', reused: 'ref', unrepresentable: 'any' }) }
		])
	);
