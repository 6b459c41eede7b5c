import { beforeAll, describe, expect, test } from 'vitest';
import { PATIENCE, type Spice, startSpice, valueOf } from './engine.ts';

/** The simulator must be able to say no, else agreement with it means nothing. */
describe('the simulator as a witness', () => {
	let spice: Spice;
	beforeAll(async () => void (spice = await startSpice()), PATIENCE);

	test('a third of 9 V stands at 10 kohm below 20 kohm', async () => {
		const run = await spice.run(['V1 top 0 9', 'R1 top tap 20k', 'R2 tap 0 10k', '.op']);
		expect(valueOf(run, 'v(tap)')).toBeCloseTo(3, 9);
	});

	test('a part without a value is refused, and the next circuit runs again', async () => {
		await expect(spice.run(['V1 top 0 9', 'R1 top 0', '.op'])).rejects.toThrow();
		const run = await spice.run(['V1 top 0 9', 'R1 top 0 1k', '.op']);
		expect(valueOf(run, 'v(top)')).toBe(9);
	});

	test('a point that is not in the circuit is no reading of nought', async () => {
		const run = await spice.run(['V1 top 0 9', 'R1 top 0 1k', '.op']);
		expect(() => valueOf(run, 'v(grid)')).toThrow('no v(grid)');
	});
});
