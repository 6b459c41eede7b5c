import { describe, expect, test } from 'vitest';
import { calculations, picturesOf, runCalculation } from '../../../src/lib/calculations/index.ts';
import { chainBackward, chainForward } from '../../../src/lib/calculations/supply-ladder.ts';
import { Dice } from '../../random.ts';

function answerOf(given: Record<string, unknown>) {
	const answer = runCalculation('supply-chain', given);
	if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join('; '));
	return answer;
}

const problemOf = (given: Record<string, unknown>): string => {
	const answer = runCalculation('supply-chain', given);
	return answer.ok ? '' : (answer.problems[0]?.message ?? '');
};

/** A chain that leaves volts at its end: resistor, current tapped, now and then a bleeder. */
const chainOf = (dice: Dice) =>
	Array.from({ length: dice.whole(1, 6) }, () => ({
		resistance: dice.ratio(100, 5000),
		tap: dice.between(0, 0.004),
		bleeder: dice.share() < 0.3 ? dice.ratio(50e3, 1e6) : undefined
	}));

describe('the ladder', () => {
	test('the volts of a chain lead back to its currents', () => {
		const dice = new Dice(21);
		for (let i = 0; i < 200; i++) {
			const sections = chainOf(dice);
			const forward = chainForward(300, sections);
			const back = chainBackward(
				300,
				sections,
				forward.map(({ volts }) => volts)
			);
			forward.forEach(({ tapped, through }, k) => {
				expect(back[k]?.tapped).toBeCloseTo(tapped, 9);
				expect(back[k]?.through).toBeCloseTo(through, 9);
			});
		}
	});

	test('nodes that nobody measured are taken to draw what they should', () => {
		const dice = new Dice(22);
		for (let i = 0; i < 200; i++) {
			const sections = chainOf(dice).map(({ resistance, tap }) => ({ resistance, tap }));
			const forward = chainForward(300, sections);
			const some = forward.map(({ volts }) => (dice.share() < 0.5 ? volts : undefined));
			const back = chainBackward(300, sections, some);
			forward.forEach(({ tapped, volts }, k) => {
				expect(back[k]?.tapped).toBeCloseTo(tapped, 9);
				expect(back[k]?.volts).toBeCloseTo(volts, 6);
			});
		}
	});

	test('what flows in is what is tapped, and the drops and the end add up to the supply', () => {
		const dice = new Dice(23);
		for (let i = 0; i < 100; i++) {
			const sections = chainOf(dice);
			const nodes = chainForward(250, sections);
			const tapped = nodes.reduce((sum, node) => sum + node.tapped, 0);
			expect(tapped).toBeCloseTo(nodes[0]?.through ?? NaN, 9);
			const drops = nodes.reduce((sum, node, k) => sum + node.through * (sections[k]?.resistance ?? NaN), 0);
			expect(drops + (nodes.at(-1)?.volts ?? NaN)).toBeCloseTo(250, 6);
		}
	});
});

describe('which branch draws more than it should', () => {
	test('a leak at any node is found at that node', () => {
		const dice = new Dice(24);
		for (let i = 0; i < 100; i++) {
			const sections = Array.from({ length: 4 }, () => ({
				R_ohm: dice.ratio(200, 1500),
				I_mA: dice.between(4, 10)
			}));
			const bad = dice.whole(0, 3);
			const leaking = sections.map(({ R_ohm, I_mA }, k) => ({
				resistance: R_ohm,
				tap: (k === bad ? I_mA + 20 : I_mA) / 1000
			}));
			const seen = chainForward(300, leaking).map(({ volts }) => volts);
			const { outputs, verdict } = answerOf({
				V_supply: 300,
				R_tol_pct: 5,
				sections: sections.map((section, k) => ({ ...section, V_seen: seen[k] }))
			});
			expect([verdict, outputs['branch']]).toEqual(['draws-too-much', `node ${bad + 1}`]);
			expect(outputs['excess_mA']).toBeCloseTo(20, 6);
		}
	});

	test('what the tolerance of the resistors explains is held against nobody', () => {
		const sections = [
			[1000, 4, null, null, 256],
			[1000, 36, null, null, 220]
		];
		const tight = answerOf({ V_supply: 300, R_tol_pct: 0, sections });
		const loose = answerOf({ V_supply: 300, R_tol_pct: 10, sections });
		expect([tight.verdict, loose.verdict]).toEqual(['draws-too-much', 'ok']);
	});

	test('volts without anything to compare give currents and no verdict', () => {
		const answer = answerOf({ V_supply: 270, sections: [[1200, null, null, null, 210]] });
		expect(answer.outputs['I_total_mA']).toBeCloseTo(50, 9);
		expect(answer).not.toHaveProperty('verdict');
	});
});

describe('readings that contradict each other get a sentence and no verdict', () => {
	test.each([
		[
			'volts that rise along the chain',
			[
				[1000, 20, null, null, 240],
				[1000, 5, null, null, 245]
			],
			'uphill'
		],
		['volts above the supply', [[1000, 20, null, null, 310]], 'uphill'],
		[
			'a sheet whose volts rise',
			[
				[1000, 20, null, 240],
				[1000, 5, null, 250]
			],
			'V_service'
		],
		[
			'more current away from a node than into it',
			[
				[1000, 20, null, null, 290],
				[1000, 5, null, null, 250]
			],
			'measure both cold'
		],
		['more current than the chain can carry', [[10000, 40]], 'below zero'],
		['a node of which nothing is known', [[1000, 20], [1000]], 'node 2 has neither']
	])('%s', (_, sections, part) => {
		expect(problemOf({ V_supply: 300, sections })).toContain(part);
	});
});

test('the pictures show volts, currents and watts, expected and measured', () => {
	const pictures = picturesOf(calculations['supply-chain'], {
		V_supply: 270,
		sections: [
			[1200, 30, null, null, 180],
			[10000, 2, null, null, 160]
		]
	});
	expect(pictures.map(({ y }) => y.unit)).toEqual(['V', 'mA', 'W']);
	expect(pictures[0]?.curves.map(({ label }) => label)).toEqual(['expected', 'measured']);
	expect(pictures[0]?.curves[1]?.points.map(([, volts]) => Math.round(volts))).toEqual([270, 180, 160]);
});
