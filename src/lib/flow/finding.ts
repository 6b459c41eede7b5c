/** Something a checker has to say about a file: where, what, and how to mend it. */
export interface Finding {
	code: string;
	/** An error stops the build, advice does not. */
	level: 'error' | 'advice';
	file: string;
	/** Counted from 1. */
	line: number;
	column: number;
	message: string;
	remedy: string;
}

export const printFinding = (f: Finding): string =>
	`${f.file}:${f.line}:${f.column}  ${f.level === 'advice' ? 'advice: ' : ''}${f.code}\n  ${f.message}\n  ${f.remedy}`;

const byPlace = (a: Finding, b: Finding) =>
	a.file.localeCompare(b.file) || a.line - b.line || a.column - b.column || a.code.localeCompare(b.code);

export const sortFindings = (findings: readonly Finding[]): Finding[] => [...findings].sort(byPlace);
