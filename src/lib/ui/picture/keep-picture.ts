import type { EventData, PictureSubject } from '$lib/job/events.ts';
import { hashOfBytes } from '$lib/job/hash.ts';
import type { PictureType } from '$lib/job/picture.ts';
import type { JobStore } from '$lib/job/store.ts';
import { digest } from '$lib/ui/state/world.ts';
import { shrink } from './shrink.ts';

export type Taken = { ok: true; value: EventData['pictured'] } | { ok: false; hint: string };

/** Make a picture small and keep it; what comes back is the data of the event that is to name it. */
export async function keepPicture(
	store: JobStore,
	job: string,
	file: Blob,
	of: PictureSubject
): Promise<Taken> {
	const small = await shrink(file, of);
	if (!small.ok) return small;
	const { blob, width, height } = small.value;
	const bytes = await blob.arrayBuffer();
	const hash = await hashOfBytes(new Uint8Array(bytes), digest());
	const kept = await store.keepPicture(job, { hash, type: blob.type as PictureType, bytes });
	return kept.ok
		? { ok: true, value: { picture: hash, of, width, height, bytes: bytes.byteLength } }
		: { ok: false, hint: kept.hint };
}
