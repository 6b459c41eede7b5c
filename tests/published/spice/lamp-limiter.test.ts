import { beforeAll, expect, test } from 'vitest';
import { Dice } from '../../random.ts';
import { Agreement } from './agreement.ts';
import { PATIENCE, type Spice, startSpice, valueOf } from './engine.ts';
import { outputsOf } from './outputs.ts';

const CIRCUITS = 70;

let spice: Spice;
beforeAll(async () => void (spice = await startSpice()), PATIENCE);

/** The law of a tungsten lamp as a source of volts that depend on the current through it; RMS values stand as direct ones. */
async function simulate(mains: number, watts: number, set: number) {
	const current = watts / mains;
	const run = await spice.run([
		`V1 wall 0 ${mains}`,
		'Vmeter wall lamp 0',
		`B1 lamp set V=${mains}*pow(abs(i(Vmeter))/${current},${1 / 0.55})`,
		`R1 set 0 ${set}`,
		'.op'
	]);
	return { volts: valueOf(run, 'v(set)'), current: Math.abs(valueOf(run, 'i(vmeter)')) };
}

test(
	`a set behind the lamp gets the volts and the current of ${CIRCUITS} simulated limiters`,
	async () => {
		const dice = new Dice(60);
		const volts = new Agreement('the volts behind a lamp limiter');
		const current = new Agreement('the current through a lamp limiter');
		const back = new Agreement('the set seen through a lamp limiter, by volts');
		const byCurrent = new Agreement('the set seen through a lamp limiter, by current');
		for (let i = 0; i < CIRCUITS; i++) {
			const mains = dice.between(210, 250);
			const watts = dice.one([25, 40, 60, 75, 100, 150]);
			const set = dice.ratio(150, 5e3);
			const theirs = await simulate(mains, watts, set);
			const lamp = { W_lamp: watts, V_mains: mains };
			const ours = outputsOf('lamp-limiter', { ...lamp, R_set_ohm: set });
			volts.add(Number(ours['V_set']), theirs.volts);
			current.add(Number(ours['I_A']), theirs.current);
			// Below a fifth of its volts the law of the lamp does not hold, and the sum gives a range instead.
			if (theirs.volts > 0.8 * mains) continue;
			const seen = outputsOf('lamp-limiter', { ...lamp, V_set: theirs.volts });
			back.add(Number(seen['R_set_ohm']), set);
			const metered = outputsOf('lamp-limiter', { ...lamp, I_A: theirs.current });
			byCurrent.add(Number(metered['R_set_ohm']), set);
		}
		for (const one of [volts, current, back, byCurrent]) one.print();
		expect(back.figures).toBeGreaterThanOrEqual(40);
		expect(byCurrent.largest).toBeLessThan(1e-3);
		expect(Math.max(volts.largest, current.largest)).toBeLessThan(1e-4);
		expect(back.largest).toBeLessThan(1e-3);
	},
	PATIENCE
);
