import { printFinding, type Finding } from '../lib/flow/finding.ts';
import { loadLibrary, type SourceText } from '../lib/flow/load.ts';
import { editorLineFindings } from '../lib/flow/editor-line.ts';
import { wantedFindings } from '../lib/flow/wanted.ts';
import type { Io } from './io.ts';
import { readFlowFiles } from './flow-files.ts';

const count = (n: number, one: string) => `${n} ${one}${n === 1 ? '' : 's'}`;

/** A file as a person names it, from where the library names it: `./flows/a.yaml`, or with the whole path. */
const named = (root: string, file: string): string => {
	const path = file.replaceAll('\\', '/');
	const top = `${root.replaceAll('\\', '/')}/`;
	return (path.startsWith(top) ? path.slice(top.length) : path).replace(/^\.\//, '');
};

const isFlow = (path: string): boolean => /^flows\/[^/]+\.yaml$/.test(path);
const flowId = ({ path, text }: SourceText): string[] => {
	const id = isFlow(path) ? /^id: *([a-z0-9-]+)/m.exec(text)?.[1] : undefined;
	return id === undefined ? [] : [id];
};

/**
 * What the named files are read with: everything that is shared, and of the flows those that are named; of the others the
 * id is enough. Where a shared file is named, it may speak in any flow, so all are read.
 */
const readWith = (all: readonly SourceText[], wanted: readonly string[]): SourceText[] =>
	wanted.length && wanted.every(isFlow)
		? all.filter(({ path }) => !isFlow(path) || wanted.includes(path))
		: [...all];

export interface Checked {
	findings: Finding[];
	/** What was read, in words. */
	size: string;
}

/** Findings in these files, or in the whole library where none is named; errors elsewhere that stop the reading count too. */
export function checkFiles(all: readonly SourceText[], wanted: readonly string[]): Checked {
	const files = readWith(all, wanted);
	const result = loadLibrary(files, all.flatMap(flowId));
	const found = [
		...(result.ok ? result.advice : result.findings),
		...editorLineFindings(files),
		...wantedFindings(all)
	];
	const stops = !result.ok;
	const findings = wanted.length
		? found.filter(({ file, level }) => wanted.includes(file) || (stops && level === 'error'))
		: found;
	if (!result.ok) return { findings, size: '' };
	const { flows, steps, suspects, plans } = result.library;
	const sizes = [
		count(Object.keys(flows).length, 'flow'),
		count(Object.keys(plans).length, 'plan'),
		count(Object.keys(steps).length, 'shared step'),
		count(Object.keys(suspects).length, 'shared suspect')
	];
	return { findings, size: sizes.join(', ') };
}

function tell({ findings, size }: Checked, io: Io): void {
	for (const finding of findings) io.out(`${printFinding(finding)}\n`);
	const errors = findings.filter(({ level }) => level === 'error').length;
	const advice = findings.length - errors;
	const said = [
		errors ? count(errors, 'error') : 'nothing that must be mended',
		...(advice ? [`${advice} ${advice === 1 ? 'piece' : 'pieces'} of advice`] : [])
	].join(', ');
	if (errors) io.err(said);
	else io.out(`${size}: ${said}`);
}

/** `flow -- check [FILE...] [--json]`. Exit code 1 where something must be mended; advice alone is 0. */
export function check(root: string, args: readonly string[], io: Io): number {
	const json = args.includes('--json');
	const wanted = args.filter((arg) => arg !== '--json').map((file) => named(root, file));
	const all = readFlowFiles(root);
	const foreign = wanted.filter((file) => !all.some(({ path }) => path === file));
	if (foreign.length)
		return (io.err(`There is no file ${foreign.join(', ')} under flows/. Name files as flows/NAME.yaml.`), 2);
	const checked = checkFiles(all, wanted);
	if (json) io.out(JSON.stringify(checked.findings, null, '\t'));
	else tell(checked, io);
	return checked.findings.some(({ level }) => level === 'error') ? 1 : 0;
}
