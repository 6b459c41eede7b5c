/** Looking at a sheet through a window: plain arithmetic, in pixels of the window and shares of the sheet. */

export interface Size {
	width: number;
	height: number;
}

/** The window is centred on a place of the sheet. */
export interface View {
	/** Shares of width and height, 0 to 1. */
	x: number;
	y: number;
	/** 1 shows the whole sheet. */
	zoom: number;
}

export interface Place {
	x: number;
	y: number;
}

export const WHOLE: View = { x: 0.5, y: 0.5, zoom: 1 };
/** Fine print of a large sheet on a phone needs this much. Our own choice. */
export const MOST_ZOOM = 16;

const within = (value: number, from: number, to: number): number => Math.min(to, Math.max(from, value));

export const clamped = ({ x, y, zoom }: View): View => ({
	x: within(x, 0, 1),
	y: within(y, 0, 1),
	zoom: within(zoom, 1, MOST_ZOOM)
});

/** Pixels of the window for one pixel of the sheet. */
export const scaleOf = (view: View, sheet: Size, window: Size): number =>
	view.zoom * Math.min(window.width / sheet.width, window.height / sheet.height);

/** Where the left upper corner of the sheet lies in the window, and how large it is drawn. */
export function drawn(view: View, sheet: Size, window: Size): Size & { left: number; top: number } {
	const scale = scaleOf(view, sheet, window);
	const [width, height] = [sheet.width * scale, sheet.height * scale];
	return { left: window.width / 2 - view.x * width, top: window.height / 2 - view.y * height, width, height };
}

/** The place of the sheet under a point of the window; outside the sheet it is beyond 0 to 1. */
export function placeAt(view: View, sheet: Size, window: Size, point: { left: number; top: number }): Place {
	const at = drawn(view, sheet, window);
	return { x: (point.left - at.left) / at.width, y: (point.top - at.top) / at.height };
}

/** Moved by so many pixels of the window: the sheet follows the finger. */
export function moved(view: View, sheet: Size, window: Size, by: { left: number; top: number }): View {
	const { width, height } = drawn(view, sheet, window);
	return clamped({ ...view, x: view.x - by.left / width, y: view.y - by.top / height });
}

/** Zoomed so that what lies under a point of the window stays there; left out, the centre stays. */
export function zoomed(
	view: View,
	sheet: Size,
	window: Size,
	factor: number,
	about: { left: number; top: number } = { left: window.width / 2, top: window.height / 2 }
): View {
	const zoom = within(view.zoom * factor, 1, MOST_ZOOM);
	const held = placeAt(view, sheet, window, about);
	const { width, height } = drawn({ ...view, zoom }, sheet, window);
	return clamped({
		zoom,
		x: held.x + (window.width / 2 - about.left) / width,
		y: held.y + (window.height / 2 - about.top) / height
	});
}

export const isOnSheet = ({ x, y }: Place): boolean => x >= 0 && x <= 1 && y >= 0 && y <= 1;
