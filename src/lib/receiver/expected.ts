import { findValve, typicalVolts, usualBias, usualHt, type TypicalVolts } from '../valves/index.ts';
import { HT_NEGATIVE } from './back-bias.ts';
import type { Plan } from './plan.ts';
import { surveyPoints, type SurveyPoint } from './survey-points.ts';

/** Volts that stand across a meter which itself draws through the source: what is there without any meter. */
export const withoutMeter = (shown: number, source: number, meter: number): number =>
	(shown * (source + meter)) / meter;

/** What a meter shows where `real` volts stand behind a source resistance. Ohms; an ideal meter is `Infinity`. */
export const withMeter = (real: number, source: number, meter: number): number =>
	meter === Infinity ? real : (real * meter) / (source + meter);

/** What a service sheet says of its own readings. */
export interface SheetFacts {
	/** Volts as printed, by test point, to HT negative. */
	volts: Readonly<Record<string, number>>;
	/** Resistance of the sheet's meter on the range used, ohms. */
	meter?: number;
	/** Mains volts that the sheet was made at. */
	mains?: number;
	/** Part values in ohms: `af.anode-resistor` feeds the point `af.anode`, `af.anode-source` is what is seen from it. */
	parts: Readonly<Record<string, number>>;
}

/** What is known of today. */
export interface Today {
	mains?: number;
	/** Input resistance of the own meter, ohms. */
	meter?: number;
}

/** What a meter should show at a point, in a sound set. */
export interface Expectation {
	value: number;
	from: number;
	to: number;
	basis: 'sheet' | 'typical' | 'valve-data';
	/** As printed on the sheet, where the basis is one. */
	printed?: number;
	/** What was done to it, in words: "scaled to mains of 230 V". */
	steps: string[];
}

/** Service sheets usually allow 20 % either way (from memory). */
const SHEET_SPREAD = 0.2;
/** HT itself moves less: the steps of the flows take 15 % either way. */
const SUPPLY_SPREAD = 0.15;
const PLAN_SPREAD = 0.25;
/** Volts that count as zero at a grid. */
const NEAR_ZERO = 0.5;

/** Where volts stand in relation to HT: on a supply line itself, or behind it. */
const isSupply = (plan: Plan, point: string): boolean =>
	plan.lines[plan.points[point]?.stage ?? '']?.kind === 'supply';

const around = (value: number, spread: number) => {
	const width = Math.max(Math.abs(value) * spread, value === 0 ? NEAR_ZERO : 0);
	return { from: value - width, to: value + width };
};

const round = (value: number): string => String(Number(value.toPrecision(3)));

/**
 * Resistance seen from a point: as stated, else its feed resistor in parallel with what the valve behind it shows by its data.
 * `undefined` where nothing is known: then the meter is taken to change nothing.
 */
export function sourceAt(plan: Plan, point: SurveyPoint, parts: SheetFacts['parts']): number | undefined {
	const stated = parts[`${point.id}-source`];
	if (stated !== undefined) return stated;
	const feed = parts[`${point.id}-resistor`];
	if (feed === undefined) return undefined;
	const type = plan.valves[point.valve ?? '']?.type;
	const found = type === undefined ? undefined : findValve(type);
	const system = found?.ok
		? (found.valve.systems.find(({ name }) => name === point.system) ?? found.valve.systems[0])
		: undefined;
	const inner = point.electrode === 'a' ? system?.points?.[0]?.figures['ra_kohm'] : undefined;
	return inner === undefined ? feed : (feed * inner * 1000) / (feed + inner * 1000);
}

