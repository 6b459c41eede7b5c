import { expect, test } from 'vitest';
import { steer } from '../../../../src/lib/ui/receiver/steer.ts';

/** Two lanes that run together from left to right, and a supply below. */
const targets = [
	{ key: 'aerial', x: 0, y: 0 },
	{ key: 'tuner', x: 0, y: 100 },
	{ key: 'mixer', x: 100, y: 50 },
	{ key: 'output', x: 300, y: 50 },
	{ key: 'ht', x: 200, y: 200 }
];

test.each([
	['mixer', 'ArrowRight', 'output'],
	['output', 'ArrowLeft', 'mixer'],
	['aerial', 'ArrowDown', 'tuner'],
	['aerial', 'ArrowRight', 'mixer'],
	['output', 'ArrowDown', 'ht'],
	['output', 'Home', 'aerial'],
	['aerial', 'End', 'ht']
])('from %s, %s leads to %s', (from, key, to) => {
	expect(steer(targets, from, key)).toBe(to);
});

test('at the edge an arrow key leads nowhere, as does any other key', () => {
	expect(steer(targets, 'output', 'ArrowRight')).toBeUndefined();
	expect(steer(targets, 'mixer', 'a')).toBeUndefined();
	expect(steer(targets, 'gone', 'ArrowLeft')).toBeUndefined();
});
