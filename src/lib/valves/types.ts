import type { SourceId } from './sources.ts';

/** P8 is the side contact, Y8A the steel valve. */
export type Base = 'B9A' | 'B7G' | 'B8A' | 'B8G' | 'octal' | 'P8' | 'Y8A' | 'UX4' | 'UX5' | 'UX6';

/**
 * How the pins were checked: a maker's sheet was read, for this type or for a sister type; two independent sources agree; one
 * source; from memory; no pins are given.
 */
export type PinEvidence =
	| 'maker_sheet'
	| 'maker_sheet_sister'
	| 'two_sources'
	| 'two_sources_sister'
	| 'one_source_and_sister'
	| 'one_source'
	| 'one_source_sister'
	| 'memory'
	| 'none';

/**
 * Figures by keyed name, which carries the unit in small letters (`ik_max_ma`, `rg1_max_auto_mohm` in megohms). `_calc_` in a
 * name: worked out from the rest of the block, not read.
 */
export type Figures = Readonly<Record<string, number>>;

/** Published maxima (design centre or older). `source` covers every figure of the block. */
export interface Limits {
	figures: Figures;
	source: SourceId;
	/** Figures that are from memory, although the source covers the others. */
	fromMemory?: readonly string[];
	note?: string;
}

/** A bogey working point: a serviceable valve may be 30 % or more away from it (common practice, no source). */
export interface OperatingPoint {
	label: string;
	figures: Figures;
	source: SourceId;
	note?: string;
}

/** One of the electrode systems in the bulb. */
export interface ValveSystem {
	name: string;
	use?: string;
	limits?: Limits;
	points?: readonly OperatingPoint[];
}

export interface Heater {
	volts: number;
	amps: number;
	/** Usual in a series chain: chassis and heater pins may be at the mains. */
	seriesChain: boolean;
	/** The filament is the cathode. */
	directlyHeated?: true;
	/** Volts of the section that a dial lamp shunts. */
	tapSectionVolts?: number;
	sources: readonly SourceId[];
	alternative?: { volts: number; amps: number; how: string };
}

export interface Valve {
	type: string;
	equivalents: readonly string[];
	equivalentSources: readonly SourceId[];
	/** Other types that will do with the difference in brackets. */
	nearEquivalents?: readonly string[];
	kind: string;
	roles: readonly string[];
	base: Base;
	/**
	 * Pin number to `system:electrodes`, counted clockwise from the gap, seen from the wiring side. `common` is shared by the
	 * systems, `ic` an internal connection that is left free.
	 */
	pins: Readonly<Record<number, string>>;
	/** What the cap on the bulb is, as a pin: `pentode:g1`. */
	topCap?: string;
	/** Pins that are not listed are not known: leave them alone. */
	pinsPartial?: true;
	/** Single pins that a source confirms, where the others are from memory. */
	pinsChecked?: readonly number[];
	/** Of which type the pins were read, where not of this one. */
	pinBasis?: string;
	/** Pins that carry HT. */
	htPins: readonly number[];
	evidence: PinEvidence;
	pinSources: readonly SourceId[];
	heater: Heater;
	systems: readonly ValveSystem[];
	/** How much of the record was read: the whole on a maker's sheet, the main figures, or little. */
	confidence: 'high' | 'good' | 'medium' | 'low';
	notes?: string;
}