function fromSheet(plan: Plan, point: SurveyPoint, sheet: SheetFacts, today: Today): Expectation | undefined {
	const printed = sheet.volts[point.id];
	if (printed === undefined) return undefined;
	const steps: string[] = [];
	const source = sourceAt(plan, point, sheet.parts);
	let value = printed;
	if (source !== undefined && (sheet.meter !== undefined || today.meter !== undefined)) {
		const real = sheet.meter === undefined ? printed : withoutMeter(printed, source, sheet.meter);
		value = withMeter(real, source, today.meter ?? Infinity);
		if (Math.abs(value - printed) > 0.02 * Math.abs(printed))
			steps.push(`${round(printed)} V on the sheet’s meter are ${round(value)} V on yours`);
	}
	if (sheet.mains !== undefined && today.mains !== undefined && value !== 0) {
		const before = value;
		value *= today.mains / sheet.mains;
		if (Math.abs(value - before) > 0.005 * Math.abs(before))
			steps.push(`scaled from ${round(sheet.mains)} V mains to ${round(today.mains)} V`);
	}
	const spread = point.supply ? SUPPLY_SPREAD : SHEET_SPREAD;
	return { value, ...around(value, spread), basis: 'sheet', printed, steps };
}

/** The output valve of a plan. */
const outputOf = (plan: Plan): string | undefined => {
	const stage = Object.values(plan.stages).find(({ section, valve }) => section === 'output' && valve);
	return plan.valves[stage?.valve ?? '']?.type;
};

/**
 * HT of a half-wave rectifier straight on the mains, as a share of their volts: the reservoir stands near them, for what the peak
 * gives, ripple and resistance take (from memory). DC mains give less.
 */
const HALF_WAVE = {
	reservoir: { value: 1.05, from: 0.8, to: 1.3 },
	smoothed: { value: 0.9, from: 0.65, to: 1.2 }
} as const;

/** Mains on which the set runs without a transformer, where its output valve is one for such HT. */
export function directMains(plan: Plan, { mains }: Today): number | undefined {
	if (plan.traits.mains !== 'none' || mains === undefined) return undefined;
	const asked = usualHt(outputOf(plan) ?? '');
	const given = mains * HALF_WAVE.smoothed.value;
	// Valves for half these mains stand behind something that drops the rest.
	return asked === undefined || Math.max(given / asked, asked / given) < 1.5 ? mains : undefined;
}

/** HT that such a set has without a sheet: by its plan, by the mains it rectifies, else by the working point of its output valve. */
export function typicalHt(plan: Plan, today: Today = {}): number | undefined {
	const planned = plan.points['ht.smoothed']?.volts?.expect;
	if (planned !== undefined) return planned;
	const mains = directMains(plan, today);
	if (mains !== undefined) return mains * HALF_WAVE.smoothed.value;
	const type = outputOf(plan);
	return type === undefined ? undefined : usualHt(type);
}

/** HT negative below the chassis, by the bias that the output valve wants; taps of the resistor may feed other valves too. */
function backBias(plan: Plan, ht: number): TypicalVolts | undefined {
	const type = outputOf(plan);
	const bias = type === undefined ? undefined : usualBias(type, ht);
	return bias === undefined
		? undefined
		: { value: -bias, from: -1.7 * bias, to: -0.6 * bias, because: `the bias that the ${type} wants` };
}

function supplyVolts(plan: Plan, point: SurveyPoint, ht: number, mains: number | undefined) {
	if (point.id === HT_NEGATIVE.id) return backBias(plan, ht);
	const kind = point.id.split('.')[1];
	if (mains !== undefined && (kind === 'smoothed' || kind === 'reservoir')) {
		const { value, from, to } = HALF_WAVE[kind];
		return {
			value: mains * value,
			from: mains * from,
			to: mains * to,
			because: `a half-wave rectifier on ${round(mains)} V AC mains, from memory; on DC mains less`
		};
	}
	if (kind === 'smoothed')
		return { value: ht, from: ht * 0.8, to: ht * 1.2, because: 'the output valve asks for it' };
	if (kind === 'reservoir')
		return {
			value: ht * 1.08,
			from: ht * 0.85,
			to: ht * 1.35,
			because: 'HT and the drop of the usual smoothing'
		};
	return undefined;
}

/** The output grid rests at the bias behind its leak, which a meter loads. */
function restingGrid(plan: Plan, ht: number): TypicalVolts | undefined {
	const bias = backBias(plan, ht);
	return (
		bias && { ...bias, to: bias.to / 2, because: `${bias.because}, behind its grid leak: a meter shows less` }
	);
}

