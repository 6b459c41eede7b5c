import { fromBase64 } from './base64.ts';
import { AGAIN, refuse } from './file-refused.ts';
import { bytesMatch, type Digest } from './hash.ts';
import { LARGEST_PICTURE, LONGEST_SIDE, pictureSize, type KeptPicture } from './picture.ts';

const refusePicture = (hash: string, hint: string): never => refuse(`picture ${hash.slice(0, 18)}`, hint);

/** The bytes of a picture from its line. */
export const decodedPicture = (hash: string, data: string): Uint8Array<ArrayBuffer> =>
	fromBase64(data) ?? refusePicture(hash, `Its bytes cannot be read. ${AGAIN}`);

/**
 * A picture from a file: by its own bytes one of the kinds that this program shows, no larger than those that it writes,
 * and the one that its hash names. What else the file says of it counts for nothing.
 */
export async function readPicture(
	hash: string,
	type: string,
	data: string,
	digest: Digest
): Promise<KeptPicture> {
	const bytes = decodedPicture(hash, data);
	if (bytes.length > LARGEST_PICTURE)
		refusePicture(hash, `The picture has more than ${LARGEST_PICTURE / 1e6} MB. ${AGAIN}`);
	const size = pictureSize(bytes.buffer);
	if (!size) return refusePicture(hash, 'It is neither a WebP nor a JPEG picture. Nothing else is taken in.');
	if (size.type !== type)
		refusePicture(hash, `It is called ${type.slice(0, 40)}, and is ${size.type}. ${AGAIN}`);
	if (Math.max(size.width, size.height) > LONGEST_SIDE || Math.min(size.width, size.height) < 1)
		refusePicture(
			hash,
			`It is ${size.width} by ${size.height} pixels; this program writes none beyond ${LONGEST_SIDE}.`
		);
	if ((await bytesMatch(hash, bytes, digest)) === false)
		refusePicture(
			hash,
			`This picture is not the one that the job names: it has been changed since. ${AGAIN}`
		);
	return { hash, type: size.type, bytes: bytes.buffer };
}
