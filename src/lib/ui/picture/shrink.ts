import { LARGEST_PICTURE, LONGEST_SIDE, PICTURE_TYPES, pictureSize } from '$lib/job/picture.ts';
import type { PictureSubject } from '$lib/job/events.ts';

/** A picture as it is kept: small, and nothing in it but the picture. */
export interface Shrunk {
	blob: Blob;
	width: number;
	height: number;
}
export type Shrinking = { ok: true; value: Shrunk } | { ok: false; hint: string };

/** Bytes of a file that is looked at, at most: more than any camera writes. */
const LARGEST_GIVEN = 60_000_000;
/** Pixels that are drawn at most: what lies beyond fills the memory of a phone. */
const MOST_PIXELS = 120_000_000;
/** Longest side of what is only looked at. A sheet with printed values keeps `LONGEST_SIDE`. */
const SIDE = 1600;
/** Tried one after the other until the picture is small enough. */
const QUALITIES = [0.82, 0.7, 0.55, 0.4];
/** What a picture is meant to have at most, in bytes, by its longest side. */
const GOAL = { [SIDE]: 450_000, [LONGEST_SIDE]: 1_000_000 };

const sideFor = ({ kind }: PictureSubject): typeof SIDE | typeof LONGEST_SIDE =>
	kind === 'diagram' || kind === 'chassis' ? LONGEST_SIDE : SIDE;

const refuse = (hint: string): Shrinking => ({ ok: false, hint });

const asBlob = (canvas: HTMLCanvasElement, type: string, quality: number): Promise<Blob | null> =>
	new Promise((done) => canvas.toBlob(done, type, quality));

/** The canvas as a picture of the first kind that this browser can write, no larger than the goal if that can be had. */
async function written(canvas: HTMLCanvasElement, goal: number): Promise<Blob | undefined> {
	let smallest: Blob | undefined;
	for (const type of PICTURE_TYPES)
		for (const quality of QUALITIES) {
			const blob = await asBlob(canvas, type, quality);
			// A browser that cannot write the kind writes a PNG in its place.
			if (blob?.type !== type) break;
			if (blob.size <= goal) return blob;
			if (!smallest || blob.size < smallest.size) smallest = blob;
		}
	return smallest && smallest.size <= LARGEST_PICTURE ? smallest : undefined;
}

/** Upright as the camera was held, on white where it lets the ground through. */
function drawn(bitmap: ImageBitmap, side: number): HTMLCanvasElement {
	const scale = Math.min(1, side / Math.max(bitmap.width, bitmap.height));
	const canvas = document.createElement('canvas');
	canvas.width = Math.max(1, Math.round(bitmap.width * scale));
	canvas.height = Math.max(1, Math.round(bitmap.height * scale));
	const ink = canvas.getContext('2d', { alpha: false });
	if (!ink) throw new Error('No canvas to draw the picture on.');
	ink.fillStyle = '#ffffff';
	ink.fillRect(0, 0, canvas.width, canvas.height);
	ink.imageSmoothingQuality = 'high';
	ink.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
	return canvas;
}

/**
 * A picture made small. It is drawn anew, so that nothing of its file stays but what is seen: no place, no name of a camera.
 */
export async function shrink(file: Blob, of: PictureSubject): Promise<Shrinking> {
	if (file.size > LARGEST_GIVEN)
		return refuse(`The file has more than ${LARGEST_GIVEN / 1e6} MB. Take the picture with fewer pixels.`);
	const bitmap = await createImageBitmap(file).catch(() => undefined);
	if (!bitmap)
		return refuse(
			'This browser cannot read the file as a picture. Take it with the camera, or choose a JPEG, PNG or WebP file.'
		);
	try {
		if (bitmap.width * bitmap.height > MOST_PIXELS)
			return refuse(`The picture has more than ${MOST_PIXELS / 1e6} million pixels. Choose a smaller one.`);
		const side = sideFor(of);
		const canvas = drawn(bitmap, side);
		const blob = await written(canvas, GOAL[side]);
		if (!blob || !pictureSize(await blob.arrayBuffer()))
			return refuse('This browser cannot write the picture small enough. Try another browser.');
		return { ok: true, value: { blob, width: canvas.width, height: canvas.height } };
	} finally {
		bitmap.close();
	}
}
