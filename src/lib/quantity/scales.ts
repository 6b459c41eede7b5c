import { shiftPoint } from './decimal.ts';
import type { Unit } from './units.ts';

export interface Scale {
	/** The unit that values are kept in. */
	unit: Unit;
	/** Base units in one of these, as a power of ten. */
	power: number;
	/** A further factor, where a power of ten does not reach (minutes, feet). */
	times?: number;
	/** As printed after a number. */
	symbol: string;
}

/**
 * Units with their prefix, spelled as at the end of a keyed name: `IF_kHz`, `C_uF`, `gm_mA_V`, `t_min`. Milliohms and the like
 * are spelled out, since valve data write megohms in small letters.
 */
export const scales = {
	uV: { unit: 'V', power: -6, symbol: 'µV' },
	mV: { unit: 'V', power: -3, symbol: 'mV' },
	V: { unit: 'V', power: 0, symbol: 'V' },
	kV: { unit: 'V', power: 3, symbol: 'kV' },
	nA: { unit: 'A', power: -9, symbol: 'nA' },
	uA: { unit: 'A', power: -6, symbol: 'µA' },
	mA: { unit: 'A', power: -3, symbol: 'mA' },
	A: { unit: 'A', power: 0, symbol: 'A' },
	milliohm: { unit: 'ohm', power: -3, symbol: 'mΩ' },
	ohm: { unit: 'ohm', power: 0, symbol: 'Ω' },
	kohm: { unit: 'ohm', power: 3, symbol: 'kΩ' },
	Mohm: { unit: 'ohm', power: 6, symbol: 'MΩ' },
	Gohm: { unit: 'ohm', power: 9, symbol: 'GΩ' },
	uW: { unit: 'W', power: -6, symbol: 'µW' },
	mW: { unit: 'W', power: -3, symbol: 'mW' },
	W: { unit: 'W', power: 0, symbol: 'W' },
	kW: { unit: 'W', power: 3, symbol: 'kW' },
	pF: { unit: 'F', power: -12, symbol: 'pF' },
	nF: { unit: 'F', power: -9, symbol: 'nF' },
	uF: { unit: 'F', power: -6, symbol: 'µF' },
	millifarad: { unit: 'F', power: -3, symbol: 'mF' },
	F: { unit: 'F', power: 0, symbol: 'F' },
	nH: { unit: 'H', power: -9, symbol: 'nH' },
	uH: { unit: 'H', power: -6, symbol: 'µH' },
	mH: { unit: 'H', power: -3, symbol: 'mH' },
	H: { unit: 'H', power: 0, symbol: 'H' },
	millihertz: { unit: 'Hz', power: -3, symbol: 'mHz' },
	Hz: { unit: 'Hz', power: 0, symbol: 'Hz' },
	kHz: { unit: 'Hz', power: 3, symbol: 'kHz' },
	MHz: { unit: 'Hz', power: 6, symbol: 'MHz' },
	GHz: { unit: 'Hz', power: 9, symbol: 'GHz' },
	us: { unit: 's', power: -6, symbol: 'µs' },
	ms: { unit: 's', power: -3, symbol: 'ms' },
	s: { unit: 's', power: 0, symbol: 's' },
	min: { unit: 's', power: 0, times: 60, symbol: 'min' },
	h: { unit: 's', power: 0, times: 3600, symbol: 'h' },
	pct: { unit: '%', power: 0, symbol: '%' },
	number: { unit: '', power: 0, symbol: '' },
	dB: { unit: 'dB', power: 0, symbol: 'dB' },
	C: { unit: 'degC', power: 0, symbol: '°C' },
	uA_V: { unit: 'S', power: -6, symbol: 'µA/V' },
	mA_V: { unit: 'S', power: -3, symbol: 'mA/V' },
	A_V: { unit: 'S', power: 0, symbol: 'A/V' },
	mm: { unit: 'm', power: -3, symbol: 'mm' },
	cm: { unit: 'm', power: -2, symbol: 'cm' },
	m: { unit: 'm', power: 0, symbol: 'm' },
	ft: { unit: 'm', power: 0, times: 0.3048, symbol: 'ft' },
	VA: { unit: 'VA', power: 0, symbol: 'VA' },
	deg: { unit: 'deg', power: 0, symbol: '°' },
	ohm_per_volt: { unit: 'ohm/V', power: 0, symbol: 'Ω/V' },
	kohm_per_volt: { unit: 'ohm/V', power: 3, symbol: 'kΩ/V' },
	pF_per_m: { unit: 'F/m', power: -12, symbol: 'pF/m' },
	pF_per_ft: { unit: 'F/m', power: -12, times: 1 / 0.3048, symbol: 'pF/ft' },
	uA_V1_5: { unit: 'A/V^1.5', power: -6, symbol: 'µA/V^1.5' },
	mA_V1_5: { unit: 'A/V^1.5', power: -3, symbol: 'mA/V^1.5' }
} as const satisfies Record<string, Scale>;

export type ScaleName = keyof typeof scales;

/** The scale of that name, with its optional factor in sight. */
export const scaleOf = (name: ScaleName): Scale => scales[name];

export const isScaleName = (name: string): name is ScaleName => Object.hasOwn(scales, name);

/** From a value in `name` to base units: `toBase(455, 'kHz')` is 455000. */
export function toBase(value: number, name: ScaleName): number {
	const { power, times = 1 } = scaleOf(name);
	return shiftPoint(value * times, power);
}

/** From base units to a value in `name`: `fromBase(455000, 'kHz')` is 455. */
export function fromBase(value: number, name: ScaleName): number {
	const { power, times = 1 } = scaleOf(name);
	return shiftPoint(value, -power) / times;
}
