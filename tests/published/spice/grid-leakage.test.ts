import { beforeAll, expect, test } from 'vitest';
import { Dice } from '../../random.ts';
import { Agreement } from './agreement.ts';
import { PATIENCE, type Spice, startSpice, valueOf } from './engine.ts';
import { outputsOf } from './outputs.ts';

const CIRCUITS = 40;

let spice: Spice;
beforeAll(async () => void (spice = await startSpice()), PATIENCE);

/** A leaky capacitor from HT to a grid with its leak, and a meter on the grid. */
async function simulate(feed: number, leak: number, grid: number, meter: number) {
	const run = await spice.run([
		`V1 ht 0 ${feed}`,
		`Rleak ht grid ${leak}`,
		`Rgrid grid 0 ${grid}`,
		`Rmeter grid 0 ${meter}`,
		// The same circuit without the meter beside it, so that both are read in one run.
		`Rleak2 ht free ${leak}`,
		`Rgrid2 free 0 ${grid}`,
		'.op'
	]);
	return { read: valueOf(run, 'v(grid)'), resting: valueOf(run, 'v(free)') };
}

test(
	`a simulator reads the same grid volts with a meter on ${CIRCUITS} leaky capacitors, and the same without`,
	async () => {
		const dice = new Dice(20260);
		const agreement = new Agreement('grid leakage with a meter');
		for (let i = 0; i < CIRCUITS; i++) {
			const feed = dice.between(40, 400);
			const leak = dice.ratio(0.5e6, 1e10);
			const grid = dice.ratio(100e3, 10e6);
			const meter = dice.ratio(1e6, 100e6);
			const { read, resting } = await simulate(feed, leak, grid, meter);
			const outputs = outputsOf('grid-leakage', {
				V_feed: feed,
				R_leak_ohm: leak,
				R_grid_ohm: grid,
				R_meter_ohm: meter
			});
			agreement.add(Number(outputs['V_grid']), read);
			agreement.add(Number(outputs['V_grid_no_meter']), resting);
		}
		agreement.print();
		expect(agreement.largest).toBeLessThan(1e-8);
	},
	PATIENCE
);
