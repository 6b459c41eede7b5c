import { parseQuantity } from '../quantity/index.ts';
import { type Plan } from '../receiver/index.ts';
import { surveyPoints } from '../receiver/survey.ts';
import { findValve } from '../valves/index.ts';

/** A table of volts as it stands on a sheet, pasted: what was understood, and what was not. */
export interface PastedTable {
	/** DC volts by test point. */
	volts: Record<string, number>;
	/** Lines that were not understood, with why. */
	aside: { line: string; why: string }[];
}

/** Heads of columns and rows as sheets write them -> electrode. */
const ELECTRODES: Readonly<Record<string, string>> = {
	a: 'a',
	va: 'a',
	anode: 'a',
	plate: 'a',
	p: 'a',
	g2: 'g2',
	vg2: 'g2',
	'g2,4': 'g2',
	g2g4: 'g2',
	'g2+4': 'g2',
	s: 'g2',
	screen: 'g2',
	k: 'k',
	vk: 'k',
	c: 'k',
	cathode: 'k',
	g: 'g1',
	g1: 'g1',
	vg: 'g1',
	vg1: 'g1',
	grid: 'g1',
	at: 'at',
	aosc: 'at',
	'osc.anode': 'at',
	'a(t)': 'at'
};

const electrodeOf = (cell: string): string | undefined => {
	const key = cell.toLowerCase().replace(/\s/g, '');
	return Object.hasOwn(ELECTRODES, key) ? ELECTRODES[key] : undefined;
};

const SUPPLY: readonly [RegExp, string][] = [
	[/^(reservoir|ht ?1|c ?1|ht before|b\+ ?1)/i, 'ht.reservoir'],
	[/^(smoothed|ht ?2|ht|c ?2|ht after|b\+ ?2?)/i, 'ht.smoothed']
];

/** Tab before semicolon before comma with room; else runs of blanks. A comma between figures is a decimal one. */
function cellsOf(line: string): string[] {
	const separator = line.includes('\t')
		? '\t'
		: line.includes(';')
			? ';'
			: /,(?!\d)|,\d+.*,/.test(line)
				? ','
				: undefined;
	const cells =
		separator === undefined
			? line
					.trim()
					.replace(/(\d)\s+(k?V)\b/g, '$1$2')
					.split(/\s+/)
			: line.split(separator);
	return cells.map((cell) => cell.trim());
}

/** Volts of a cell; nothing for a dash, an empty cell or a word. AC and resistances are none. */
function voltsIn(cell: string): number | undefined {
	const text = cell.replace(/^[≈~]\s*/, '').replace(/^(\d+),(\d{1,2})(?!\d)/, '$1.$2');
	const read = parseQuantity(text, 'V');
	return read.ok ? read.value : undefined;
}

interface Place {
	/** Valve of the plan, by id. */
	valves: string[];
	electrode: string | undefined;
}

/** Which valve the first cell of a row means: a type, the plan's own word, or V and its place in the line-up. */
function valvesOf(plan: Plan, cell: string): string[] {
	const name = cell
		.replace(/^V\d+[\s:]+/i, '')
		.replace(/[()]/g, '')
		.trim();
	const entries = Object.entries(plan.valves);
	const found = findValve(name);
	const typed = entries.filter(([, { type }]) => {
		const own = findValve(type);
		return (
			(found.ok && own.ok && own.valve.type === found.valve.type) || type.toUpperCase() === name.toUpperCase()
		);
	});
	if (typed.length > 0) return typed.map(([id]) => id);
	const worded = entries.filter(([id, { title }]) => [id, title.toLowerCase()].includes(name.toLowerCase()));
	if (worded.length > 0) return worded.map(([id]) => id);
	const numbered = /^v\s?(\d+)$/i.exec(cell.trim());
	const at = entries[Number(numbered?.[1] ?? 0) - 1];
	return at ? [at[0]] : [];
}

