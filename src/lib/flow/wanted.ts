import { z } from 'zod';
import { readDocument } from './document.ts';
import type { Finding } from './finding.ts';
import type { SourceText } from './load.ts';
import { schemaFindings } from './schema-findings.ts';

/** Complaints that restorers bring, with the flow that serves each: from it the guide lists what still wants a flow. */

export const WANTED_FILE = 'flows/shared/symptoms.yaml';

const Id = z.string().regex(/^[a-z][a-z0-9-]*$/, { error: 'Use lower-case letters, digits and hyphens.' });

export const SymptomFile = z.strictObject({
	symptoms: z.record(
		Id,
		z.strictObject({
			title: z.string().trim().min(1, { error: 'Write the complaint as people tell it.' }),
			/** The flow that takes the complaint on; left out where nobody has written one. */
			flow: Id.optional()
		})
	)
});
type Symptoms = z.infer<typeof SymptomFile>['symptoms'];

type Read = { ok: true; symptoms: Symptoms; findings: Finding[] } | { ok: false; findings: Finding[] };

const idOf = (path: string) => /^flows\/([^/]+)\.yaml$/.exec(path)?.[1];

/** Read the list, and look for the flows that it names. */
export function readWanted(files: readonly SourceText[]): Read {
	const file = files.find(({ path }) => path === WANTED_FILE);
	if (!file) return { ok: true, symptoms: {}, findings: [] };
	const read = readDocument(file.path, file.text);
	if (!read.ok) return read;
	const parsed = SymptomFile.safeParse(read.document.data);
	if (!parsed.success) return { ok: false, findings: schemaFindings(read.document, parsed.error) };
	const { symptoms } = parsed.data;
	const flows = new Set(files.flatMap(({ path }) => idOf(path) ?? []));
	const findings = Object.entries(symptoms).flatMap(([id, { flow }]): Finding[] =>
		flow === undefined || flows.has(flow)
			? []
			: [
					{
						code: 'unknown-name',
						level: 'error',
						file: file.path,
						...read.document.locate(['symptoms', id, 'flow']),
						message: `There is no flow "${flow}".`,
						remedy: 'Name the file of a flow without its ending, or leave  flow  out.'
					}
				]
	);
	return { ok: true, symptoms, findings };
}

export const wantedFindings = (files: readonly SourceText[]): Finding[] => readWanted(files).findings;

/** Titles of the complaints that no flow serves yet, as a Markdown list. */
export function wantedList(symptoms: Symptoms): string {
	const open = Object.values(symptoms).filter(({ flow }) => flow === undefined);
	const served = Object.keys(symptoms).length - open.length;
	const all = `${served} of ${Object.keys(symptoms).length} complaints have a flow.`;
	return open.length
		? `${all} Still wanted:\n\n${open.map(({ title }) => `- ${title}`).join('\n')}`
		: `${all} None on the list is without one; a complaint that is missing from the list is welcome.`;
}
