import { beforeAll, expect, test } from 'vitest';
import { Dice } from '../../random.ts';
import { Agreement } from './agreement.ts';
import { PATIENCE, type Spice, startSpice, valueOf } from './engine.ts';
import { outputsOf } from './outputs.ts';

const CIRCUITS = 40;

interface Section {
	resistance: number;
	/** A, drawn at its end. */
	tap: number;
	/** From its end to chassis, ohm. */
	bleeder: number | undefined;
}

let spice: Spice;
beforeAll(async () => void (spice = await startSpice()), PATIENCE);

/** One to six sections, each losing 2 to 6 % of the supply by the currents tapped beyond it. */
function draw(dice: Dice) {
	const supply = dice.between(150, 400);
	const taps = Array.from({ length: dice.whole(1, 6) }, () => dice.ratio(0.2e-3, 40e-3));
	const sections: Section[] = taps.map((tap, i) => {
		const beyond = taps.slice(i).reduce((sum, one) => sum + one, 0);
		return {
			resistance: (dice.between(0.02, 0.06) * supply) / beyond,
			tap,
			bleeder: dice.share() < 0.4 ? dice.ratio(220e3, 2.2e6) : undefined
		};
	});
	return { supply, sections };
}

async function simulate(supply: number, sections: readonly Section[]): Promise<number[]> {
	const run = await spice.run([
		`V1 n0 0 ${supply}`,
		...sections.flatMap(({ resistance, tap, bleeder }, i) => [
			`R${i} n${i} n${i + 1} ${resistance}`,
			`I${i} n${i + 1} 0 ${tap}`,
			...(bleeder ? [`Rb${i} n${i + 1} 0 ${bleeder}`] : [])
		]),
		'.op'
	]);
	return sections.map((_, i) => valueOf(run, `v(n${i + 1})`));
}

const rowsOf = (sections: readonly Section[], more: (i: number) => object = () => ({})) =>
	sections.map(({ resistance, tap, bleeder }, i) => ({
		R_ohm: resistance,
		I_mA: tap * 1e3,
		R_tap_ohm: bleeder ?? null,
		...more(i)
	}));

test(
	`${CIRCUITS} HT chains of one to six sections stand at the volts of a simulator`,
	async () => {
		const dice = new Dice(27);
		const agreement = new Agreement('the volts along a supply chain');
		for (let i = 0; i < CIRCUITS; i++) {
			const { supply, sections } = draw(dice);
			const theirs = await simulate(supply, sections);
			const { nodes } = outputsOf('supply-chain', { V_supply: supply, sections: rowsOf(sections) });
			const ours = (nodes as { V: number }[]).map(({ V }) => V);
			expect(ours).toHaveLength(theirs.length);
			for (const [k, volts] of theirs.entries()) agreement.add(ours[k] ?? NaN, volts);
		}
		agreement.print();
		expect(agreement.largest).toBeLessThan(1e-6);
	},
	PATIENCE
);

test(
	`a leak hidden in one branch of ${CIRCUITS} simulated chains is found in that branch`,
	async () => {
		const dice = new Dice(28);
		for (let i = 0; i < CIRCUITS; i++) {
			const { supply, sections } = draw(dice);
			const bad = dice.whole(0, sections.length - 1);
			// A resistance that would draw as much as all branches together, so that it cannot hide in the tolerance of the resistors.
			const leak = supply / sections.reduce((sum, { tap }) => sum + tap, 0);
			const leaky = sections.map((one, k) =>
				k === bad ? { ...one, bleeder: 1 / (1 / leak + 1 / (one.bleeder ?? Infinity)) } : one
			);
			const seen = await simulate(supply, leaky);
			const rows = rowsOf(sections, (k) => ({ V_seen: seen[k] }));
			const { branch, excess_mA } = outputsOf('supply-chain', { V_supply: supply, sections: rows });
			const { nodes } = outputsOf('supply-chain', { V_supply: supply, sections: rowsOf(sections) });
			expect(branch).toBe((nodes as { node: string }[])[bad]?.node);
			expect(Number(excess_mA)).toBeGreaterThan(0);
		}
		console.log(`SPICE hides a leak in ${CIRCUITS} supply chains: found in the right branch of each`);
	},
	PATIENCE
);
