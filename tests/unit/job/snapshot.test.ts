import { describe, expect, test } from 'vitest';
import { resolveFlow } from '../../../src/lib/flow/resolve.ts';
import { trace, standings } from '../../../src/lib/flow/trace.ts';
import { fnv1a64 } from '../../../src/lib/job/hash.ts';
import { canonicalText, hashOf, matchesHash, snapshotOf } from '../../../src/lib/job/snapshot.ts';
import { digest, snapshot } from './log.ts';
import { tiny, tinyWith } from './tiny.ts';

const [flow, plan] = [tiny.flows['am-faint']!, tiny.plans['tiny']!];

describe('what a job keeps of a flow', () => {
	const least = snapshotOf(tiny, flow, plan);

	test('is the flow and its plan with their suspects, steps, cautions and sources, and no more', () => {
		expect(Object.keys(least.flows)).toEqual(['am-faint']);
		expect(Object.keys(least.steps).sort()).toEqual([
			'anode-volts',
			'coil-ohms',
			'grid-lifted',
			'grid-volts',
			'hear-am'
		]);
		expect(Object.keys(least.suspects).sort()).toEqual(['aerial-open', 'cc-leak', 'ht-low', 'socket']);
		expect(Object.keys(least.cautions).sort()).toEqual(['charged', 'live-work']);
		expect(Object.keys(least.sources)).toEqual(['BOOK']);
	});

	test('resolves to the same suspects, weights and steps as the whole library', () => {
		const [whole, kept] = [
			resolveFlow(tiny, flow, plan),
			resolveFlow(least, least.flows['am-faint']!, least.plans['tiny']!)
		];
		const sorted = (resolved: typeof whole) => [...resolved.suspects].sort((a, b) => (a.id < b.id ? -1 : 1));
		expect(sorted(kept)).toEqual(sorted(whole));
		expect(kept.steps).toEqual(whole.steps);
		const ranked = (resolved: typeof whole) =>
			standings(trace(resolved, { answers: [{ step: 'grid-volts', outcome: 'positive' }], mended: [] })).map(
				({ id }) => id
			);
		expect(ranked(kept)).toEqual(ranked(whole));
	});

	test("keeps outcomes in the author's order", () => {
		const step = least.steps['grid-volts']!;
		expect(Object.keys('outcomes' in step ? step.outcomes : {})).toEqual(['positive', 'zero']);
	});
});

describe('its hash', () => {
	test('is one for one content, in whatever order the files were read', async () => {
		const turned = tinyWith(
			(library) => (library.steps = Object.fromEntries(Object.entries(library.steps).reverse()))
		);
		expect((await snapshot('am-faint', turned)).hash).toBe((await snapshot()).hash);
		expect(canonicalText(turned)).toBe(canonicalText(tiny));
	});

	test('another word in a step, another hash; a step of another flow, the same', async () => {
		const { hash } = await snapshot();
		expect(
			(
				await snapshot(
					'am-faint',
					tinyWith(({ steps }) => void (steps['hear-am']!.text = 'Do that.'))
				)
			).hash
		).not.toBe(hash);
		expect(
			(
				await snapshot(
					'am-faint',
					tinyWith(({ steps }) => void (steps['unused']!.text = 'Do that.'))
				)
			).hash
		).toBe(hash);
	});

	test('without SHA-256 it is marked as the weaker one', async () => {
		expect(await hashOf(tiny, digest)).toMatch(/^sha256:[0-9a-f]{64}$/);
		expect(await hashOf(tiny, undefined)).toMatch(/^fnv:[0-9a-f]{16}$/);
	});

	// Values for the 64-bit FNV-1a of these strings: from memory of the authors' test vectors.
	test.each([
		['', 'cbf29ce484222325'],
		['a', 'af63dc4c8601ec8c'],
		['foobar', '85944171f73967e8']
	])('FNV-1a of "%s" is %s', (text, hash) => expect(fnv1a64(text)).toBe(hash));

	test('a changed library does not match; a page without SHA-256 cannot tell', async () => {
		const kept = await snapshot();
		const changed = { ...kept, library: { ...kept.library, steps: {} } };
		expect(await matchesHash(kept, digest)).toBe(true);
		expect(await matchesHash(changed, digest)).toBe(false);
		expect(await matchesHash(changed, undefined)).toBeUndefined();
		const weak = { hash: await hashOf(tiny, undefined), library: tiny };
		expect(await matchesHash(weak, undefined)).toBe(true);
	});
});
