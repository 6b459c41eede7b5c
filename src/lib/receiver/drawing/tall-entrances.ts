import { across, asY, placeOfNode, route, type Frame } from './frame.ts';
import { textWidth } from './label.ts';
import { bandTitles, type Sheet } from './sheet.ts';
import type { Entry, SignalNode } from './signal-order.ts';
import { entriesOf, fromSide } from './tall-frame.ts';
import type { Caption, Corner, DrawnWire } from './types.ts';

/** Where the signals of the bands come in. */
interface Entrances {
	captions: Caption[];
	wires: DrawnWire[];
}

/** A caption at the right end of the joint, with its wire to the point or down into the stage. */
function sideEntrance(frame: Frame, first: SignalNode, text: string): [Caption, Corner[]] {
	const right = across(frame.lanes, first.span)[1];
	const place = placeOfNode(frame, first);
	const y = first.point ? place.along[0] : place.along[0] - 14;
	const left = right - textWidth(text) - 8;
	const from = { x: left, y };
	const wire = first.point
		? [from, { x: place.across[0], y }]
		: [from, { x: left - 10, y }, { x: left - 10, y: place.along[0] }];
	return [{ text, anchor: 'end', x: right, y: y + 5 }, wire];
}

/** A caption above the lane. */
function topEntrance(
	sheet: Sheet,
	frame: Frame,
	entry: Entry,
	first: SignalNode,
	text: string
): [Caption, Corner[]] {
	const at = entry.bands.map((band) => sheet.order.lanes.indexOf(band));
	const lane = across(frame.lanes, [Math.min(...at), Math.max(...at)]);
	const place = placeOfNode(frame, first);
	const y = place.along[0] - 14;
	const middle = (lane[0] + lane[1]) / 2;
	const wire = route({ along: [y, y], across: [middle, middle] }, place).map(asY);
	return [{ text, anchor: 'middle', x: middle, y: y - 5 }, wire];
}

export function entrances(sheet: Sheet, frame: Frame): Entrances {
	const drawn = entriesOf(sheet).map(({ entry, first }) => {
		const text = bandTitles(sheet.plan, entry.bands);
		const [caption, corners] = fromSide(sheet, frame.lanes, entry, first)
			? sideEntrance(frame, first, text)
			: topEntrance(sheet, frame, entry, first, text);
		return { caption, wire: { corners, bands: entry.bands, goesOn: false, back: false } };
	});
	return { captions: drawn.map(({ caption }) => caption), wires: drawn.map(({ wire }) => wire) };
}
