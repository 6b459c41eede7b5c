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

function bound(text: string, unitOfPartner?: string): Bound | undefined {
	const relative = /^([-\d.]+) ?%( of expected)?$/.exec(text.trim());
	if (relative) return { value: Number(relative[1]) / 100, unit: '%' };
	const read = parseAnyQuantity(/[a-zµμΩ%]/i.test(text) ? text : `${text} ${unitOfPartner ?? ''}`);
	return read.ok ? { value: read.value, unit: read.unit } : undefined;
}

const example = 'Write  "> 0.5 V",  "0.1 .. 0.5 V",  "< -0.1 V"  or  "80 .. 120 % of expected".';

/** Read `> 0.5 V`, `0.1 .. 0.5 V`, `<= 5 mA`, `> 120 % of expected`. */
export function parseWhen(text: string): BandResult {
	const trimmed = text.replace(/ of expected$/, '').trim();
	const one = /^([<>]=?) *(.+)$/.exec(trimmed);
	const two = /^(.+?) *\.\. *(.+)$/.exec(trimmed);
	const fail = { ok: false as const, message: `"${text}" is not a range of readings. ${example}` };
	if (one) {
		const limit = bound(one[2] ?? '');
		if (!limit) return fail;
		const relative = limit.unit === '%';
		const open = { relative, unit: limit.unit };
		return one[1]?.startsWith('>')
			? { ok: true, band: { from: limit.value, to: Infinity, closed: true, ...open } }
			: { ok: true, band: { from: -Infinity, to: limit.value, closed: one[1] === '<=', ...open } };
	}
	const upper = two && bound(two[2] ?? '');
	const lower = two && upper && bound(two[1] ?? '', unitText(two[2] ?? ''));
	if (!upper || !lower || lower.unit !== upper.unit || lower.value >= upper.value) return fail;
	return { ok: true, band: { from: lower.value, to: upper.value, closed: false, relative: upper.unit === '%', unit: upper.unit } };
}

const unitText = (text: string) => /[a-zµμΩ%].*$/i.exec(text)?.[0] ?? '';

/** Print an end of a band as its author would write it. */
export const printEdge = (value: number, band: Band): string =>
	band.relative ? `${Math.round(value * 100)} % of expected` : printQuantity(value, band.unit);

/** Gaps and overlaps between the bands of one step, over all readings. */
export function bandProblems(bands: readonly Band[]): { kind: 'gap' | 'overlap'; from: number; to: number; band: Band }[] {
	const sorted = [...bands].sort((a, b) => a.from - b.from || a.to - b.to);
	const problems: ReturnType<typeof bandProblems> = [];
	let end = -Infinity;
	for (const band of sorted) {
		if (band.from > end) problems.push({ kind: 'gap', from: end, to: band.from, band });
		if (band.from < end) problems.push({ kind: 'overlap', from: band.from, to: Math.min(end, band.to), band });
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

/** The band a reading falls in, edges decided by `from <= x < to`. */
export function bandOf(value: number, bands: readonly Band[]): number {
	const strict = bands.findIndex((b) => value >= b.from && (value < b.to || (b.closed && value === b.to)));
	return strict >= 0 ? strict : bands.findIndex((b) => value === b.to);
}
