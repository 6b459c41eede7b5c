import { type ScaleName, isScaleName, scaleOf, toBase } from './scales.ts';
import type { Unit } from './units.ts';

export interface KeyedUnit {
	/** The unit that values are kept in. */
	unit: Unit;
	/** Base units in one unit of the key: 1e-3 for `I_max_mA`. */
	scale: number;
	/** As printed after a number: `mA`. */
	symbol: string;
	/** The name to give to `toBase` and `fromBase`. */
	name: ScaleName;
}

/** What the first letters of a name stand for when it ends without a unit: `V_supply`, `dI_service`, `R_k`. */
const LEADERS: ReadonlyMap<string, ScaleName> = new Map([
	['V', 'V'],
	['U', 'V'],
	['I', 'A'],
	['R', 'ohm'],
	['r', 'ohm'],
	['Z', 'ohm'],
	['X', 'ohm'],
	['P', 'W'],
	['W', 'W'],
	['C', 'F'],
	['L', 'H'],
	['f', 'Hz'],
	['IF', 'Hz'],
	['BW', 'Hz'],
	['t', 's'],
	['tau', 's'],
	['T', 'C'],
	['dB', 'dB']
]);

/** Valve data are keyed in small letters, where `mohm` is megohms. */
const SMALL_LETTERS: ReadonlyMap<string, ScaleName> = new Map([
	['v', 'V'],
	['ma', 'mA'],
	['w', 'W'],
	['uf', 'uF'],
	['mohm', 'Mohm'],
	['ma_v', 'mA_V']
]);

/** Endings that are as often an index (`R_s`, `f_min`, `Q_C`): they count only where they suit the beginning. */
const MAY_BE_AN_INDEX = new Set<ScaleName>(['s', 'm', 'h', 'C', 'min', 'A', 'V', 'W', 'H', 'F']);

/** Names that are numbers without a unit, whatever letters they begin or end with. */
const BARE = /^(Q|k|m)(_|$)|_ratio(_|$)|_over_|^(gain|slope)(_|$)(?!.*dB$)/;

function nameOf(ending: string): ScaleName | undefined {
	const name = SMALL_LETTERS.get(ending) ?? ending;
	return isScaleName(name) ? name : undefined;
}

/** The longest ending that names a unit: `mA_V` before `V`. A last `max` or `min` after a unit is passed over. */
function endingOf(parts: readonly string[]): ScaleName | undefined {
	for (let from = Math.max(1, parts.length - 3); from < parts.length; from++) {
		const name = nameOf(parts.slice(from).join('_'));
		if (name) return name;
	}
	const shorter = /^(max|min)$/.test(parts.at(-1) ?? '') ? parts.slice(0, -1) : [];
	return shorter.length > 1 ? endingOf(shorter) : undefined;
}

function leaderOf(first: string): ScaleName | undefined {
	const letters = first.replace(/\d+$/, '');
	return LEADERS.get(letters) ?? LEADERS.get(letters.replace(/^d/, ''));
}

function scaleNameOf(key: string): ScaleName {
	if (BARE.test(key)) return 'number';
	// A name that is a unit in several parts, such as `pF_per_m`.
	if (key.includes('_') && isScaleName(key)) return key;
	const parts = key.split('_');
	const leader = leaderOf(parts[0] ?? '');
	const ending = endingOf(parts) ?? (leader ? undefined : nameOf(key));
	if (!ending) return leader ?? 'number';
	if (!MAY_BE_AN_INDEX.has(ending)) return ending;
	if (leader) return scaleOf(leader).unit === scaleOf(ending).unit ? ending : leader;
	return ending === 'min' || ending === 'C' ? 'number' : ending;
}

/**
 * The unit that a keyed name carries: `I_max_mA` is in milliamps, `V_supply` in volts by its first letter. A name that tells
 * nothing is a bare number.
 */
export function unitOfKey(key: string): KeyedUnit {
	const name = scaleNameOf(key);
	const { unit, symbol } = scaleOf(name);
	return { unit, scale: toBase(1, name), symbol, name };
}
