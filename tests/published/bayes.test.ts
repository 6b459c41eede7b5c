import { describe, expect, test } from 'vitest';
import {
	type Table,
	advise,
	entropy,
	expectedCostOfRepair,
	huffmanCost,
	informationGain,
	lookAheadFully,
	outcomeLikelihood,
	outcomeProbabilities,
	packed,
	posterior,
	repairOrder,
	update
} from '../../src/lib/suspects/index.ts';
import { clinic, CLINIC_FIGURES } from './chest-clinic.ts';
import { given, network } from './network.ts';

/* The mathematics of suspicion against published networks and textbook figures. */

describe('chest clinic', () => {
	test.each(CLINIC_FIGURES)('evidence $evidence has the chance $chance', ({ evidence, chance, chances }) => {
		expect(clinic.chanceOfEvidence(evidence)).toBeCloseTo(chance, 6);
		expect(clinic.chanceOfEvidence(evidence) / chance).toBeCloseTo(1, 5);
		['tub', 'lung', 'bronc', 'either', 'xray'].forEach((name, place) =>
			expect(clinic.chanceOf(name, evidence), name).toBeCloseTo(chances[place] ?? NaN, 6)
		);
	});

	test('answer by answer gives the same as all at once', () => {
		const rows = clinic.seen({ asia: true, dysp: true, xray: true });
		let evidence = 1;
		let standings = clinic.prior;
		for (const row of rows) {
			const after = update(standings, row);
			evidence *= after.evidence;
			standings = after.posterior;
		}
		expect(evidence).toBeCloseTo(0.000988227, 9);
		posterior(clinic.prior, rows).forEach((p, place) => expect(standings[place]).toBeCloseTo(p, 12));
	});
});

// Jensen and Nielsen 2007, p. 35: inputs and the printed answers (.71, .42, .999, .196) read in a public test file; the
// further digits are our own.
describe('car start', () => {
	const meters = ['full', 'half', 'empty'] as const;
	const states = [true, false].flatMap((fuel) =>
		[true, false].flatMap((clean) => meters.map((meter) => ({ fuel, clean, meter })))
	);
	const prior = states.map(({ fuel, clean, meter }) => {
		const shows = fuel ? { full: 0.39, half: 0.6, empty: 0.01 } : { full: 0.001, half: 0.001, empty: 0.998 };
		return (fuel ? 0.98 : 0.02) * (clean ? 0.96 : 0.04) * shows[meter];
	});
	const noStart = states.map(({ fuel, clean }) => 1 - (fuel ? (clean ? 0.99 : 0.01) : 0));
	const half = states.map(({ meter }) => (meter === 'half' ? 1 : 0));
	const chanceOf = (what: 'fuel' | 'clean', standings: readonly number[]) =>
		standings.reduce((sum, p, place) => (states[place]?.[what] ? sum + p : sum), 0);

	test('no start: fuel .71, plugs clean .42', () => {
		const after = update(prior, noStart);
		expect(after.evidence).toBeCloseTo(0.068216, 6);
		expect(chanceOf('fuel', after.posterior)).toBeCloseTo(0.7068, 4);
		expect(chanceOf('clean', after.posterior)).toBeCloseTo(0.4194, 4);
	});

	test('no start and the meter half: fuel .999, plugs clean .196', () => {
		const after = posterior(prior, [noStart, half]);
		expect(chanceOf('fuel', after)).toBeCloseTo(0.99931, 5);
		expect(chanceOf('clean', after)).toBeCloseTo(0.19565, 5);
	});
});

// Pearl's example; tables from memory, as is the usual printed answer 0.284.
test('burglary alarm: both neighbours ring, burglary 0.284', () => {
	const alarm = network({
		burglary: () => 0.001,
		earthquake: () => 0.002,
		alarm: ({ burglary, earthquake }) =>
			burglary ? given(earthquake, 0.95, 0.94) : given(earthquake, 0.29, 0.001),
		john: ({ alarm: rings }) => given(rings, 0.9, 0.05),
		mary: ({ alarm: rings }) => given(rings, 0.7, 0.01)
	});
	expect(alarm.chanceOf('burglary', { john: true, mary: true })).toBeCloseTo(0.284172, 6);
});

