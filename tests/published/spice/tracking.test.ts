import { beforeAll, expect, test } from 'vitest';
import { Dice } from '../../random.ts';
import { Agreement } from './agreement.ts';
import { PATIENCE, type Spice, startSpice } from './engine.ts';
import { outputsOf } from './outputs.ts';

const CIRCUITS = 40;
/** Least capacitance of a gang section, pF. */
const OPEN_GANG = 10;

let spice: Spice;
beforeAll(async () => void (spice = await startSpice()), PATIENCE);

/** Where the tank takes no current from a voltage source: its resonance in Hz, looked for around a guess. */
async function resonance(tank: readonly string[], guess: number): Promise<number> {
	const POINTS = 401;
	const [from, to] = [guess * 0.97, guess * 1.03];
	const run = await spice.run([
		'V1 src 0 DC 0 AC 1',
		'Rsrc src top 1m',
		...tank,
		`.ac lin ${POINTS} ${from} ${to}`
	]);
	const drawn = run.get('i(v1)') ?? [];
	const least = drawn.indexOf(Math.min(...drawn.slice(1, -1)));
	const step = (to - from) / (POINTS - 1);
	// Current falls to nought and rises again on straight lines: the nought lies towards the smaller neighbour.
	const [before = NaN, at = NaN, after = NaN] = [drawn[least - 1], drawn[least], drawn[least + 1]];
	const left = before < after;
	const share = left ? -at / (at + before) : at / (at + after);
	return from + (least + share) * step;
}

/** Where the trimmer sits, and the node that it is soldered to. */
const TRIMMERS = [
	{ across: 'gang', method: 'three-point', node: 'mid' },
	{ across: 'coil', method: 'three-point, trimmer across the coil', node: 'top' }
] as const;

test.each(TRIMMERS)(
	`coil, padder and trimmer across the $across of ${CIRCUITS} sets tune a simulated tank to the error along the dial`,
	async ({ across, method, node }) => {
		const dice = new Dice(455);
		const agreement = new Agreement(`the oscillator along the dial, trimmer across the ${across}`);
		for (let i = 0; i < CIRCUITS; i++) {
			const coil = dice.between(160, 220);
			const trimmer = dice.between(20, 60);
			const IF_kHz = dice.one([450, 455, 465, 470, 472]);
			const points = [dice.between(560, 640), dice.between(900, 1100), dice.between(1350, 1500)];
			// A gang has some picofarads when it is open: no dial reaches beyond them.
			const open = (trimmer + OPEN_GANG) * 1e-12;
			const end = 1e-3 / (2 * Math.PI * Math.sqrt(coil * 1e-6 * open));
			const place = dice.between(540, Math.min(1600, end));
			const { L_osc_uH, C_padder_pF, T_osc_pF, err_kHz } = outputsOf('tracking', {
				method,
				L_signal_uH: coil,
				T_signal_pF: trimmer,
				IF_kHz,
				f_kHz: points,
				f_err_kHz: [place]
			});
			const [error = NaN] = Object.values(err_kHz as Record<string, number>);
			const ours = (place + IF_kHz + error) * 1e3;
			// The gang stands where the signal circuit is tuned to the place on the dial.
			const gang = 1e12 / ((2 * Math.PI * place * 1e3) ** 2 * coil * 1e-6) - trimmer;
			const theirs = await resonance(
				[
					`L1 top 0 ${Number(L_osc_uH)}u`,
					`Cpad top mid ${Number(C_padder_pF)}p`,
					`Cgang mid 0 ${gang}p`,
					`Ctrim ${node} 0 ${Number(T_osc_pF)}p`,
					// A way for direct current, too weak to matter.
					'Rmid mid 0 1e12'
				],
				ours
			);
			agreement.add(ours, theirs);
			expect(Math.abs(ours - theirs), `Hz off at ${place} kHz`).toBeLessThan(50);
		}
		agreement.print();
		expect(agreement.largest).toBeLessThan(2e-5);
	},
	PATIENCE
);
