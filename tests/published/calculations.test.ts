import { describe, expect, test } from 'vitest';
import { type Calculation, calculations, runCalculation } from '../../src/lib/calculations/index.ts';
import { differences } from '../unit/calculations/compare.ts';

/** Rows whose figures were read in the source that the row names; the row says where only part of it was. */
const rows = Object.values<Calculation>(calculations).flatMap(({ id: calculation, checks }) =>
	checks.filter(({ basis }) => basis.startsWith('published')).map((check) => ({ calculation, check }))
);

describe('worked examples of books, manuals and pages', () => {
	test.each(
		rows.map((row) => [`${row.check.id}, ${row.check.basis}: ${row.check.source.what}`, row] as const)
	)('%s', (_, { calculation, check }) => {
		const answer = runCalculation(calculation, check.given);
		expect(answer.ok && differences(check, answer.outputs)).toEqual([]);
	});
});

// Formula, arithmetic: Ohm's and Joule's laws on the trade's own figures; no page says more.
describe("the trade's own sums (formula, arithmetic)", () => {
	const dropper = { R_ohm: 1500, V: 65, P_rated_W: 4 };
	const outputs = () => {
		const answer = runCalculation('resistor-drop', dropper);
		return answer.ok ? answer.outputs : {};
	};

	test('65 V across 1.5 kohm is 43 mA and 2.8 W', () => {
		expect(outputs()['I_A']).toBeCloseTo(0.043, 3);
		expect(outputs()['P_W']).toBeCloseTo(2.8, 1);
	});

	test('the same resistor rated 4 W reaches its rating at about 52 mA, some 8 mA more', () => {
		expect(outputs()['I_max_A']).toBeCloseTo(0.052, 3);
		expect(outputs()['I_spare_A']).toBeCloseTo(0.008, 3);
	});
});
