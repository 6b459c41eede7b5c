import { bases } from './data.ts';
import { findValve } from './find.ts';
import { trusted } from './pins.ts';
import { pinWords } from './pin-words.ts';
import type { Valve } from './types.ts';

/** In what two valves differ, and what that means in the holder of the first. */
export interface FitDifference {
	of: 'unknown' | 'base' | 'pins' | 'heater' | 'duty' | 'ratings' | 'circuit';
	says: string;
	/** It must not get power so; else it is worth knowing. */
	stops: boolean;
}

export interface Fit {
	listed: string;
	fitted: string;
	differences: FitDifference[];
}

/** Heaters within this of each other are alike: makers' figures of one and the same valve differ as much. Our own choice. */
const ALIKE = 0.05;
const alike = (one: number, other: number) => Math.abs(one - other) <= ALIKE * Math.max(one, other);

const unknown = (name: string, says: string): FitDifference => ({
	of: 'unknown',
	stops: true,
	says: `${name}: ${says}`
});

function baseDifference(listed: Valve, fitted: Valve): FitDifference[] {
	if (listed.base === fitted.base) return [];
	return [
		{
			of: 'base',
			stops: true,
			says: `Base: the ${listed.type} stands on ${bases[listed.base].name}, the ${fitted.type} on ${bases[fitted.base].name}.`
		}
	];
}

/** Series or parallel decides which of the two figures has to agree. */
function heaterDifference(listed: Valve, fitted: Valve, series: boolean): FitDifference[] {
	const [one, other] = [listed.heater, fitted.heater];
	const words = `Heater: ${one.volts} V, ${one.amps} A is wanted; the ${fitted.type} takes ${other.volts} V, ${other.amps} A.`;
	const key = series ? 'amps' : 'volts';
	if (!alike(one[key], other[key])) {
		const means = series
			? 'In a series chain one current flows through all: neither it nor the others would get theirs.'
			: 'In parallel each gets the same volts: it would be over-run or stay cold.';
		return [{ of: 'heater', stops: true, says: `${words} ${means}` }];
	}
	const rest = series ? 'volts' : 'amps';
	if (alike(one[rest], other[rest])) return [];
	const more = other[rest] > one[rest];
	const means = series
		? 'The chain adds up to other volts: reckon the dropper again.'
		: more
			? 'The winding has to give more current.'
			: 'The winding is loaded less.';
	return [{ of: 'heater', stops: series, says: `${words} ${means}` }];
}

function dutyDifference(listed: Valve, fitted: Valve): FitDifference[] {
	const shared = listed.roles.filter((role) => fitted.roles.includes(role));
	if (shared.length > 0 && listed.kind === fitted.kind) return [];
	return [
		{
			of: 'duty',
			stops: shared.length === 0,
			says: `Duty: the place wants a valve of the kind “${listed.kind}”; the ${fitted.type} is of the kind “${fitted.kind}”.`
		}
	];
}

const heaterPin = (text: string) => text.startsWith('heater:');

function pinDifference(listed: Valve, fitted: Valve): FitDifference[] {
	if (listed.base !== fitted.base) return [];
	const pins = [...new Set([...Object.keys(listed.pins), ...Object.keys(fitted.pins)])].map(Number);
	const unlike = pins.filter((pin) => {
		const [one, other] = [listed.pins[pin], fitted.pins[pin]];
		if (one === undefined || other === undefined || (heaterPin(one) && heaterPin(other))) return false;
		return electrodes(one) !== electrodes(other);
	});
	if (unlike.length === 0) return [];
	if (!trusted(listed.evidence) || !trusted(fitted.evidence))
		return [
			{
				of: 'pins',
				stops: true,
				says: 'Pins: the two are not wired alike as far as is known. Find both on the makers’ sheets first.'
			}
		];
	const words = unlike.map((pin) => {
		const at = (valve: Valve) => pinWords(valve.pins[pin] ?? '', valve.systems.length > 1);
		return `pin ${pin} is ${at(listed)} on the ${listed.type}, ${at(fitted)} on the ${fitted.type}`;
	});
	return [{ of: 'pins', stops: true, says: `Pins: ${words.join('; ')}.` }];
}

