import type { JobState, Picture } from './state.ts';
import type { TrailLine } from './trail.ts';

/** A line of the report. `open` marks what was not done or not proved: it is never shown as passed. */
export interface ReportLine {
	text: string;
	/** ISO date and time. */
	at?: string;
	reading?: string;
	/** What a sound set shows there. */
	expected?: string;
	meaning?: string;
	open?: true;
	/** They stand at the line: a part before and after its change. */
	pictures?: (Picture & { what: string })[];
}

/** A table of the report: its head is repeated on each sheet of paper. */
export interface ReportTable {
	head: string[];
	rows: { cells: string[]; open?: true }[];
}

export interface ReportSection {
	/** Its own in the report: a style or a test finds it by this. */
	id: string;
	title: string;
	lines: ReportLine[];
	table?: ReportTable;
}

/** What was not done is called this, and never passes for done. */
export const NOT_TESTED = 'not tested';

/** Standing lines of one kind: neither undone nor refused. */
export const linesOf = (state: JobState, ...kinds: TrailLine['kind'][]): TrailLine[] =>
	state.trail.filter((line) => kinds.includes(line.kind) && !line.undone && line.refused === undefined);
