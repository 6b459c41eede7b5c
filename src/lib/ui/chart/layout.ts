import type { Curve, Mark, Picture, Point } from '$lib/calculations/index.ts';
import { line } from 'd3-shape';
import { isLog, placeAxis, type PlacedAxis } from './axis.ts';
import { isBars, placeBars, type PlacedBar } from './bars.ts';
import { type Box, LINE, type PlacedLabel, placeLabels, widthOf } from './labels.ts';

type Pixel = readonly [x: number, y: number];

export interface Layout {
	width: number;
	height: number;
	plot: Box;
	x: PlacedAxis;
	y: PlacedAxis;
	curves: readonly {
		label: string;
		style: Curve['style'];
		path: string;
		dots: readonly Pixel[];
		bars: readonly PlacedBar[];
	}[];
	marks: readonly { label: string; dot?: Pixel; path?: string }[];
	bands: readonly (Box & { label: string })[];
	labels: readonly PlacedLabel[];
}

const HEIGHT = { share: 0.62, least: 260, most: 420 };
const EDGE = 12;
/** Room for the title of an axis and its figures. */
const TITLE = 24;

const finite = (values: readonly (number | undefined)[]): number[] =>
	values.filter((value): value is number => value !== undefined && Number.isFinite(value));

/** A line across keeps clear of the frame by this share of its value, else the axis would hide it. */
const CLEAR = 0.1;

/** More decades than these would make stumps of all bars. */
const DECADES = 1e4;

/** Bars begin at nothing, or on a logarithmic axis a little below the least of them; their figures stand above them. */
function roomForBars({ curves, x, y }: Picture, axis: 'x' | 'y'): number[] {
	const barred = curves.filter(isBars);
	if (barred.length === 0) return [];
	if (axis === 'x') return (x.ticks ?? []).flatMap(({ at }) => [at - 0.5, at + 0.5]);
	const values = finite(barred.flatMap(({ points }) => points.map(([, value]) => value)));
	const [least, most] = [Math.min(...values), Math.max(...values)];
	return isLog(y, least, most) ? [Math.max(least / 2, most / DECADES), most * 2] : [0, most * 1.15];
}

/** Every value that must be in sight along one axis. Stretches are cut off, they need not be seen whole. */
function valuesAlong(picture: Picture, axis: 'x' | 'y'): number[] {
	const { curves, marks = [], x, y } = picture;
	const place = axis === 'x' ? 0 : 1;
	const ofCurves = curves.flatMap(({ points }) => points.map((point) => point[place]));
	const ofMarks = marks.flatMap((mark) => {
		const value = mark[axis];
		const across = axis === 'y' && mark.x === undefined && value !== undefined;
		return across ? [value * (1 - CLEAR), value * (1 + CLEAR)] : [value];
	});
	const names = (axis === 'x' ? x : y).ticks?.map(({ at }) => at) ?? [];
	// Of bars none is too short to be seen.
	const seen = picture.curves.some(isBars) && axis === 'y' ? [] : ofCurves;
	return finite([...seen, ...ofMarks, ...names, ...roomForBars(picture, axis)]);
}

/** Points along a line of pixels, near enough to each other that no word slips between them. */
function inkOf(pixels: readonly Pixel[]): Pixel[] {
	const STEP = 5;
	return pixels.flatMap(([x, y], i): Pixel[] => {
		const [toX, toY] = pixels[i + 1] ?? [x, y];
		const count = Math.max(1, Math.ceil(Math.hypot(toX - x, toY - y) / STEP));
		return Array.from({ length: count }, (_, k) => [
			x + ((toX - x) * k) / count,
			y + ((toY - y) * k) / count
		]);
	});
}

/** Places along a curve where its name may stand: towards its end first. */
function placesAlong(pixels: readonly Pixel[]): Pixel[] {
	const shares = [0.85, 0.7, 1, 0.5, 0.35, 0.2, 0.05];
	return shares.flatMap((share) => {
		const pixel = pixels[Math.round(share * (pixels.length - 1))];
		return pixel ? [pixel] : [];
	});
}

function markLayout({ label, x, y }: Mark, plot: Box, across: PlacedAxis, upright: PlacedAxis) {
	const right = plot.left + plot.width;
	const bottom = plot.top + plot.height;
	if (x !== undefined && y !== undefined) return { label, dot: [across.place(x), upright.place(y)] as const };
	if (x !== undefined) return { label, path: `M${across.place(x)},${plot.top}V${bottom}` };
	return { label, path: `M${plot.left},${upright.place(y ?? 0)}H${right}` };
}

function bandLayout(picture: Picture, plot: Box, across: PlacedAxis, upright: PlacedAxis) {
	return (picture.bands ?? []).map(({ axis, from, to, label }) => {
		const scale = axis === 'x' ? across : upright;
		const [start, length] = axis === 'x' ? [plot.left, plot.width] : [plot.top, plot.height];
		// On a logarithmic axis zero lies infinitely far off: the stretch then runs to the edge.
		const within = (value: number): number => Math.min(start + length, Math.max(start, scale.place(value)));
		const ends = [from, to].map((value) => (scale.log && value <= 0 ? undefined : within(value)));
		const far = axis === 'x' ? start : start + length;
		const [one = far, other = far] = ends;
		const [low, size] = [Math.min(one, other), Math.abs(other - one)];
		return axis === 'x'
			? { ...plot, left: low, width: size, label }
			: { ...plot, top: low, height: size, label };
	});
}

