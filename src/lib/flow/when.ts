import { parseAnyQuantity, printQuantity, type Unit } from '../quantity/index.ts';

/**
 * A band of readings. `from <= x < to`; the band with no `to`, or the last of a step, includes its end.
 * Relative bands hold shares of what is expected (1.2 = 120 %).
 */
export interface Band {
	from: number;
	to: number;
	/** The end itself belongs to the band: `<= 5 V`, and the last of a row of bands. */
	closed: boolean;
	relative: boolean;
	unit: Unit;
}

export type BandResult = { ok: true; band: Band } | { ok: false; message: string };

interface Bound {
	value: number;
	unit: Unit;
}

/** One end of a range; a number alone takes the unit of the other end. */
function bound(text: string, unit = ''): Bound | undefined {
	const read = parseAnyQuantity(/[a-zµμΩ%]/i.test(text) ? text : `${text} ${unit}`);
	if (!read.ok) return undefined;
	return { value: read.unit === '%' ? read.value / 100 : read.value, unit: read.unit };
}

const unitText = (text: string) => /[a-zµμΩ%].*$/i.exec(text)?.[0] ?? '';

type Ends = Omit<Band, 'relative'>;

function halfOpen(sign: string, text: string): Ends | undefined {
	const limit = bound(text);
	if (!limit) return undefined;
	const { value, unit } = limit;
	return sign.startsWith('>')
		? { from: value, to: Infinity, closed: true, unit }
		: { from: -Infinity, to: value, closed: sign === '<=', unit };
}

function between(low: string, high: string): Ends | undefined {
	const [lower, upper] = [bound(low, unitText(high)), bound(high)];
	if (!lower || !upper || lower.unit !== upper.unit || lower.value >= upper.value) return undefined;
	return { from: lower.value, to: upper.value, closed: false, unit: upper.unit };
}

const example = 'Write  "> 0.5 V",  "0.1 .. 0.5 V",  "< -0.1 V"  or  "80 .. 120 % of expected".';

/** Read `> 0.5 V`, `0.1 .. 0.5 V`, `<= 5 mA`, `> 120 % of expected`. */
export function parseWhen(text: string): BandResult {
	const ofExpected = / +of +expected(?= *\.\.|$)/g;
	const trimmed = text.trim().replace(ofExpected, '');
	const one = /^([<>]=?) *(.+)$/.exec(trimmed);
	const two = /^(.+?) *\.\. *(.+)$/.exec(trimmed);
	const ends = one ? halfOpen(one[1] ?? '', one[2] ?? '') : two && between(two[1] ?? '', two[2] ?? '');
	const relative = ends?.unit === '%';
	if (!ends || (trimmed !== text.trim() && !relative))
		return { ok: false, message: `"${text}" is not a range of readings. ${example}` };
	return { ok: true, band: { ...ends, relative } };
}

/** Print an end of a band as its author would write it: a plain minus, no comma between thousands. */
export const printEdge = (value: number, band: Band): string =>
	band.relative
		? `${Number((value * 100).toFixed(3))} % of expected`
		: printQuantity(value, band.unit).replace('−', '-').replaceAll(',', '');

/** Gaps and overlaps between the bands of one step, over all readings. */
export function bandProblems(
	bands: readonly Band[]
): { kind: 'gap' | 'overlap'; from: number; to: number; band: Band }[] {
	const sorted = [...bands].sort((a, b) => a.from - b.from || a.to - b.to);
	const problems: ReturnType<typeof bandProblems> = [];
	let end = -Infinity;
	for (const band of sorted) {
		if (band.from > end) problems.push({ kind: 'gap', from: end, to: band.from, band });
		if (band.from < end)
			problems.push({ kind: 'overlap', from: band.from, to: Math.min(end, band.to), band });
		end = Math.max(end, band.to);
	}
	const last = sorted.at(-1);
	if (last && end < Infinity) problems.push({ kind: 'gap', from: end, to: Infinity, band: last });
	return problems;
}

/**
 * How much a reading belongs to each band, summing to one. Within 10 % of an edge (of the edge's own size,
 * or of the narrower neighbour where the edge is at zero) two bands share it linearly, so that 1 V more or
 * less never flips a ranking. Common practice, no source.
 */
export function membership(value: number, bands: readonly Band[]): number[] {
	const shares = bands.map((band) => side(value, band.from, bands) - side(value, band.to, bands));
	const total = shares.reduce((a, b) => a + b, 0);
	return shares.map((share) => (total > 0 ? Math.max(0, share) / total : 1 / bands.length));
}

/** Share of "at or above this edge", from 0 to 1. */
function side(value: number, edge: number, bands: readonly Band[]): number {
	if (edge === -Infinity) return 1;
	if (edge === Infinity) return 0;
	const width = fade(edge, bands);
	return Math.min(1, Math.max(0, (value - edge) / (2 * width) + 0.5));
}

function fade(edge: number, bands: readonly Band[]): number {
	const neighbours = bands.filter((b) => b.from === edge || b.to === edge).map((b) => b.to - b.from);
	const narrow = Math.min(...neighbours.filter(Number.isFinite));
	const own = Math.abs(edge) * 0.1;
	const room = Number.isFinite(narrow) ? narrow * 0.1 : own;
	return Math.max(Math.min(own || room, room), 1e-12);
}

/** The band a reading falls in: `from <= x < to`, but an end that an author wrote as `<=` stays with its band. */
export function bandOf(value: number, bands: readonly Band[]): number {
	const closed = bands.findIndex((b) => b.closed && value === b.to);
	if (closed >= 0) return closed;
	const within = bands.findIndex((b) => value >= b.from && value < b.to);
	return within >= 0 ? within : bands.findIndex((b) => value === b.to);
}
