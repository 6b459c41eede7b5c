/** What is kept of a picture, and how much of it. The limits are our own choice. */

/** Kinds of picture that are written and shown; nothing else is, whatever a file calls it. */
export const PICTURE_TYPES = ['image/webp', 'image/jpeg'] as const;
export type PictureType = (typeof PICTURE_TYPES)[number];

/** Bytes of one kept picture at most. */
export const LARGEST_PICTURE = 1_500_000;
/** Longest side of a kept picture at most, in pixels. */
export const LONGEST_SIDE = 2400;
/** Pictures of one job at most. */
export const MOST_PICTURES = 200;

/** A picture as it is kept, under its hash. */
export interface KeptPicture {
	/** `sha256:` and 64 hex digits, or `fnv:` and 16 where the page has no SHA-256. */
	hash: string;
	type: PictureType;
	bytes: ArrayBuffer;
}

export interface PictureSize {
	type: PictureType;
	/** Pixels. */
	width: number;
	height: number;
}

const word = (bytes: DataView, at: number): string =>
	String.fromCharCode(...[0, 1, 2, 3].map((index) => bytes.getUint8(at + index)));

const little24 = (bytes: DataView, at: number): number =>
	bytes.getUint16(at, true) + 0x10000 * bytes.getUint8(at + 2);

/** The size in the head of a WebP file: lossy, lossless or extended (RFC 9649). */
function webpSize(bytes: DataView): PictureSize | undefined {
	if (word(bytes, 0) !== 'RIFF' || word(bytes, 8) !== 'WEBP') return undefined;
	const type = 'image/webp';
	switch (word(bytes, 12)) {
		case 'VP8 ':
			return {
				type,
				width: bytes.getUint16(26, true) & 0x3fff,
				height: bytes.getUint16(28, true) & 0x3fff
			};
		case 'VP8L': {
			const bits = bytes.getUint32(21, true);
			return { type, width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 };
		}
		case 'VP8X':
			return { type, width: little24(bytes, 24) + 1, height: little24(bytes, 27) + 1 };
		default:
			return undefined;
	}
}

/** Markers of a JPEG frame: all from C0 to CF but the tables C4, C8 and CC (ITU-T T.81, table B.1). */
const isFrame = (marker: number): boolean =>
	marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);

/** The size in the frame header of a JPEG file, found by going from segment to segment. */
function jpegSize(bytes: DataView): PictureSize | undefined {
	if (bytes.getUint16(0) !== 0xffd8) return undefined;
	for (let at = 2; bytes.getUint8(at) === 0xff; at += 2 + bytes.getUint16(at + 2))
		if (isFrame(bytes.getUint8(at + 1)))
			return { type: 'image/jpeg', width: bytes.getUint16(at + 7), height: bytes.getUint16(at + 5) };
	return undefined;
}

/** What a picture is by its own bytes, never by its name; `undefined` for anything that is not shown here. */
export function pictureSize(bytes: ArrayBuffer): PictureSize | undefined {
	const view = new DataView(bytes);
	try {
		return webpSize(view) ?? jpegSize(view);
	} catch (error) {
		// It ends before its head does.
		if (error instanceof RangeError) return undefined;
		throw error;
	}
}
