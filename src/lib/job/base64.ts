/** Bytes turned at a time: more arguments than this a call cannot take everywhere. */
const PIECE = 0x8000;

export function toBase64(bytes: Uint8Array): string {
	const pieces: string[] = [];
	for (let at = 0; at < bytes.length; at += PIECE)
		pieces.push(String.fromCharCode(...bytes.subarray(at, at + PIECE)));
	return btoa(pieces.join(''));
}

/** The bytes, or `undefined` where the text is no base64. */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> | undefined {
	let letters: string;
	try {
		letters = atob(text);
	} catch {
		return undefined;
	}
	const bytes = new Uint8Array(letters.length);
	for (let index = 0; index < letters.length; index++) bytes[index] = letters.charCodeAt(index);
	return bytes;
}