// Charniak 1991; tables read in a public .bif file, outputs by our own enumeration.
test('dog problem: light on and no bark, family out 0.5006', () => {
	const dog = network({
		out: () => 0.15,
		bowel: () => 0.01,
		dogOut: ({ bowel, out }) => (bowel ? given(out, 0.99, 0.97) : given(out, 0.9, 0.3)),
		light: ({ out }) => given(out, 0.6, 0.05),
		bark: ({ dogOut }) => given(dogOut, 0.7, 0.01)
	});
	const evidence = { light: true, bark: false };
	expect(dog.chanceOf('out', evidence)).toBeCloseTo(0.500552, 6);
	expect(dog.chanceOf('dogOut', evidence)).toBeCloseTo(0.42628, 6);
	expect(dog.chanceOfEvidence(evidence)).toBeCloseTo(0.0662351, 7);
});

type Choose = (standings: readonly number[], left: readonly number[]) => number | undefined;

/** Mean number of error-free checks until one suspect is left, when `choose` picks each. */
function meanChecks(prior: readonly number[], tables: readonly Table[], choose: Choose): number {
	const from = (standings: readonly number[], left: readonly number[]): number => {
		const pick = choose(standings, left);
		if (pick === undefined) return 0;
		return afterCheck(standings, tables[pick] ?? [], (after) =>
			from(
				after,
				left.filter((place) => place !== pick)
			)
		);
	};
	return from(
		prior,
		tables.map((_, place) => place)
	);
}

/** 1 for the check and what is still to come after each of its outcomes. */
function afterCheck(
	standings: readonly number[],
	table: Table,
	rest: (after: readonly number[]) => number
): number {
	const chances = outcomeProbabilities(standings, table);
	return chances.reduce(
		(cost, p, o) =>
			p > 0 ? cost + p * rest(update(standings, outcomeLikelihood(table, o)).posterior) : cost,
		1
	);
}

/** Chooses by our own advice: bits per minute, at unit cost. */
function byAdvice(tables: readonly Table[]): Choose {
	const switching = { bench: { bench: 0 } };
	const check = (place: number) => ({
		id: String(place).padStart(3, '0'),
		minutes: 1,
		power: 'bench' as const,
		table: packed(tables[place] ?? [])
	});
	return (standings, left) => {
		const [best] = advise({ standings, checks: left.map(check), now: { power: 'bench' }, switching });
		return best && Number(best.id);
	};
}

