import type { Curve, Picture } from '$lib/calculations/index.ts';
import { printFigure } from '$lib/quantity/index.ts';
import type { PlacedAxis } from './axis.ts';
import { type Box, widthOf } from './labels.ts';

/** One bar in pixels; its figure stands on top of it where there is room. */
export interface PlacedBar extends Box {
	text: string;
}

/** The bars of one name take so much of its slot. */
const SHARE = 0.7;
const WIDEST = 56;
/** So much of a bar is always seen. */
const LEAST = 2;
const DIGITS = 3;

export const isBars = ({ style }: Curve): boolean => style === 'hollow bars' || style === 'full bars';

/** Bars of each curve, those of one name beside each other; empty for curves that are lines. */
export function placeBars(
	{ curves, x: across, y: upright }: Picture,
	plot: Box,
	x: PlacedAxis,
	y: PlacedAxis
): PlacedBar[][] {
	const barred = curves.filter(isBars);
	const names = Math.max(1, across.ticks?.length ?? 1);
	const slot = plot.width / names;
	const width = Math.min(WIDEST, (slot * SHARE) / Math.max(1, barred.length));
	const bottom = plot.top + plot.height;
	return curves.map((curve) => {
		const side = barred.indexOf(curve);
		if (side < 0) return [];
		return curve.points.map(([at, value]) => {
			const top = Math.min(bottom - LEAST, y.place(value));
			const text = printFigure(value, upright.unit, DIGITS);
			return {
				left: x.place(at) + (side - barred.length / 2) * width,
				top,
				width,
				height: bottom - top,
				text: widthOf(text) <= Math.max(width, slot / barred.length) ? text : ''
			};
		});
	});
}
