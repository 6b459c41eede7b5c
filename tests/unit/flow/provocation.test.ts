import { describe, expect, test } from 'vitest';
import { stepTable } from '../../../src/lib/flow/evidence.ts';
import {
	isProvoking,
	outcomeOfSheet,
	sheetProblem,
	sheetWords,
	tallyLikelihood
} from '../../../src/lib/flow/provocation.ts';
import { resolveFlow } from '../../../src/lib/flow/resolve.ts';
import type { Provoked } from '../../../src/lib/flow/terms.ts';
import { standings, trace } from '../../../src/lib/flow/trace.ts';
import { shippedLibrary } from '../../library.ts';
import { flowOf } from './small.ts';

const library = shippedLibrary();
const plan = library.plans['am-fm-shared'];
if (!plan) throw new Error('The plan has gone.');
const flow = flowOf({
	symptom: { all: 'intermittent' },
	suspects: { socket: 'common', joint: 'common', 'res-dry': 'common', 'cc-open': 'occasional' },
	uses: ['provoke-tap', 'provoke-heat', 'provoke-flex', 'provoke-switch', 'listen-am', 'r-ot']
});
const resolved = resolveFlow(library, flow, plan);
const tap = library.steps['provoke-tap'];
const heat = library.steps['provoke-heat'];
if (!tap || !heat || !isProvoking(tap) || !isProvoking(heat)) throw new Error('The steps have changed.');

const after = (step: string, provoked: Provoked) => {
	const answered = step === 'provoke-tap' ? tap : heat;
	const outcome = outcomeOfSheet(answered, provoked) ?? '';
	return trace(resolved, { answers: [{ step, outcome, provoked }], mended: [] });
};
const share = (of: ReturnType<typeof trace>, family: string) =>
	standings(of).reduce(
		(sum, { placed, probability }) => sum + (placed?.family === family ? probability : 0),
		0
	);
const start = trace(resolved, { answers: [], mended: [] });

describe('the sheet of a step', () => {
	test('the fault came once: the step says that it answers; never: that it stayed away', () => {
		expect(outcomeOfSheet(tap, { tap: [3, 1] })).toBe('answered');
		expect(outcomeOfSheet(tap, { tap: [3, 0] })).toBe('stayed');
		expect(outcomeOfSheet(tap, { tap: [0, 0] })).toBeUndefined();
		expect(outcomeOfSheet(tap, {})).toBeUndefined();
	});

	test.each<[string, Provoked, RegExp | undefined]>([
		['3 of 5', { tap: [5, 3] }, undefined],
		['came oftener than tried', { tap: [2, 3] }, /came in 3 rounds of 2\. Count every round/],
		['a negative count', { tap: [-1, 0] }, /whole rounds from 0 to 99/],
		['half a round', { tap: [1.5, 1] }, /whole rounds/],
		['a hundred rounds', { tap: [100, 1] }, /whole rounds/],
		['another provocation', { warm: [1, 1] }, /does not ask to warm it/]
	])('%s', (_, provoked, problem) => {
		const said = sheetProblem(tap, provoked);
		if (problem) expect(said).toMatch(problem);
		else expect(said).toBeUndefined();
	});

	test('a step without one refuses a sheet', () => {
		const other = library.steps['settings'];
		expect(other && sheetProblem(other, { tap: [1, 1] })).toMatch(/has no sheet\. Choose one of its answers/);
	});

	test('in words it tells the rounds', () => {
		expect(sheetWords({ warm: [3, 2], cool: [0, 0] })).toBe('Warm it: 2 of 3 rounds');
	});
});

describe('rounds as evidence', () => {
	test('one round is the plain answer of the step', () => {
		const plain = trace(resolved, { answers: [{ step: 'provoke-tap', outcome: 'answered' }], mended: [] });
		after('provoke-tap', { tap: [1, 1] }).now.forEach((p, index) =>
			expect(p).toBeCloseTo(plain.now[index] ?? NaN, 12)
		);
	});

	test('a fault that answers to the stick speaks for contacts and joints, more so each round', () => {
		const once = after('provoke-tap', { tap: [1, 1] });
		const thrice = after('provoke-tap', { tap: [3, 3] });
		expect(share(once, 'socket')).toBeGreaterThan(share(start, 'socket'));
		expect(share(thrice, 'socket')).toBeGreaterThan(share(once, 'socket'));
		expect(share(thrice, 'res-dry')).toBeLessThan(share(once, 'res-dry'));
	});

	test('three rounds count less than three answers: they share a hand', () => {
		const table = stepTable(resolved, tap);
		const once = tallyLikelihood(table, { tap: [1, 1] });
		const thrice = tallyLikelihood(table, { tap: [3, 3] });
		once?.forEach((p, index) => {
			expect(thrice?.[index]).toBeCloseTo(p ** 2, 12);
			expect(thrice?.[index]).toBeGreaterThan(p ** 3);
		});
	});

	test('warming and cooling count in full beside each other', () => {
		const table = stepTable(resolved, heat);
		const warm = tallyLikelihood(table, { warm: [1, 1] });
		const both = tallyLikelihood(table, { warm: [1, 1], cool: [1, 1] });
		warm?.forEach((p, index) => expect(both?.[index]).toBeCloseTo(p * p, 12));
	});

	test('a sheet without a round says nothing by itself', () => {
		expect(tallyLikelihood(stepTable(resolved, tap), {})).toBeUndefined();
	});
});

describe('a fault that comes and goes', () => {
	const listened = (comesAndGoes: boolean) =>
		trace({ ...resolved, comesAndGoes }, { answers: [{ step: 'listen-am', outcome: 'good' }], mended: [] });
	const lowered = (of: ReturnType<typeof trace>, id: string) => {
		const index = of.ids.indexOf(id);
		return (of.now[index] ?? NaN) / (of.entry[index] ?? NaN);
	};

	test('a band that plays for a minute is weak evidence only', () => {
		expect(lowered(listened(false), 'res-dry')).toBeLessThan(0.2);
		expect(lowered(listened(true), 'res-dry')).toBeGreaterThan(0.4);
	});

	test('no suspect is cleared by hearing it play', () => {
		const listen = resolved.steps['listen-am'];
		if (!listen) throw new Error('The step has gone.');
		for (const row of stepTable(resolved, listen).table) expect(row[0]).toBeGreaterThan(0.3);
	});

	test('a cold reading counts in full', () => {
		const cold = resolved.steps['r-ot'];
		if (!cold) throw new Error('The step has gone.');
		expect(stepTable({ ...resolved, comesAndGoes: true }, cold).table).toEqual(
			stepTable({ ...resolved, comesAndGoes: false }, cold).table
		);
	});

	test('whatever the flow, a complaint of the set that comes and goes counts so', () => {
		const weak = library.flows['weak-on-am-fine-on-fm'];
		if (!weak) throw new Error('The flow has gone.');
		expect(resolveFlow(library, weak, plan).comesAndGoes).toBe(false);
		expect(resolveFlow(library, weak, plan, true).comesAndGoes).toBe(true);
	});
});
