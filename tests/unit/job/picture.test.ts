import { describe, expect, test } from 'vitest';
import { hashOfBytes, bytesMatch } from '../../../src/lib/job/hash.ts';
import { fromBase64, toBase64 } from '../../../src/lib/job/base64.ts';
import { pictureSize } from '../../../src/lib/job/picture.ts';
import { picturesOf, picturesOfChange } from '../../../src/lib/job/pictured.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import { changedLines } from '../../../src/lib/job/report-changes.ts';
import { ownerPage } from '../../../src/lib/job/report-owner.ts';
import { changePictures, reportPictures } from '../../../src/lib/job/report-pictures.ts';
import { PICTURE, pictured } from './everything.ts';
import { digest, opened, snapshot } from './log.ts';

const bytes = (...list: (number | string)[]): ArrayBuffer =>
	new Uint8Array(
		list.flatMap((one) => (typeof one === 'string' ? [...one].map((letter) => letter.charCodeAt(0)) : [one]))
	).buffer;
const zeros = (count: number): number[] => Array.from({ length: count }, () => 0);

describe('the size of a picture stands in its head', () => {
	test.each<[string, ArrayBuffer, object | undefined]>([
		[
			'a lossy WebP',
			bytes(
				'RIFF',
				...zeros(4),
				'WEBPVP8 ',
				...zeros(4),
				0,
				0,
				0,
				0x9d,
				0x01,
				0x2a,
				0x40,
				0x06,
				0xb0,
				0x04,
				0,
				0
			),
			{ type: 'image/webp', width: 1600, height: 1200 }
		],
		['a lossless WebP', PICTURE.bytes, { type: 'image/webp', width: 1, height: 1 }],
		[
			'an extended WebP',
			bytes('RIFF', ...zeros(4), 'WEBPVP8X', ...zeros(8), 0x3f, 0x06, 0x00, 0xaf, 0x04, 0x00),
			{ type: 'image/webp', width: 1600, height: 1200 }
		],
		[
			'a JPEG behind another segment',
			bytes(0xff, 0xd8, 0xff, 0xe0, 0, 4, 1, 1, 0xff, 0xc2, 0, 17, 8, 0x04, 0xb0, 0x06, 0x40, ...zeros(8)),
			{ type: 'image/jpeg', width: 1600, height: 1200 }
		],
		['a PNG', bytes(0x89, 'PNG\r\n', ...zeros(40)), undefined],
		['a page', bytes('<html><script>alert(1)</script></html>   '), undefined],
		['a JPEG that breaks off', bytes(0xff, 0xd8, 0xff, 0xe0, 0, 4), undefined],
		['a JPEG with a segment of no length', bytes(0xff, 0xd8, 0xff, 0xe0, 0, 0, 0, 0), undefined],
		['nothing', bytes(), undefined]
	])('%s', (_, given, size) => {
		expect(pictureSize(given)).toEqual(size);
	});
});

describe('bytes have a name', () => {
	const some = new TextEncoder().encode('foobar');

	// FNV-1a of "foobar", 64 bits, as in the test of the flows' hashes.
	test('without SHA-256 it is FNV-1a', async () => {
		expect(await hashOfBytes(some, undefined)).toBe('fnv:85944171f73967e8');
	});

	test('half a million bytes are named as one by one', async () => {
		const many = Uint8Array.from({ length: 500_000 }, (_, index) => (index * 7919) % 256);
		let hash = 0xcbf29ce484222325n;
		for (const byte of many) hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * 0x100000001b3n);
		expect(await hashOfBytes(many, undefined)).toBe(`fnv:${hash.toString(16).padStart(16, '0')}`);
	});

	test('a page without SHA-256 cannot tell a sha256 name from another', async () => {
		const name = await hashOfBytes(some, digest);
		expect(name).toMatch(/^sha256:[0-9a-f]{64}$/);
		expect([await bytesMatch(name, some, digest), await bytesMatch(name, some, undefined)]).toEqual([
			true,
			undefined
		]);
		expect(await bytesMatch(name, some.slice(1), digest)).toBe(false);
	});

	test('they come back from a file byte for byte', () => {
		const many = Uint8Array.from({ length: 100_001 }, (_, index) => (index * 104_729) % 256);
		expect(fromBase64(toBase64(many))).toEqual(many);
		expect(fromBase64('no base64 at all')).toBeUndefined();
	});
});

