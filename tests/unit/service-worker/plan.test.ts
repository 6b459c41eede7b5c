import { expect, test } from 'vitest';
import { isOurs, precached } from '../../../src/service-worker/plan.ts';

const at = (url: string, method = 'GET') => isOurs({ url, method }, 'https://bench.example', '/radio');

test('large lazy files stay out of the first visit', () => {
	expect(precached(['/radio/a.js', '/radio/_app/workers/engine.js'])).toEqual(['/radio/a.js']);
	expect(at('https://bench.example/radio/_app/workers/engine.js')).toBe(false);
});

test('the worker that advises is there without a network', () => {
	const worker = '/radio/_app/immutable/workers/advice-worker-a1.js';
	expect(precached([worker])).toEqual([worker]);
	expect(at(`https://bench.example${worker}`)).toBe(true);
});

test('what the app itself reads is answered from the store', () => {
	expect(at('https://bench.example/radio/flow/x/')).toBe(true);
});

test('writing, other sites and neighbours on the same site go to the network', () => {
	expect(at('https://bench.example/radio/', 'POST')).toBe(false);
	expect(at('https://elsewhere.example/radio/')).toBe(false);
	expect(at('https://bench.example/radiogram/')).toBe(false);
});
