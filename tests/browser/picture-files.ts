import type { Page } from '@playwright/test';

/** A picture of a bench as a camera would write it: a JPEG of this size, drawn in the page. */
export async function jpeg(page: Page, width: number, height: number): Promise<Buffer> {
	const text = await page.evaluate(
		([wide, high]) => {
			const canvas = document.createElement('canvas');
			[canvas.width, canvas.height] = [wide, high];
			const ink = canvas.getContext('2d');
			for (let index = 0; ink && index < 3000; index++) {
				ink.fillStyle = `hsl(${(index * 137) % 360} 60% ${20 + ((index * 31) % 60)}%)`;
				ink.fillRect((index * 7919) % wide, (index * 104_729) % high, wide / 9, high / 14);
			}
			return canvas.toDataURL('image/jpeg', 0.95);
		},
		[width, height] as const
	);
	return Buffer.from(text.slice(text.indexOf(',') + 1), 'base64');
}

const ascii = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));
const short = (value: number): number[] => [value & 0xff, value >> 8];
const long = (value: number): number[] => [...short(value & 0xffff), ...short(value >>> 16)];
/** An entry of a TIFF directory, least byte first. */
const entry = (tag: number, type: number, count: number, value: number[]): number[] => [
	...short(tag),
	...short(type),
	...long(count),
	...value
];

/** Where the picture was taken, as a telephone writes it: 51 degrees 30 minutes north. */
function gpsSegment(): Buffer {
	const [ifd, gps, degrees] = [8, 26, 56];
	const tiff = [
		...ascii('II'),
		...short(42),
		...long(ifd),
		...short(1),
		...entry(0x8825, 4, 1, long(gps)),
		...long(0),
		...short(2),
		...entry(1, 2, 2, [...ascii('N'), 0, 0, 0]),
		...entry(2, 5, 3, long(degrees)),
		...long(0),
		...[51, 1, 30, 1, 0, 1].flatMap(long)
	];
	const body = [...ascii('Exif'), 0, 0, ...tiff];
	return Buffer.from([0xff, 0xe1, (body.length + 2) >> 8, (body.length + 2) & 0xff, ...body]);
}

/** The same picture with the place where it was taken. */
export const withPlace = (picture: Buffer): Buffer =>
	Buffer.concat([picture.subarray(0, 2), gpsSegment(), picture.subarray(2)]);

export const JPEG = 'image/jpeg';
