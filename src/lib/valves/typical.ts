import { findValve } from './find.ts';
import { sistersOf } from './sisters.ts';
import type { Figures, Valve, ValveSystem } from './types.ts';

/** DC volts to HT negative that a valve shows in the usual circuit, with the limits of a sound one. */
export interface TypicalVolts {
	value: number;
	/** A sound set lies between these. */
	from: number;
	to: number;
	/** On which circuit and figures it rests, in words. */
	because: string;
}

/** How the anode is fed: through a winding that drops little, an audio stage's resistor, or the smaller one of a tuner. */
export type AnodeFeed = 'winding' | 'resistor' | 'tuner';

/** A serviceable valve may be 30 % or more from its working point (common practice, no source). */
const SPREAD = 0.35;
/** A winding drops a few per cent of HT (common practice, no source). */
const WINDING = { value: 0.97, from: 0.85, to: 1.03 };
/** A tuner's triode behind some kilohm, where its data give no such stage (common practice, no source). */
const TUNER = { value: 0.7, from: 0.4, to: 1.02 };
/** An audio triode behind 100 to 220 kohm, where its data give no such stage (common practice, no source). */
const TRIODE = { value: 0.4, from: 0.15, to: 0.65 };

/** A valve with the name under which its figures are told. */
interface Named {
	type: string;
	valve: Valve;
}

/** Figures of a type that has none of its own are those of a sister: the same pins and kind, another heater. */
function withFigures(valve: Valve, own: ValveSystem): { named: Named; of: ValveSystem } {
	const plain = { named: { type: valve.type, valve }, of: own };
	if (own.points?.length || own.name.startsWith('rectifier')) return plain;
	for (const sister of sistersOf(valve)) {
		const of = sister.systems.find(({ name, points }) => name === own.name && points?.length);
		if (of) return { named: { type: `${sister.type}, the sister of the ${valve.type},`, valve }, of };
	}
	return plain;
}

const volts = (value: number, spread = SPREAD): Pick<TypicalVolts, 'value' | 'from' | 'to'> => {
	const ends = [value * (1 - spread), value * (1 + spread)] as const;
	return { value, from: Math.min(...ends), to: Math.max(...ends) };
};

/** Points of a system that give one of these figures, the nearest to the HT at hand first. */
function pointWith({ points = [] }: ValveSystem, ht: number, keys: readonly string[]): Figures | undefined {
	const supplyOf = ({ vb_v, va_v }: Figures) => vb_v ?? va_v ?? ht;
	return points
		.map(({ figures }) => figures)
		.filter((figures) => keys.some((key) => figures[key] !== undefined))
		.sort((a, b) => Math.abs(supplyOf(a) - ht) - Math.abs(supplyOf(b) - ht))[0];
}

/** How much HT is here against the HT of a working point. */
const scale = ({ vb_v, va_v }: Figures, ht: number): number => ht / (vb_v ?? va_v ?? ht);

function anode({ type }: Named, system: ValveSystem, ht: number, feed: AnodeFeed): TypicalVolts {
	if (feed === 'winding')
		return {
			value: ht * WINDING.value,
			from: ht * WINDING.from,
			to: ht * WINDING.to,
			because: 'the anode is fed through a winding, which drops little'
		};
	const point = pointWith(system, ht, ['va_calc_v']);
	const worked = point?.['va_calc_v'];
	if (point && worked !== undefined)
		return {
			...volts(worked * scale(point, ht)),
			because: `${type} behind ${point['anode_load_kohm'] ?? '?'} kΩ at ${point['vb_v'] ?? '?'} V`
		};
	const usual = feed === 'tuner' ? TUNER : TRIODE;
	const resistor = feed === 'tuner' ? 'some kΩ' : '100 to 220 kΩ';
	return {
		value: ht * usual.value,
		from: ht * usual.from,
		to: ht * usual.to,
		because: `the usual anode resistor of ${resistor}; the data give no such stage`
	};
}

