import './no-jit.ts';
import { z } from 'zod';
import type { RawRecord } from './file-records.ts';
import { AGAIN, refuse } from './file-refused.ts';
import { FORMAT, VERSION } from './file.ts';

type Records = AsyncGenerator<RawRecord>;

interface Migration {
	/** The version whose files it reads; it makes them files of the next. */
	from: number;
	/** What such a file calls itself. */
	format: string;
	migrate: (records: Records) => Records;
}

const fieldsOf = (value: unknown): Record<string, unknown> =>
	typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};

const OldFile = z.strictObject({
	format: z.literal('valvetrail-job'),
	version: z.literal(1),
	exported: z.iso.datetime(),
	events: z.array(z.unknown()).min(1),
	flows: z.record(z.string(), z.unknown())
});

/** The line of each event by its id; files that were edited may hold it elsewhere, or not at all. */
function lineFinder(text: string): (event: unknown) => number {
	let [from, line] = [0, 1];
	return (event) => {
		const { id } = fieldsOf(event);
		const at = typeof id === 'string' ? text.indexOf(`"id":${JSON.stringify(id)}`, from) : -1;
		if (at >= 0) {
			line += text.slice(from, at).split('\n').length - 1;
			from = at;
		}
		return line;
	};
}

/** Version 1 was one job as one object, without pictures. */
async function* fromVersion1(records: Records): Records {
	for await (const { value, read, text = '' } of records) {
		const parsed = OldFile.safeParse(value);
		if (!parsed.success) {
			const [issue] = parsed.error.issues;
			return refuse(
				issue?.path.join('.') || 'the beginning',
				`The file is not as it was saved: ${issue?.message ?? ''}. ${AGAIN}`
			);
		}
		const { exported, events, flows } = parsed.data;
		const record = (given: unknown, line = 1): RawRecord => ({ line, value: given, read });
		yield record({ format: FORMAT, version: 2, exported });
		for (const [hash, library] of Object.entries(flows)) yield record({ flow: hash, library });
		yield record({ job: fieldsOf(events[0])['job'] });
		const lineOf = lineFinder(text);
		for (const event of events) yield record({ event }, lineOf(event));
		yield record({ end: { jobs: 1, events: events.length, pictures: 0 } });
	}
}

/** One for each version before today's, in order: a file goes through all from its own on. */
export const MIGRATIONS: readonly Migration[] = [
	{ from: 1, format: 'valvetrail-job', migrate: fromVersion1 }
];

/** The version that the first piece of a file names. */
function versionOf(first: RawRecord | undefined): number {
	const { format, version } = fieldsOf(first?.value);
	const kinds = [...MIGRATIONS, { from: VERSION, format: FORMAT }];
	if (!kinds.some((kind) => kind.format === format))
		refuse('the beginning', 'This is not a job of this program. Choose a file that was saved from here.');
	const known = kinds.some((kind) => kind.from === version && kind.format === format);
	if (!known)
		refuse(
			'version',
			`The file is of version ${String(version)}; this program reads versions 1 to ${VERSION}. Reload the page to get the newest program, then try again.`
		);
	return version as number;
}

async function* withFirst(first: RawRecord | undefined, rest: Records): Records {
	if (first) yield first;
	yield* rest;
}

/** The pieces of a file of any version, as today's program would have written them. */
export async function* todaysRecords(records: Records): Records {
	const first = await records.next();
	const found = first.done ? undefined : first.value;
	const version = versionOf(found);
	const steps = MIGRATIONS.filter(({ from }) => from >= version);
	yield* steps.reduce((all, { migrate }) => migrate(all), withFirst(found, records));
}
