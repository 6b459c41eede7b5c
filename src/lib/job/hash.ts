/** The page's SHA-256: there is none over plain http, except on localhost. */
export type Digest = Pick<SubtleCrypto, 'digest'> | undefined;

/** FNV-1a, 64 bits (offset basis and prime from memory). Tells versions apart; keeps no secret. */
export function fnv1a64(text: string): string {
	return fnvOf(new TextEncoder().encode(text));
}

/** In two halves of 32 bits: a picture has half a million bytes, and big integers would hold the page up. */
function fnvOf(bytes: Uint8Array): string {
	// The prime is 2^40 + 0x1b3, so the product is a shift by 40 bits and a small multiple.
	let [high, low] = [0xcbf29ce4, 0x84222325];
	for (const byte of bytes) {
		low = (low ^ byte) >>> 0;
		const product = low * 0x1b3;
		const carry = Math.floor(product / 0x100000000);
		high = (Math.imul(high, 0x1b3) + carry + (low << 8)) >>> 0;
		low = product >>> 0;
	}
	return high.toString(16).padStart(8, '0') + low.toString(16).padStart(8, '0');
}

/** The name of some bytes: `sha256:` and 64 hex digits, or `fnv:` and 16 where the page has no SHA-256. */
export async function hashOfBytes(bytes: Uint8Array<ArrayBuffer>, digest: Digest): Promise<string> {
	if (!digest) return `fnv:${fnvOf(bytes)}`;
	const hashed = new Uint8Array(await digest.digest('SHA-256', bytes));
	return `sha256:${[...hashed].map((byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}

/** Whether these bytes have this name; `undefined` where the page cannot tell, because it has no SHA-256. */
export async function bytesMatch(
	hash: string,
	bytes: Uint8Array<ArrayBuffer>,
	digest: Digest
): Promise<boolean | undefined> {
	if (hash.startsWith('fnv:')) return (await hashOfBytes(bytes, undefined)) === hash;
	return digest ? (await hashOfBytes(bytes, digest)) === hash : undefined;
}