// Pattipati and Alexandridis / Raghavan and others: inputs and the optimum 2.18 from memory, the optimum confirmed by
// exact dynamic programming of our own, which is done again here.
describe('test sequencing', () => {
	const prior = [0.7, 0.01, 0.02, 0.1, 0.05, 0.12];
	const signatures = ['00000', '01001', '00110', '10011', '11000', '11110'];
	const tables = [0, 1, 2, 3, 4].map((place) =>
		signatures.map((row) => (row[place] === '1' ? [0, 1] : [1, 0]))
	);

	test('gains at the start are .8415 .6801 .5842 .7950 .4999 bits', () => {
		const gains = tables.map((table) => informationGain(prior, table));
		[0.8415, 0.6801, 0.5842, 0.795, 0.4999].forEach((gain, place) =>
			expect(gains[place]).toBeCloseTo(gain, 4)
		);
	});

	test('the entropy is 1.454873 bits and the Huffman bound 1.59 checks', () => {
		expect(entropy(prior)).toBeCloseTo(1.454873, 6);
		expect(huffmanCost(prior)).toBeCloseTo(1.59, 12);
	});

	test('bits alone begin with the first test and need 2.86 checks', () => {
		expect(byAdvice(tables)(prior, [0, 1, 2, 3, 4])).toBe(0);
		expect(meanChecks(prior, tables, byAdvice(tables))).toBeCloseTo(2.86, 12);
	});

	test('looking ahead with dear repairs needs 2.18 checks', () => {
		const unit = {
			switching: { bench: { bench: 0 } },
			now: { power: 'bench' as const },
			bench: 'bench' as const
		};
		const checks = tables.map((table, place) => ({
			id: `${place}`,
			minutes: 1,
			power: 'bench' as const,
			table: packed(table)
		}));
		const ahead: Choose = (standings, left) => {
			const repairs = { repairs: prior.map(String), minutes: prior.map(() => 100) };
			const question = {
				...unit,
				...repairs,
				standings,
				checks: left.flatMap((place) => checks[place] ?? [])
			};
			const [best] = lookAheadFully(question).checks;
			return best && Number(best.id);
		};
		expect([1, 3]).toContain(ahead(prior, [0, 1, 2, 3, 4]));
		expect(meanChecks(prior, tables, ahead)).toBeCloseTo(2.18, 12);
	});

	test('the best order needs 2.18 checks and begins with the second or the fourth test', () => {
		const best = (standings: readonly number[]): number =>
			entropy(standings) < 1e-9 ? 0 : Math.min(...tables.map((table) => first(standings, table)));
		const first = (standings: readonly number[], table: Table) =>
			informationGain(standings, table) > 1e-9 ? afterCheck(standings, table, best) : Infinity;
		const costs = tables.map((table) => first(prior, table));
		expect(Math.min(...costs)).toBeCloseTo(2.18, 12);
		expect(costs.flatMap((cost, place) => (cost < 2.18 + 1e-9 ? [place + 1] : []))).toEqual([2, 4]);
	});
});

// The first is Cover and Thomas's example, from memory; the others are our own computation.
test.each([
	[[0.25, 0.25, 0.2, 0.15, 0.15], 2.285475, 2.3],
	[[0.4, 0.2, 0.2, 0.1, 0.1], 2.121928, 2.2],
	[Array<number>(12).fill(1 / 12), 3.584963, 3.666667]
])('Huffman: %j has %d bits and needs %d checks', (prior, bits, checks) => {
	expect(entropy(prior)).toBeCloseTo(bits, 6);
	expect(huffmanCost(prior)).toBeCloseTo(checks, 6);
});

// Circuit, values and minimal diagnoses of de Kleer and Williams read in lecture slides; the weights are our
// simplification (a single fault 1, a double .01/.99), so the gains are our own and only their order is the published one.
test('polybox: probing X tells most', () => {
	const double = 0.01 / 0.99;
	// M1; A1; M2 and M3; M2 and A2.
	const prior = [1, 1, double, double];
	const predicted = { X: [4, 6, 6, 6], Y: [6, 6, 4, 4], Z: [6, 6, 8, 6] };
	const gain = (values: readonly number[]) => {
		const kinds = [...new Set(values)];
		return informationGain(
			prior,
			values.map((value) => kinds.map((kind) => Number(kind === value)))
		);
	};
	[0.495, 0.495, 0.005, 0.005].forEach((p, place) => expect(posterior(prior, [])[place]).toBeCloseTo(p, 12));
	expect(entropy(prior)).toBeCloseTo(1.080793, 6);
	expect(gain(predicted.X)).toBeCloseTo(0.999928, 6);
	expect(gain(predicted.Y)).toBeCloseTo(0.080793, 6);
	expect(gain(predicted.Z)).toBeCloseTo(0.045415, 6);
});

/** Error-free probes at the borders of a chain of stages: bad behind the faulty stage, good before it. */
const borders = (stages: number): Table[] =>
	Array.from({ length: stages - 1 }, (_, border) =>
		Array.from({ length: stages }, (_, stage) => (stage <= border ? [0, 1] : [1, 0]))
	);

