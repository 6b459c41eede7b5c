import { parseQuantity, printQuantity, type ScaleName, type Unit } from '../quantity/index.ts';
import type { Plan } from '../receiver/index.ts';
import type { Step } from './schema.ts';
import { bandOf, membership, parseWhen, type Band } from './when.ts';

type Measure = Extract<Step, { kind: 'measure' }>;

const unitOf: Record<Measure['measure'], Unit> = {
	'DC volts': 'V',
	'AC volts': 'V',
	ohms: 'ohm',
	milliamps: 'A',
	capacitance: 'F',
	frequency: 'Hz'
};

/** The unit that the step's field shows, for a number typed without one. */
const bareUnit: Partial<Record<Measure['measure'], ScaleName>> = {
	milliamps: 'mA',
	capacitance: 'nF',
	frequency: 'kHz'
};

/** What the meter shows at this step, in base units. */
export const unitOfStep = (step: Measure): Unit => unitOf[step.measure];

/** The unit beside the field of a step; a number typed alone is in it. */
export const fieldUnit = (step: Measure): ScaleName =>
	bareUnit[step.measure] ?? (unitOf[step.measure] as ScaleName);

/** Where a reading is expected to lie, and on what that rests. */
export interface Expected {
	value: number;
	basis: Basis;
}

/** `valve-data`: reckoned from the valve and the usual circuit, so a reading against it is trusted less. */
export type Basis = 'typical' | 'sheet' | 'valve-data';

/** As told to people, behind a figure. */
export const BASIS_WORDS: Readonly<Record<Basis, string>> = {
	sheet: 'service sheet',
	typical: 'typical',
	'valve-data': 'from valve data'
};

/** Volts of the set at hand, by test point, from its sheet where only a figure stands; without them the plan's typical ones. */
export type ServiceVolts = Readonly<Record<string, number | Expected>>;

/** HT as it was measured when a reading was taken: what hangs on HT is expected in proportion. */
export interface HtThen {
	/** The test point on the supply line. */
	point: string;
	value: number;
}

function plainlyExpected(plan: Plan, point: string, service: ServiceVolts): Expected | undefined {
	const own = service[point];
	if (own !== undefined) return typeof own === 'number' ? { value: own, basis: 'sheet' } : own;
	const typical = plan.points[point]?.volts;
	return typical && { value: typical.expect, basis: typical.basis };
}

const onSupply = (plan: Plan, point: string): boolean =>
	plan.lines[plan.points[point]?.stage ?? '']?.kind === 'supply';

/** Below this share of its HT a set shows nothing that could be scaled. */
const LEAST_HT = 0.1;

/** What a sound set shows at a point; behind the supply at the HT that it had then, where that is known. */
export function expectedAt(
	plan: Plan,
	point: string,
	service: ServiceVolts = {},
	ht?: HtThen
): Expected | undefined {
	const expected = plainlyExpected(plan, point, service);
	if (!expected || !ht || onSupply(plan, point)) return expected;
	const line = plainlyExpected(plan, ht.point, service);
	const ratio = line && line.value > 0 ? ht.value / line.value : 1;
	return ratio > LEAST_HT ? { ...expected, value: expected.value * ratio } : expected;
}

/** Outcomes with a range, their bands brought to absolute readings; `undefined` where nothing is expected. */
function bandsFor(
	step: Measure,
	expected: Expected | undefined
): { outcome: string; band: Band }[] | undefined {
	const ranged = Object.entries(step.outcomes).flatMap(([outcome, { when }]) => {
		const parsed = when === undefined ? undefined : parseWhen(when);
		return parsed?.ok ? [{ outcome, band: parsed.band }] : [];
	});
	if (!ranged.some(({ band }) => band.relative)) return ranged;
	if (!expected || expected.value === 0) return undefined;
	return ranged.map(({ outcome, band }) => {
		if (!band.relative) return { outcome, band };
		const ends = [band.from * expected.value, band.to * expected.value].sort((a, b) => a - b);
		return { outcome, band: { ...band, from: ends[0] ?? 0, to: ends[1] ?? 0, unit: unitOfStep(step) } };
	});
}

export interface JudgedReading {
	outcome: string;
	/** Share of each outcome of the step, in its order: a reading near an edge counts for both sides. */
	membership: number[];
	/** What the outcome rests on; typical values deserve less trust. */
	basis: 'absolute' | Basis;
}

/** The outcome that a reading means; `undefined` where it depends on an expected value that nobody knows. */
export function judgeReading(
	step: Measure,
	value: number,
	expected: Expected | undefined
): JudgedReading | undefined {
	const ranged = bandsFor(step, expected);
	if (!ranged?.length) return undefined;
	const bands = ranged.map(({ band }) => band);
	const outcome = ranged[bandOf(value, bands)]?.outcome;
	if (outcome === undefined) return undefined;
	const shares = membership(value, bands);
	const relative = Object.values(step.outcomes).some(({ when }) => when?.includes('%'));
	return {
		outcome,
		membership: Object.keys(step.outcomes).map(
			(id) => shares[ranged.findIndex((r) => r.outcome === id)] ?? 0
		),
		basis: relative ? (expected?.basis ?? 'typical') : 'absolute'
	};
}

export type ReadingResult = { ok: true; value: number; echo: string } | { ok: false; hint: string };

/** Read what was typed at a measuring step, in the unit that the step wants. */
export function parseReading(step: Measure, typed: string): ReadingResult {
	const unit = unitOfStep(step);
	const bare = bareUnit[step.measure];
	const parsed = parseQuantity(typed, unit, bare ? { bare } : {});
	return parsed.ok ? { ok: true, value: parsed.value, echo: parsed.echo } : { ok: false, hint: parsed.hint };
}

/** A reading as it is shown beside its step. */
export const printReading = (step: Measure, value: number): string => printQuantity(value, unitOfStep(step));