describe('a picture in a job', () => {
	const step = { kind: 'step', step: 'grid-volts' } as const;

	test('belongs to its subject, and is named in the trail and the report', async () => {
		const kept = await snapshot();
		const log = opened(kept);
		log.add('pictured', pictured({ caption: 'Burnt' }));
		log.add('pictured', pictured({ of: { kind: 'change', part: 'cc-leak', when: 'before' } }));
		log.add('pictured', pictured({ of: { kind: 'diagram' } }));
		const state = replay(log.events, { snapshots: { [kept.hash]: kept.library } });
		expect(state.warnings).toEqual([]);
		expect(picturesOf(state, step)).toMatchObject([{ caption: 'Burnt', picture: PICTURE.hash }]);
		expect(picturesOf(state, { kind: 'change', part: 'cc-leak', when: 'after' })).toEqual([]);
		expect(state.trail.slice(-3).map(({ what }) => what)).toEqual([
			'Picture: Volts on the output grid',
			'Picture: coupling capacitor: leaky, before the change',
			'Picture: the circuit diagram'
		]);
		expect(reportPictures(state).map(({ what, caption }) => [what, caption])).toEqual([
			['Volts on the output grid', 'Burnt'],
			['Coupling capacitor: leaky, before the change', undefined],
			['The circuit diagram', undefined]
		]);
	});

	test('gets another caption in its place, and is gone once it is taken back', async () => {
		const log = opened(await snapshot());
		log.add('pictured', pictured());
		const again = log.add('pictured', pictured({ caption: 'Tag 3' }));
		const shelf = { snapshots: {} };
		expect(picturesOf(replay(log.events, shelf), step)).toMatchObject([{ event: again, caption: 'Tag 3' }]);
		log.undo(again);
		const state = replay(log.events, shelf);
		expect(picturesOf(state, step)).toEqual([]);
		expect(state.trail.at(-1)).toMatchObject({ event: again, undone: true });
	});
});

describe('pictures of a change', () => {
	const FLOW = 'am-faint';
	const numbered = (number: number) => `fnv:${String(number).padStart(16, '0')}`;
	const of = (part: string, when: 'before' | 'after') => ({ kind: 'change', part, when }) as const;

	test('stand at their change in the report, on both sheets, and nowhere else', async () => {
		const kept = await snapshot();
		const log = opened(kept);
		log.add('pictured', pictured({ picture: numbered(1), of: of('cc-leak', 'before') }));
		log.repair(FLOW, 'cc-leak', 'cured');
		log.add('pictured', pictured({ picture: numbered(2), of: of('cc-leak', 'after') }));
		log.add('pictured', pictured({ picture: numbered(3), of: { kind: 'set' } }));
		const state = replay(log.events, { snapshots: { [kept.hash]: kept.library } });
		const [line] = changedLines(state);
		expect(line?.pictures?.map(({ picture, what }) => [picture, what])).toEqual([
			[numbered(1), 'Coupling capacitor: leaky, before the change'],
			[numbered(2), 'Coupling capacitor: leaky, after the change']
		]);
		const done = ownerPage(state).find(({ id }) => id === 'done');
		expect(done?.lines[0]?.pictures).toEqual(line?.pictures);
		expect(reportPictures(state).map(({ picture }) => picture)).toEqual([numbered(3)]);
	});

	test('of a part that is changed twice: before goes to the next change, after to the last one', async () => {
		const kept = await snapshot();
		const log = opened(kept);
		log.add('pictured', pictured({ picture: numbered(1), of: of('cc-leak', 'before') }));
		log.repair(FLOW, 'cc-leak', 'unchanged');
		log.add('pictured', pictured({ picture: numbered(2), of: of('cc-leak', 'after') }));
		log.add('pictured', pictured({ picture: numbered(3), of: of('cc-leak', 'before') }));
		log.repair(FLOW, 'cc-leak', 'cured');
		log.add('pictured', pictured({ picture: numbered(4), of: of('cc-leak', 'after') }));
		// A caption given later leaves the picture where it was.
		log.add(
			'pictured',
			pictured({ picture: numbered(1), of: of('cc-leak', 'before'), caption: 'Cracked at one end' })
		);
		const state = replay(log.events, { snapshots: { [kept.hash]: kept.library } });
		const sorted = [...changePictures(state).values()].map((pictures) =>
			pictures.map(({ picture }) => picture)
		);
		expect(sorted).toEqual([
			[numbered(1), numbered(2)],
			[numbered(3), numbered(4)]
		]);
	});

	test('are the same for a suspect of the trace and for its part on the list', async () => {
		const kept = await snapshot();
		const log = opened(kept);
		log.add('pictured', pictured({ of: of('cc-leak', 'before') }));
		log.add('part-listed', { part: 'own-c12', name: 'C12', kind: 'paper', suspects: ['cc-leak'] });
		log.add('pictured', pictured({ picture: numbered(2), of: of('own-c12', 'before') }));
		log.add('part-listed', { part: 'own-c13', name: 'C13', kind: 'paper' });
		log.add('pictured', pictured({ picture: numbered(3), of: of('own-c13', 'before') }));
		log.repair(FLOW, 'cc-leak', 'cured');
		const state = replay(log.events, { snapshots: { [kept.hash]: kept.library } });
		for (const part of ['cc-leak', 'own-c12'])
			expect(picturesOfChange(state, part, 'before')).toHaveLength(2);
		expect(changedLines(state)[0]?.pictures).toHaveLength(2);
		// Nothing was changed at C13: its picture stands with the others.
		expect(reportPictures(state).map(({ what }) => what)).toEqual(['C13, before the change']);
	});

	test('of a test point is called by the name of the point', async () => {
		const kept = await snapshot();
		const log = opened(kept);
		const point = { kind: 'point', point: 'output.grid' } as const;
		log.add('pictured', pictured({ of: point }));
		const state = replay(log.events, { snapshots: { [kept.hash]: kept.library } });
		expect(state.trail.at(-1)?.what).toBe('Picture: Grid of the output valve');
		expect(picturesOf(state, point)).toHaveLength(1);
		expect(picturesOf(state, { kind: 'point', point: 'output.anode' })).toEqual([]);
	});
});
