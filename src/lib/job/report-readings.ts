import { foundLines } from './report-found.ts';
import { linesOf, type ReportTable } from './report-lines.ts';
import { factsOf } from './shared-evidence.ts';
import { allRuns, own, type JobState } from './state.ts';

/** Readings before the first change of a part and after the last one, side by side. */

interface Reading {
	title: string;
	expected: string;
	before: string;
	after: string;
}

const NOT_AGAIN = 'not measured again';

/** Where the changes of parts stand in the trail: the first and the last; none where no part was changed. */
function changesAt(state: JobState): [first: number, last: number] | undefined {
	const changes = linesOf(state, 'part-changed').map((line) => state.trail.indexOf(line));
	const [first, last] = [changes[0], changes.at(-1)];
	return first === undefined || last === undefined ? undefined : [first, last];
}

function readingsIn(state: JobState, changes: [number, number] | undefined): Reading[] {
	const [first, last] = changes ?? [Infinity, Infinity];
	const found = new Map(foundLines(state, true).map((line) => [line.event, line]));
	const rows = new Map<string, Reading>();
	for (const { event, answer } of factsOf(state)) {
		const line = found.get(event);
		const step = allRuns(state)
			.map(({ run }) => own(run.resolved.steps, answer.step))
			.find((one) => one);
		if (!line?.reading || !step) continue;
		const at = state.trail.findIndex((one) => one.event === event);
		const row = rows.get(answer.step) ?? { title: step.title, expected: '', before: '', after: '' };
		const told = `${line.reading} (${line.answer ?? ''})`;
		rows.set(answer.step, {
			...row,
			expected: line.expected ?? row.expected,
			...(at < first ? { before: told } : {}),
			...(at > last ? { after: told } : {})
		});
	}
	return [...rows.values()].filter(({ before, after }) => before || after);
}

/** A place that was not measured again after the last change is open: it is not taken to be right. */
export function readingsTable(state: JobState): ReportTable | undefined {
	const changes = changesAt(state);
	const rows = readingsIn(state, changes);
	if (rows.length === 0) return undefined;
	if (!changes)
		return {
			head: ['Place', 'In a sound set', 'Measured'],
			rows: rows.map(({ title, expected, before }) => ({ cells: [title, expected, before] }))
		};
	return {
		head: ['Place', 'In a sound set', 'Before the work', 'After it'],
		rows: rows.map(({ title, expected, before, after }) => ({
			cells: [title, expected, before || 'not measured', after || NOT_AGAIN],
			...(after ? {} : { open: true as const })
		}))
	};
}
