import { beforeAll, expect, test } from 'vitest';
import { Dice } from '../../random.ts';
import { Agreement } from './agreement.ts';
import { PATIENCE, type Spice, startSpice, valueOf } from './engine.ts';
import { outputsOf } from './outputs.ts';

const CIRCUITS = 40;
const COIL = 1.1e-3;

let spice: Spice;
beforeAll(async () => void (spice = await startSpice()), PATIENCE);

interface Can {
	middle: number;
	q1: number;
	q2: number;
	coupling: number;
	/** How far each winding is off tune, Hz. */
	off1: number;
	off2: number;
}

/** Volts on the secondary for 1 A into the primary, at a frequency in Hz. */
async function simulate({ middle, q1, q2, coupling, off1, off2 }: Can, frequency: number): Promise<number> {
	const capacitor = (off: number): number => 1 / ((2 * Math.PI * (middle + off)) ** 2 * COIL);
	const damping = (q: number): number => q * 2 * Math.PI * middle * COIL;
	const run = await spice.run([
		'I1 0 p DC 0 AC 1',
		`L1 p 0 ${COIL}`,
		`C1 p 0 ${capacitor(off1)}`,
		`R1 p 0 ${damping(q1)}`,
		`L2 s 0 ${COIL}`,
		`C2 s 0 ${capacitor(off2)}`,
		`R2 s 0 ${damping(q2)}`,
		`K1 L1 L2 ${coupling}`,
		`.ac lin 1 ${frequency} ${frequency}`
	]);
	return valueOf(run, 'v(s)');
}

const db = (ratio: number): number => 20 * Math.log10(ratio);

test(
	`${CIRCUITS} IF cans pass what simulated coupled circuits pass, on tune and off`,
	async () => {
		const dice = new Dice(4550);
		const gain = new Agreement('the gain of an IF can');
		const apart: number[] = [];
		for (let i = 0; i < CIRCUITS; i++) {
			const middle = dice.one([455e3, 465e3, 470e3, 10.7e6]);
			const [q1, q2] = [dice.ratio(50, 150), dice.ratio(50, 150)];
			const coupling = dice.ratio(0.4, 2) / Math.sqrt(q1 * q2);
			const half = middle / (2 * Math.sqrt(q1 * q2));
			const detuned = dice.one([undefined, 'primary', 'secondary', 'both', 'both, opposite ways']);
			const by = dice.between(-half, half);
			const off = dice.between(-2, 2) * half;
			const outputs = outputsOf('if-transformer', {
				f0_kHz: middle / 1e3,
				Q1: q1,
				Q2: q2,
				k: coupling,
				off_kHz: Math.abs(off) / 1e3,
				...(detuned && { detuned, by_kHz: (Math.sign(off) * by) / 1e3 })
			});
			const onTune: Can = { middle, q1, q2, coupling, off1: 0, off2: 0 };
			const moved = Math.sign(off) * by;
			const asIs: Can = {
				...onTune,
				off1: detuned === undefined || detuned === 'secondary' ? 0 : moved,
				off2:
					detuned === undefined || detuned === 'primary'
						? 0
						: detuned === 'both, opposite ways'
							? -moved
							: moved
			};
			const top = await simulate(onTune, middle);
			const there = await simulate(asIs, middle + Math.abs(off));
			apart.push(Math.abs(Number(outputs['dB_off']) - db(there / top)));
			const impedance = Math.sqrt(q1 * q2) * 2 * Math.PI * middle * COIL;
			gain.add(Number(outputs['gain_over_Z']), top / impedance);
		}
		gain.print();
		const worst = Math.max(...apart);
		console.log(
			`SPICE agrees on the response of an IF can: ${apart.length} figures, largest difference ${worst.toFixed(3)} dB`
		);
		// The formula leaves out what moves with f / f0 within the band: a few hundredths of the width over the IF.
		expect(worst).toBeLessThan(0.5);
		expect(gain.largest).toBeLessThan(0.01);
	},
	PATIENCE
);
