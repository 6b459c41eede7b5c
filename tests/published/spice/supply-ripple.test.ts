import { beforeAll, expect, test } from 'vitest';
import { Dice } from '../../random.ts';
import { Agreement } from './agreement.ts';
import { PATIENCE, type Spice, startSpice, valueOf } from './engine.ts';
import { outputsOf } from './outputs.ts';

const CIRCUITS = 40;

let spice: Spice;
beforeAll(async () => void (spice = await startSpice()), PATIENCE);

/** R in ohm or L in henry, then C in farad. */
interface Section {
	resistance?: number;
	inductance?: number;
	capacitance: number;
}

/** What each section of a filter leaves of 1 V at a frequency, Hz. */
async function simulate(sections: readonly Section[], frequency: number): Promise<number[]> {
	const run = await spice.run([
		'V1 n0 0 DC 0 AC 1',
		...sections.flatMap(({ resistance, inductance, capacitance }, i) => [
			resistance === undefined
				? `L${i} n${i} n${i + 1} ${inductance}`
				: `R${i} n${i} n${i + 1} ${resistance}`,
			`C${i} n${i + 1} 0 ${capacitance}`
		]),
		`.ac lin 1 ${frequency} ${frequency}`
	]);
	return sections.map((_, i) => valueOf(run, `v(n${i + 1})`));
}

const resistor = (dice: Dice): Section => ({
	resistance: dice.ratio(220, 47e3),
	capacitance: dice.ratio(2e-6, 100e-6)
});

/** A choke well above resonance with its capacitor, as in any filter that filters. */
function choke(dice: Dice, frequency: number): Section {
	const inductance = dice.ratio(3, 30);
	const resonant = 1 / ((2 * Math.PI * frequency) ** 2 * inductance);
	return { inductance, capacitance: resonant * dice.ratio(6, 100) };
}

test(
	`${CIRCUITS} RC and ${CIRCUITS} LC sections leave the ripple of a simulator`,
	async () => {
		const dice = new Dice(1959);
		const agreements = { RC: new Agreement('RC sections'), LC: new Agreement('LC sections') };
		for (let i = 0; i < 2 * CIRCUITS; i++) {
			const kind = i < CIRCUITS ? 'RC' : 'LC';
			const f = dice.one([50, 60, 100, 120]);
			const section = kind === 'RC' ? resistor(dice) : choke(dice, f);
			const { ratio } = outputsOf('supply-ripple', {
				section: kind,
				...(kind === 'RC' ? { R_ohm: section.resistance } : { L_H: section.inductance }),
				C_uF: section.capacitance * 1e6,
				f
			});
			agreements[kind].add(Number(ratio), (await simulate([section], f))[0] ?? NaN);
		}
		agreements.RC.print();
		agreements.LC.print();
		expect(Math.max(agreements.RC.largest, agreements.LC.largest)).toBeLessThan(1e-6);
	},
	PATIENCE
);

test(
	`${CIRCUITS} filters of two to five sections, RC and LC mixed, load each other as in a simulator`,
	async () => {
		const dice = new Dice(1960);
		const agreement = new Agreement('filters of several sections');
		for (let i = 0; i < CIRCUITS; i++) {
			const f = dice.one([50, 100, 120]);
			const sections = Array.from({ length: dice.whole(2, 5) }, () =>
				dice.share() < 0.7 ? resistor(dice) : choke(dice, f)
			);
			const theirs = await simulate(sections, f);
			const { along } = outputsOf('supply-ripple', {
				f,
				sections: sections.map(({ resistance, inductance, capacitance }) => [
					resistance ?? null,
					inductance ?? null,
					capacitance * 1e6
				])
			});
			for (const [k, volts] of theirs.entries())
				agreement.add((along as { ratio: number }[])[k]?.ratio ?? NaN, volts);
		}
		agreement.print();
		expect(agreement.largest).toBeLessThan(1e-6);
	},
	PATIENCE
);

/** Steady direct volts and ripple of a full-wave rectifier: silicon diodes behind a resistance on each side. */
async function rectifier(volts: number, side: number, farad: number, current: number, mains: number) {
	const peak = volts * Math.SQRT2;
	const period = 1 / mains;
	// The reservoir starts charged, so that a few periods are enough.
	const run = await spice.run([
		`V1 a 0 SIN(0 ${peak} ${mains})`,
		`V2 b 0 SIN(0 ${-peak} ${mains})`,
		`R1 a c ${side}`,
		`R2 b d ${side}`,
		'D1 c out silicon',
		'D2 d out silicon',
		'.model silicon D(IS=1e-9 N=1.8)',
		`C1 out 0 ${farad} IC=${0.95 * peak}`,
		`I1 out 0 ${current}`,
		`.tran ${period / 400} ${40 * period} ${36 * period} ${period / 400} UIC`
	]);
	const time = run.get('time') ?? [];
	const out = run.get('v(out)') ?? [];
	const area = time.slice(1).reduce((sum, t, i) => {
		return sum + ((t - (time[i] ?? 0)) * ((out[i] ?? 0) + (out[i + 1] ?? 0))) / 2;
	}, 0);
	return {
		dc: area / ((time.at(-1) ?? 0) - (time[0] ?? 0)),
		pp: Math.max(...out) - Math.min(...out)
	};
}

test(
	`${CIRCUITS} windings with silicon rectifiers give the direct volts of a simulator within 3 %`,
	async () => {
		const dice = new Dice(1961);
		const dc = new Agreement('the direct volts of a rectifier');
		const pp = new Agreement('the ripple of a rectifier');
		for (let i = 0; i < CIRCUITS; i++) {
			const volts = dice.between(180, 350);
			const side = dice.ratio(20, 300);
			const current = dice.between(0.02, 0.08);
			const mains = dice.one([50, 60]);
			const farad = dice.ratio(16e-6, 64e-6);
			const theirs = await rectifier(volts, side, farad, current, mains);
			const ours = outputsOf('supply-ripple', {
				V_rms_per_half: volts,
				R_per_side_ohm: side,
				C_uF: farad * 1e6,
				I_dc_A: current,
				f_mains: mains
			});
			dc.add(Number(ours['V_dc']), theirs.dc);
			pp.add(Number(ours['V_pp']), theirs.pp);
		}
		dc.print();
		pp.print();
		expect(dc.largest).toBeLessThan(0.03);
		expect(pp.largest).toBeLessThan(0.1);
	},
	PATIENCE
);