const isSame = (electrode: string | undefined, wanted: string) =>
	electrode === wanted || (wanted === 'g2' && electrode === 'g2g4') || (wanted === 'g1' && electrode === 'g');

/** The survey's point for an electrode of a valve; the oscillator's anode is told apart from the mixer's. */
function pointOf(plan: Plan, { valves, electrode }: Place): string | undefined {
	if (electrode === undefined) return undefined;
	const points = surveyPoints(plan).filter(({ valve }) => valve !== undefined && valves.includes(valve));
	const triode = electrode === 'at';
	const own = points.filter((point) => isSame(point.electrode, triode ? 'a' : electrode));
	const osc = (stage: string) => plan.stages[stage]?.section === 'oscillator';
	const chosen = own.filter(({ stage }) => osc(stage) === triode);
	return (chosen[0] ?? (triode ? undefined : own[0]))?.id;
}

/**
 * Read a pasted table: one row for each valve with its electrodes as heads of the columns, or one reading a line
 * (`EL84 anode 245`). Unknown valves, points and cells are listed, everything else is taken.
 */
export function readTable(text: string, plan: Plan): PastedTable {
	const volts: Record<string, number> = {};
	const aside: PastedTable['aside'] = [];
	let heads: (string | undefined)[] | undefined;
	for (const raw of text.split(/\r?\n/)) {
		const line = raw.trim();
		if (line === '') continue;
		const cells = cellsOf(line.length < raw.length && raw.startsWith('\t') ? raw : line);
		const named = cells.map(electrodeOf);
		if (named.filter(Boolean).length >= 2 && cells.every((cell) => voltsIn(cell) === undefined)) {
			heads = named;
			continue;
		}
		const put = (point: string | undefined, cell: string, why: string) => {
			const value = voltsIn(cell);
			if (point !== undefined && value !== undefined) volts[point] = value;
			else aside.push({ line, why });
		};
		const last = cells.at(-1) ?? '';
		const supply = SUPPLY.find(([pattern]) => pattern.test(line));
		const valves = valvesOf(plan, cells[0] ?? '');
		if (supply && valves.length === 0) {
			put(supply[1], last, `No volts could be read in “${last}”.`);
			continue;
		}
		const points = cells.length >= 2 && valves.length === 0 ? pointByName(plan, cells[0] ?? '') : undefined;
		if (points !== undefined) {
			put(points, last, `No volts could be read in “${last}”.`);
			continue;
		}
		if (valves.length === 0) {
			aside.push({ line, why: `“${cells[0] ?? ''}” is no valve or point of this set.` });
			continue;
		}
		const single = cells.slice(1, -1).map(electrodeOf).find(Boolean);
		if (single !== undefined) {
			put(
				pointOf(plan, { valves, electrode: single }),
				last,
				`“${cells[0] ?? ''}” has no such point here, or “${last}” is no voltage.`
			);
			continue;
		}
		if (!heads) {
			aside.push({ line, why: 'Which electrode? Begin the table with a line of heads: valve, a, g2, k.' });
			continue;
		}
		for (const [column, cell] of cells.entries()) {
			if (column === 0 || cell === '' || /^[-–—]+$/.test(cell)) continue;
			// Without a head over the valve's own column the heads stand one place to the left.
			const electrode = heads[column + heads.length - cells.length] ?? heads[column];
			const point = pointOf(plan, { valves, electrode });
			if (point !== undefined && voltsIn(cell) !== undefined) volts[point] = voltsIn(cell) as number;
			else
				aside.push({
					line: `${cells[0] ?? ''}: ${cell}`,
					why: point === undefined ? 'This column is no point of the survey.' : `“${cell}” is no voltage.`
				});
		}
	}
	return { volts, aside };
}

/** A point by its id or its title. */
function pointByName(plan: Plan, cell: string): string | undefined {
	const wanted = cell.toLowerCase();
	return surveyPoints(plan).find(({ id, title }) => id === wanted || title.toLowerCase() === wanted)?.id;
}