// Teaching example of GDE; priors and the two products read in a thesis of TU Delft, the gains are our own.
describe('four inverters in a row', () => {
	test('with .01 each, all are good in .960596 and one alone is bad in .00970299', () => {
		const bad = () => 0.01;
		const inverters = network({ a: bad, b: bad, c: bad, d: bad });
		expect(inverters.chanceOfEvidence({ a: false, b: false, c: false, d: false })).toBeCloseTo(0.960596, 6);
		expect(inverters.chanceOfEvidence({ a: true, b: false, c: false, d: false })).toBeCloseTo(0.00970299, 8);
	});

	test('with a wrong output the middle is probed first', () => {
		const gains = borders(4).map((table) => informationGain([1, 1, 1, 1], table));
		[0.811278, 1, 0.811278].forEach((gain, place) => expect(gains[place]).toBeCloseTo(gain, 6));
		expect(byAdvice(borders(4))([1, 1, 1, 1], [0, 1, 2])).toBe(1);
	});
});

// Textbook exercise: inputs read, outputs by our own computation.
describe('three-outcome check', () => {
	// Good, bad.
	const prior = [0.7, 0.3];
	const first = [
		[0.8, 0.05, 0.15],
		[0.05, 0.75, 0.2]
	];
	const second = [
		[0.8, 0.2],
		[0.25, 0.75]
	];
	const badAfter = (table: Table, outcome: number) =>
		update(prior, outcomeLikelihood(table, outcome)).posterior[1];

	test('clear, defect or unclear: gain .476803 bit', () => {
		const chances = outcomeProbabilities(prior, first);
		[0.575, 0.26, 0.165].forEach((p, place) => expect(chances[place]).toBeCloseTo(p, 12));
		[0.026087, 0.865385, 0.363636].forEach((p, place) => expect(badAfter(first, place)).toBeCloseTo(p, 6));
		expect(informationGain(prior, first)).toBeCloseTo(0.476803, 6);
	});

	test('clear or defect: gain .198022 bit', () => {
		expect(outcomeProbabilities(prior, second)[1]).toBeCloseTo(0.365, 12);
		expect(badAfter(second, 1)).toBeCloseTo(0.616438, 6);
		expect(badAfter(second, 0)).toBeCloseTo(0.11811, 6);
		expect(informationGain(prior, second)).toBeCloseTo(0.198022, 6);
	});
});

// The rule of chance per minute is published (Kadane and Simon, Heckerman and others, read in abstracts); inputs and
// figures are our own.
test('order of repairs: 3, 2, 1 takes 28.0, every other order longer', () => {
	const chances = [0.5, 0.3, 0.2];
	const minutes = [30, 10, 5];
	const orders = [
		[2, 1, 0],
		[1, 2, 0],
		[2, 0, 1],
		[1, 0, 2],
		[0, 2, 1],
		[0, 1, 2]
	];
	expect(repairOrder(chances, minutes)).toEqual([2, 1, 0]);
	const costs = orders.map((order) => expectedCostOfRepair(chances, minutes, order));
	expect(costs[0]).toBeCloseTo(28, 12);
	[28, 28.5, 32, 32, 35.5, 36].forEach((cost, place) =>
		expect([...costs].sort((one, other) => one - other)[place]).toBeCloseTo(cost, 12)
	);
});

// Our own computation: half-splitting against stage by stage.
test.each([
	[16, 4, 8.4375],
	[12, 3.666667, 6.416667]
])('%d equal stages: %d probes by half-splitting, %d stage by stage', (stages, split, inTurn) => {
	const prior = Array<number>(stages).fill(1);
	const tables = borders(stages);
	const nextStage: Choose = (standings, left) => (entropy(standings) < 1e-9 ? undefined : left[0]);
	expect(meanChecks(prior, tables, byAdvice(tables))).toBeCloseTo(split, 6);
	expect(meanChecks(prior, tables, nextStage)).toBeCloseTo(inTurn, 6);
	expect(huffmanCost(prior)).toBeCloseTo(split, 6);
});

// Our own computation.
test('a single check, prior .2, hit .9, false alarm .05: bad .818182, good .025641', () => {
	expect(update([0.2, 0.8], [0.9, 0.05]).posterior[0]).toBeCloseTo(0.818182, 6);
	expect(update([0.2, 0.8], [0.1, 0.95]).posterior[0]).toBeCloseTo(0.025641, 6);
});