/** What a pin carries, whatever its system is called and in whatever order it is told. */
const electrodes = (text: string): string =>
	(text.split(':')[1] ?? text).split('+').sort().join('+').replace('g2g4', 'g2');

const RATINGS = {
	pa_max_w: ['anode dissipation', 'W'],
	ik_max_ma: ['cathode current', 'mA'],
	dc_max_ma: ['DC drawn', 'mA'],
	va_max_v: ['anode volts', 'V'],
	vg2_max_v: ['screen volts', 'V'],
	v_rms_per_anode_max_v: ['AC at each anode', 'V']
} as const;

/** Limits of the fitted valve that lie a tenth and more below those of the listed one. */
function ratingDifference(listed: Valve, fitted: Valve): FitDifference[] {
	const figure = (valve: Valve, key: string) =>
		valve.systems.map(({ limits }) => limits?.figures[key]).find((value) => value !== undefined);
	const less = Object.entries(RATINGS).flatMap(([key, [name, unit]]) => {
		const [one, other] = [figure(listed, key), figure(fitted, key)];
		return one !== undefined && other !== undefined && other < 0.9 * one
			? [`${name} ${other} ${unit} in place of ${one} ${unit}`]
			: [];
	});
	return less.length > 0
		? [{ of: 'ratings', stops: false, says: `Ratings: the ${fitted.type} stands less: ${less.join(', ')}.` }]
		: [];
}

const CIRCUIT = {
	mu: ['amplification factor', ''],
	gm_ma_v: ['slope', ' mA/V'],
	rk_ohm: ['cathode resistor', ' Ω'],
	rg2_kohm: ['screen resistor', ' kΩ'],
	load_ohm: ['load', ' Ω']
} as const;

/** Figures of the first working points that differ by a fifth and more: parts round the valve may have to change with it. */
function circuitDifference(listed: Valve, fitted: Valve): FitDifference[] {
	const figure = (valve: Valve, key: string) =>
		valve.systems
			.flatMap(({ points = [] }) => points.map(({ figures }) => figures[key]))
			.find((value) => value !== undefined);
	const unlike = Object.entries(CIRCUIT).flatMap(([key, [name, unit]]) => {
		const [one, other] = [figure(listed, key), figure(fitted, key)];
		if (!one || !other || Math.abs(one - other) < 0.2 * Math.max(one, other)) return [];
		return [`${name} ${other}${unit} in place of ${one}${unit}`];
	});
	return unlike.length > 0
		? [{ of: 'circuit', stops: false, says: `Circuit, by the working points of both: ${unlike.join(', ')}.` }]
		: [];
}

/**
 * What changes where `fitted` stands in the holder of `listed`. The same valve under another name gives no difference.
 *
 * @param series heaters in one chain: their current has to agree, not their volts
 */
export function fitOf(listed: string, fitted: string, series: boolean): Fit {
	const [one, other] = [findValve(listed), findValve(fitted)];
	const names = { listed: one.ok ? one.valve.type : listed, fitted: other.ok ? other.valve.type : fitted };
	const same = names.listed.toUpperCase() === names.fitted.toUpperCase();
	if (same) return { ...names, differences: [] };
	if (!one.ok || !other.ok) {
		const missing = one.ok ? fitted : listed;
		const says =
			'there are no data of this type here. Compare base, heater and pins on the makers’ sheets first.';
		return { ...names, differences: [unknown(missing, says)] };
	}
	return {
		...names,
		differences: [
			...baseDifference(one.valve, other.valve),
			...heaterDifference(one.valve, other.valve, series),
			...dutyDifference(one.valve, other.valve),
			...pinDifference(one.valve, other.valve),
			...ratingDifference(one.valve, other.valve),
			...circuitDifference(one.valve, other.valve)
		]
	};
}

/** Whether something of it must be settled before the set gets power. */
export const stops = ({ differences }: Fit): boolean => differences.some((one) => one.stops);
