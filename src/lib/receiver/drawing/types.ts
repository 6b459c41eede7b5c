import type { Plan } from '../plan.ts';

/**
 * A receiver as a drawing. Lengths are grid units: one unit is a sixteenth of the page's text size, which is one CSS
 * pixel at the usual 16. The drawing knows no standings: nothing in it moves when an answer arrives.
 */
export interface Drawing {
	shape: Shape;
	width: number;
	height: number;
	/** In signal order; last those that no band passes through. */
	stages: DrawnStage[];
	lines: DrawnLine[];
	/** Test points: on the joints of the signal path, then those that hang on a stage or a line. */
	points: DrawnPoint[];
	wires: DrawnWire[];
	/** Names of the bands where their signal comes in. */
	captions: Caption[];
}

/** Left to right in as many rows as the width asks for, or from top to bottom. */
export type Shape = 'wide' | 'tall';

export interface Corner {
	x: number;
	y: number;
}

/** A box with room for its label and, below it, for the longest standing. */
export interface Box {
	x: number;
	y: number;
	width: number;
	height: number;
	/** The title, shortened if it must be, broken into lines that fit. */
	label: string[];
	/** Lines kept free for the standing. */
	noteLines: number;
	/** Free of text along the lower edge. */
	foot: number;
	/** Room for a line of text. */
	textWidth: number;
}

export interface DrawnStage extends Box {
	id: string;
	title: string;
	/** Bands whose signal passes through. */
	bands: string[];
}

export interface DrawnLine {
	id: string;
	title: string;
	kind: Plan['lines'][string]['kind'];
	feeds: string[];
	/** One bar, or one for each row of the drawing in which the line feeds something. */
	bars: Box[];
	/** From the bar along the stages; empty where the bar itself spans them. */
	rail: Corner[];
	/** One for each stage that the line feeds. */
	taps: Corner[];
}

export interface DrawnPoint extends Corner {
	id: string;
	title: string;
	/** The stage or line that it belongs to. */
	place: string;
	/** On the signal path, not beside it. */
	onPath: boolean;
	/** Short name to stand in the mark: the electrode. */
	electrode?: string;
	/** Room for a line of text beside the mark. */
	roomBeside: number;
}

export interface DrawnWire {
	corners: Corner[];
	bands: string[];
	/** Goes on in another row. */
	goesOn: boolean;
	/** Against the order of the drawing, as in a reflex set. */
	back: boolean;
}

export interface Caption extends Corner {
	text: string;
	anchor: 'start' | 'middle' | 'end';
}

export interface DrawingOptions {
	shape: Shape;
	/** Room for the drawing in grid units. */
	width: number;
	/** Texts that each box must have room for, whatever its standing. */
	notes?: readonly string[];
}
