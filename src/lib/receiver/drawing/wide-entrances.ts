import { across, asX, isIn, lanesEnd, placeOfNode, route, type Frame } from './frame.ts';
import { bandTitles, type Sheet } from './sheet.ts';
import type { Entry, SignalNode } from './signal-order.ts';
import type { Caption, Corner, DrawnWire } from './types.ts';
import { EDGE, joins } from './wide-frame.ts';

/** Room below the lanes for a wire that comes in from there. */
const BELOW = 26;

/** Where the signal of some bands comes in. */
interface Entrance {
	caption: Caption;
	wire: Corner[];
}

/** From below, where a band has no lane to come in by. */
function entranceBelow(frame: Frame, first: SignalNode, text: string): Entrance {
	const { along, across: over } = placeOfNode(frame, first);
	const x = (along[0] + along[1]) / 2;
	const y = lanesEnd(frame.lanes) + BELOW;
	const wire = [
		{ x, y },
		{ x, y: over[1] }
	];
	return { caption: { text, anchor: 'end', x: x + 10, y: y + 15 }, wire };
}

function entranceLeft(
	{ order }: Sheet,
	frame: Frame,
	{ bands }: Entry,
	first: SignalNode,
	text: string
): Entrance {
	const at = bands.map((band) => order.lanes.indexOf(band));
	const lane = across(frame.lanes, [Math.min(...at), Math.max(...at)]);
	const place = placeOfNode(frame, first);
	const x = place.along[0] - EDGE;
	const wire = route(
		{ along: [x, x], across: [(lane[0] + lane[1]) / 2, (lane[0] + lane[1]) / 2] },
		place
	).map(asX);
	return { caption: { text, anchor: 'end', x: x - 6, y: (wire[0]?.y ?? 0) + 5 }, wire };
}

/** Bands of which the signal comes into this row from outside the set. A band that joins others comes in from below. */
export function entrances(sheet: Sheet, frame: Frame): Entrance[] {
	return sheet.order.entries.flatMap((entry) => {
		const first = sheet.order.nodes.find(({ id }) => id === entry.to);
		if (!first || !isIn(frame, first)) return [];
		const text = bandTitles(sheet.plan, entry.bands);
		return joins(entry, first)
			? entranceBelow(frame, first, text)
			: entranceLeft(sheet, frame, entry, first, text);
	});
}

/** The bands of a wire that comes from another row, where it does not carry them all. */
export function goneOn(wires: readonly DrawnWire[], { plan, order }: Sheet, frame: Frame): Caption[] {
	return wires.flatMap(({ corners: [first], bands }): Caption[] => {
		if (!first || first.x !== frame.begin || bands.length === order.lanes.length) return [];
		return [{ text: bandTitles(plan, bands), anchor: 'end', x: first.x - 6, y: first.y + 5 }];
	});
}
