import type { BoxLine, Shape, WayBox, WayDrawing } from '$lib/flow/draw/layout.ts';
import type { OutlineEntry } from '$lib/flow/draw/outline.ts';
import type { Library } from '$lib/flow/library.ts';

/** A drawing with the text of its boxes line by line. */
export type ShownDrawing = Omit<WayDrawing, 'boxes'> & { boxes: (WayBox & { text: BoxLine[] })[] };

/** A worked-out way as the page shows it. */
export interface ShownWay {
	drawings: Record<Shape, ShownDrawing>;
	/** For whoever hears the drawing. */
	words: string;
	outline: OutlineEntry[];
	/** Figures with what they mean: [name, value]. */
	figures: [string, string][];
	/** Suspects that no step of the flow parts. */
	together: { names: string[]; oneRepair: boolean }[];
}

/** A way that is asked for. */
export interface WayAsked {
	library: Library;
	flow: string;
	plan: string;
}

/** How many stops have been begun; at the end the way. */
export type WaySaid = { stops: number } | { way: ShownWay };

/** The part of a worker that is used. */
export interface WayFinder {
	postMessage(asked: WayAsked | 'enough'): void;
	onmessage: ((event: MessageEvent<WaySaid>) => void) | null;
	onerror: ((event: ErrorEvent) => void) | null;
	terminate(): void;
}

export interface WorkingOut {
	/** Refused where the worker fails. */
	way: Promise<ShownWay>;
	/** Leave off what has not been followed yet. */
	enough: () => void;
	/** Nobody waits for it any more. */
	end: () => void;
}

/** Have a way worked out by a worker that is ended after it. */
export function workOut(
	start: () => WayFinder,
	asked: WayAsked,
	onstop: (stops: number) => void
): WorkingOut {
	const finder = start();
	const way = new Promise<ShownWay>((resolve, reject) => {
		finder.onmessage = ({ data }) => ('way' in data ? resolve(data.way) : onstop(data.stops));
		finder.onerror = () => reject(new Error('The search failed.'));
		finder.postMessage(asked);
	}).finally(() => finder.terminate());
	return { way, enough: () => finder.postMessage('enough'), end: () => finder.terminate() };
}