/** Output and small pentodes have a winding in the anode; audio valves, oscillators and tuner triodes a resistor. */
function feedOf(plan: Plan, { stage, system, valve }: SurveyPoint) {
	const section = plan.stages[stage]?.section;
	const found = findValve(plan.valves[valve ?? '']?.type ?? '');
	if (section === 'fm-tuner') return found.ok && found.valve.kind.includes('triode') ? 'tuner' : 'winding';
	return section === 'audio' || section === 'oscillator' || system === 'triode' ? 'resistor' : 'winding';
}

function fromValves(
	plan: Plan,
	point: SurveyPoint,
	ht: number | undefined,
	mains: number | undefined
): Expectation | undefined {
	const output = plan.stages[point.stage]?.section === 'output';
	if (point.electrode === 'g1' && output && plan.traits.bias === 'cathode')
		return {
			value: 0,
			...around(0, 0),
			basis: 'valve-data',
			steps: ['a grid with a leak to HT negative rests at zero']
		};
	if (ht === undefined) return undefined;
	const type = plan.valves[point.valve ?? '']?.type;
	if (plan.traits.bias === 'back' && output && point.electrode === 'k')
		return {
			value: 0,
			...around(0, 0),
			basis: 'valve-data',
			steps: ['its cathode stands on the chassis in a set with bias from HT negative']
		};
	const back = plan.traits.bias === 'back' && output && point.electrode === 'g1';
	const typical = point.supply
		? supplyVolts(plan, point, ht, mains)
		: back
			? restingGrid(plan, ht)
			: type === undefined || point.electrode === undefined
				? undefined
				: typicalVolts(type, point.electrode, { system: point.system, ht, feed: feedOf(plan, point) });
	if (!typical) return undefined;
	const { value, from, to, because } = typical;
	return { value, from, to, basis: 'valve-data', steps: [because] };
}

function fromPlan(plan: Plan, point: SurveyPoint): Expectation | undefined {
	const volts = plan.points[point.id]?.volts;
	if (!volts) return undefined;
	return { value: volts.expect, ...around(volts.expect, PLAN_SPREAD), basis: volts.basis, steps: [] };
}

/**
 * What a sound set shows at each place of the survey: by the sheet, brought to today's mains and to the own meter; else as the
 * plan or the valve data say, with wide limits. HT as measured is no part of it: `toHt` brings it in.
 *
 * @param changed valves of the plan whose type is not the plan's own: there the valve data go before the plan's volts
 */
export function expectedVolts(
	plan: Plan,
	sheet: SheetFacts,
	today: Today,
	changed: readonly string[] = []
): Record<string, Expectation> {
	const ht = sheet.volts['ht.smoothed'] ?? typicalHt(plan, today);
	const mains = directMains(plan, today);
	return Object.fromEntries(
		surveyPoints(plan).flatMap((point) => {
			const own = fromPlan(plan, point);
			const data = fromValves(plan, point, ht, mains);
			const other = changed.includes(point.valve ?? '') ? (data ?? own) : (own ?? data);
			const found = fromSheet(plan, point, sheet, today) ?? other;
			return found ? [[point.id, found] as const] : [];
		})
	);
}

/** HT as it was measured, beside what is expected there. */
export interface MeasuredHt {
	point: string;
	value: number;
	expected: number;
}

/** An expectation behind the supply, brought to the HT that the set has now. A supply point stays as it is. */
export function toHt(
	plan: Plan,
	point: string,
	expected: Expectation,
	ht: MeasuredHt | undefined
): Expectation {
	if (!ht || ht.expected <= 0 || isSupply(plan, point) || expected.value === 0) return expected;
	const ratio = ht.value / ht.expected;
	if (ratio <= 0.1 || Math.abs(ratio - 1) < 0.02) return expected;
	return {
		...expected,
		value: expected.value * ratio,
		from: expected.from * ratio,
		to: expected.to * ratio,
		steps: [...expected.steps, `brought to the HT measured, ${round(ht.value)} V for ${round(ht.expected)} V`]
	};
}