/** Words on bands stand in a corner of them; on marks beside the point, or near an end of the line. */
function wishesOf(layout: Omit<Layout, 'labels'>, curves: readonly (readonly Pixel[])[]) {
	const { plot } = layout;
	const right = plot.left + plot.width;
	const ofMarks = layout.marks.map(({ label, dot, path = '' }) => {
		const [x = 0, y = 0] = dot ?? path.match(/[\d.]+/g)?.map(Number) ?? [];
		const along: Pixel[] = path.includes('V')
			? [0.08, 0.25, 0.6, 0.9].map((share) => [x, plot.top + share * plot.height])
			: [0.95, 0.6, 0.3, 0.05].map((share) => [plot.left + share * plot.width, y]);
		return { text: label, near: dot ? [dot] : along };
	});
	// Bars have their key above the picture.
	const ofCurves = layout.curves.flatMap(({ label, bars }, i) =>
		bars.length > 0 || label === '' ? [] : [{ text: label, near: placesAlong(curves[i] ?? []) }]
	);
	const ofBands = layout.bands.map(({ left, top, width, height, label }) => {
		const corners: Pixel[] = [
			[left, top],
			[Math.min(left + width, right), top],
			[left, top + height],
			[left + width, top + height],
			[left + width / 2, top + height / 2]
		];
		return { text: label, near: corners };
	});
	return [...ofMarks, ...(layout.curves.length > 1 ? ofCurves : []), ...ofBands];
}

/** Lines of a name that has to fit under its tick; where a word of it is too long, its last word alone: `section 3` is 3. */
export function wrapped(label: string, room: number): string[] {
	const lines: string[] = [];
	for (const word of label.split(' ')) {
		const last = lines.at(-1);
		if (last !== undefined && widthOf(`${last} ${word}`) <= room) lines[lines.length - 1] = `${last} ${word}`;
		else lines.push(word);
	}
	return lines.every((line) => widthOf(line) <= room) ? lines : lines.slice(-1);
}

function plotOf(picture: Picture, width: number, height: number): Box {
	// The figures of the upright axis are as wide as they are: they are set once to be measured.
	const { ticks } = placeAxis(picture.y, valuesAlong(picture, 'y'), [height, 0]);
	const left = Math.max(...ticks.map(({ label }) => widthOf(label))) + EDGE;
	const names = picture.x.ticks ?? [];
	// Half of the last figure reaches out of the plot.
	const last = placeAxis(picture.x, valuesAlong(picture, 'x'), [0, width]).ticks.at(-1)?.label ?? '';
	const right = Math.max(EDGE, names.length > 0 ? 0 : widthOf(last) / 2 + 2);
	const slot = (width - left - right) / Math.max(1, names.length);
	const lines = Math.max(1, ...names.map(({ label }) => wrapped(label, slot).length));
	const bottom = TITLE + lines * LINE + EDGE / 2;
	// Names stand in the middle of their slot, so that the outermost have room; bars see to that themselves.
	const inset = names.length > 0 && !picture.curves.some(isBars) ? slot / 2 : 0;
	return {
		left: left + inset,
		top: TITLE + EDGE / 2,
		width: width - left - right - 2 * inset,
		height: height - TITLE - EDGE / 2 - bottom
	};
}

/** A picture laid out for a width in pixels: everything that the page has to draw, and where. */
export function layoutOf(picture: Picture, width: number): Layout {
	const height = Math.min(HEIGHT.most, Math.max(HEIGHT.least, width * HEIGHT.share));
	const plot = plotOf(picture, width, height);
	const x = placeAxis(picture.x, valuesAlong(picture, 'x'), [plot.left, plot.left + plot.width]);
	const y = placeAxis(picture.y, valuesAlong(picture, 'y'), [plot.top + plot.height, plot.top]);
	const place = ([across, upright]: Point): Pixel => [x.place(across), y.place(upright)];
	const seen = (pixel: Pixel): boolean => pixel.every(Number.isFinite);
	const pixels = picture.curves.map(({ points }) => points.map(place).filter(seen));
	const bars = placeBars(picture, plot, x, y);
	const draw = line<Pixel>();
	const curves = picture.curves.map((curve, i) => ({
		label: curve.unnamed ? '' : curve.label,
		style: curve.style,
		path: curve.style === 'dots' || isBars(curve) ? '' : (draw([...(pixels[i] ?? [])]) ?? ''),
		dots: curve.style === 'dots' ? (pixels[i] ?? []) : [],
		bars: bars[i] ?? []
	}));
	const marks = (picture.marks ?? []).map((mark) => markLayout(mark, plot, x, y));
	const bands = bandLayout(picture, plot, x, y);
	const layout = { width, height, plot, x, y, curves, marks, bands };
	return { ...layout, labels: placeLabels(wishesOf(layout, pixels), plot, pixels.flatMap(inkOf)) };
}