function screen({ type }: Named, system: ValveSystem, ht: number): TypicalVolts | undefined {
	const point = pointWith(system, ht, ['vg2_v', 'vg2_calc_v']);
	const read = point?.['vg2_v'] ?? point?.['vg2_calc_v'];
	if (!point || read === undefined) return undefined;
	return { ...volts(read * scale(point, ht)), because: `${type} at ${point['va_v'] ?? ht} V` };
}

/** Volts of bias that a working point has: by its cathode resistor, else at the grid itself. */
function biasOf({ rk_ohm: rk, ia_ma: ia = 0, ig2_ma: ig2 = 0, vg1_v: vg1 }: Figures): number | undefined {
	const bias = rk ? (rk * (ia + ig2)) / 1000 : vg1 === undefined ? undefined : -vg1;
	return bias !== undefined && bias > 0 ? bias : undefined;
}

/** Bias that an output valve wants at this HT, volts without their sign; nothing where the data do not say. */
export function usualBias(outputType: string, ht: number): number | undefined {
	const found = findValve(outputType);
	const system = found.ok ? found.valve.systems.find(({ points }) => points?.length) : undefined;
	const point = system && pointWith(system, ht, ['vg1_v', 'rk_ohm']);
	const bias = point && biasOf(point);
	return bias === undefined ? undefined : bias * scale(point ?? {}, ht);
}

/** By the cathode resistor of the data, else by the grid bias, which a cathode resistor would have to make. */
function cathode({ type, valve }: Named, system: ValveSystem, ht: number): TypicalVolts | undefined {
	const point = pointWith(system, ht, ['vg1_v', 'rk_ohm']);
	if (!point || valve.heater.directlyHeated) return undefined;
	const bias = biasOf(point);
	if (bias === undefined) return undefined;
	const spread = volts(bias * scale(point, ht), 0.4);
	const output = valve.roles.includes('output');
	return {
		...spread,
		// A small valve may just as well be biased at its grid, with the cathode on the chassis.
		from: output ? spread.from : 0,
		because: output
			? `${type} with its cathode resistor`
			: `${type} with a cathode resistor; 0 V where its cathode stands on the chassis`
	};
}

function rectifierCathode(ht: number): TypicalVolts {
	return { ...volts(ht * 1.08, 0.15), because: 'HT and the drop of the usual smoothing' };
}

/**
 * Typical volts on an electrode (`a`, `g2`, `g2g4`, `k`) of a valve in the usual circuit at this HT; nothing where the data say
 * nothing of it.
 */
export function typicalVolts(
	type: string,
	electrode: string,
	{ system, ht, feed = 'winding' }: { system?: string | undefined; ht: number; feed?: AnodeFeed }
): TypicalVolts | undefined {
	const found = findValve(type);
	if (!found.ok) return undefined;
	const { valve } = found;
	const own = valve.systems.find(({ name }) => name === system) ?? valve.systems[0];
	if (!own) return undefined;
	const { named, of } = withFigures(valve, own);
	if (of.name.startsWith('rectifier')) return electrode === 'k' ? rectifierCathode(ht) : undefined;
	if (electrode === 'a') return anode(named, of, ht, feed);
	if (electrode.startsWith('g2') || electrode === 'screen') return screen(named, of, ht);
	return electrode === 'k' ? cathode(named, of, ht) : undefined;
}

/** The HT that the working point of an output valve asks for; nothing where the data give none. */
export function usualHt(outputType: string): number | undefined {
	const found = findValve(outputType);
	if (!found.ok) return undefined;
	const points = found.valve.systems.flatMap(({ points: all = [] }) => all);
	const figures = points.map((point) => point.figures).find(({ va_v }) => va_v !== undefined);
	return figures && Math.max(figures['va_v'] ?? 0, figures['vg2_v'] ?? 0);
}
