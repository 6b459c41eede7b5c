import { describe, expect, test } from 'vitest';
import { type Calculation, calculations, runCalculation } from '../../src/lib/calculations/index.ts';
import { main } from '../../src/tools/calculate.ts';
import { differences } from '../unit/calculations/compare.ts';

/**
 * How many rows each published table has, by the number behind the name: `fuse/3` is the third. Rows of our own have words there.
 * A row that goes lost is missed here.
 */
const ROWS: Readonly<Record<string, number>> = {
	'resistor-drop': 3,
	'resistor-derating': 4,
	'grid-leakage': 5,
	'valve-operating-point': 4,
	'meter-loading': 9,
	'apparent-resistance': 2,
	'electrolytic-leakage-limit': 9,
	'reform-resistor': 4,
	'reform-progress': 2,
	'lamp-limiter': 9,
	'supply-ripple': 17,
	'mains-overvoltage': 3,
	'heater-chain': 5,
	'dial-frequencies': 13,
	tracking: 3,
	'lc-resonance': 11,
	'if-transformer': 7,
	'alignment-order': 3,
	'stage-gain': 10,
	avc: 6,
	'output-transformer': 7,
	'replacement-value': 8,
	'time-constant': 8,
	'fm-detector': 7,
	fuse: 4,
	'insulation-touch-current': 5,
	'cable-capacitance': 3,
	'gm-check': 5,
	'part-codes': 8
};

/** `dial-frequencies/11, oscillator above` is a part of row 11. */
const numberOf = (id: string): number => Number(/\/(\d+)[a-z]?(?:,|$)/.exec(id)?.[1]);

const every = Object.values<Calculation>(calculations).flatMap(({ id: calculation, checks }) =>
	checks.map((check) => ({ calculation, check }))
);
const numbered = every.filter(({ check }) => !Number.isNaN(numberOf(check.id)));
/** Figures read in the source that the row names; the row says where only part of it was. */
const published = every.filter(({ check }) => check.basis.startsWith('published'));

const named = (rows: typeof every) =>
	rows.map((row) => [`${row.check.id}, ${row.check.basis}: ${row.check.source.what}`, row] as const);

test.each(Object.entries(ROWS))('the table of %s has its %i rows here, none left out', (id, count) => {
	const rows = numbered.filter(({ calculation }) => calculation === id);
	const numbers = new Set(rows.map(({ check }) => numberOf(check.id)));
	expect([...numbers].sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, i) => i + 1));
});

test('184 rows of the tables, and more of our own', () => {
	expect(Object.values(ROWS).reduce((sum, count) => sum + count, 0)).toBe(184);
	expect(every.length).toBeGreaterThan(350);
});

describe('worked examples of books, manuals and pages', () => {
	test.each(named(published))('%s', (_, { calculation, check }) => {
		const answer = runCalculation(calculation, check.given);
		expect(answer.ok && differences(check, answer.outputs)).toEqual([]);
	});
});

describe('rows of the tables that stand on arithmetic, a simulator or memory', () => {
	const rest = numbered.filter(({ check }) => !check.basis.startsWith('published'));
	test.each(named(rest))('%s', (_, { calculation, check }) => {
		const answer = runCalculation(calculation, check.given);
		expect(answer.ok && differences(check, answer.outputs)).toEqual([]);
		expect(answer.ok && answer.verdict).toBe(check.verdict);
	});
});

describe('every row on the command line', () => {
	test.each(every.map(({ calculation, check }) => [check.id, calculation, check] as const))(
		'%s',
		(_, calculation, check) => {
			const told: string[] = [];
			const io = { out: (text: string) => void told.push(text), err: (text: string) => void told.push(text) };
			expect([main([calculation, JSON.stringify(check.given)], io), told.length]).toEqual([0, 1]);
			const { outputs, verdict } = JSON.parse(told[0] ?? '') as {
				outputs: Record<string, unknown>;
				verdict?: string;
			};
			expect(differences(check, outputs)).toEqual([]);
			expect(verdict).toBe(check.verdict);
		}
	);

	test('a figure with a second name is told under both: the capacitance ratio of an oscillator', () => {
		const told: string[] = [];
		const given = { f_min_kHz: 530, f_max_kHz: 1650, IF_kHz: 455, side: 'above' };
		main(['dial-frequencies', JSON.stringify(given)], { out: (text) => void told.push(text), err: () => {} });
		const { outputs } = JSON.parse(told[0] ?? '') as { outputs: Record<string, number> };
		expect(outputs['C_ratio']).toBeCloseTo(4.567, 3);
		expect(outputs['C_ratio']).toBe(outputs['C_ratio_osc']);
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

/** What restorers say of electrolytics and of screened capacitors: common practice, no source. */
describe('facts of common practice, no source', () => {
	const said = (id: string, given: Record<string, unknown>) => {
		const answer = runCalculation(id, given);
		if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join(' '));
		return { ...answer, kinds: answer.judgements.map(({ source }) => source.kind) };
	};

	test('2 uF that still leak 2 mA at lowered volts after a night on the supply will not reform: change', () => {
		const night = { C_uF: 2, V_rated: 350, V_applied: 200, V_working: 300, series_min_mA: [[600, 2]] };
		const { verdict, kinds, sentence } = said('reform-progress', night);
		expect([verdict, kinds]).toEqual(['stalled: replace', ['common practice, no source']]);
		expect(sentence).toMatch(/^Change it: after a night/);
	});

	test('a coupling capacitor with an outer screen shows some 20 to 40 pF between a lead and its screen', () => {
		const part = 'coupling capacitor with an outer screen';
		const at = (C_read_pF: number) => said('cable-capacitance', { part, C_read_pF });
		expect(at(30).outputs['C_usual_pF']).toEqual([20, 40]);
		expect([5, 20, 30, 40, 400].map((read) => at(read).verdict)).toEqual([
			'watch',
			'ok',
			'ok',
			'ok',
			'too-much'
		]);
		expect(at(30).kinds).toEqual(['common practice, no source']);
	});

	test('the 3 uF of a ratio detector that read 3.1 to 3.2 uF without leakage stay', () => {
		const { verdict, kinds } = said('capacitor-condition', {
			C_marked_uF: 3,
			C_read_uF: [3.1, 3.2],
			leaks: 'none seen'
		});
		expect(verdict).toBe('stays');
		expect(kinds).toContain('common practice, no source');
	});

	test('50 uF that read 120 uF are changed', () => {
		const { verdict, judgements } = said('capacitor-condition', { C_marked_uF: 50, C_read_uF: 120 });
		expect(verdict).toBe('change');
		expect(judgements[0]?.source.kind).toBe('common practice, no source');
	});
});
