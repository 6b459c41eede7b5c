import type { SixAnswers } from '../receiver/survey.ts';

/**
 * What is known of the set at hand: its valves, the volts of its sheet, the part values that matter. Entered once and kept in
 * the job. Key names stand in stored logs: never renamed.
 */

/** A valve by the drawing and in the holder. */
export interface SetValve {
	/** Id of the plan's valve, or a name of its own (`v7`) where the plan has no place for it. */
	id: string;
	/** What it does, in words. */
	role: string;
	/** Type by the drawing or the label in the set. */
	listed: string;
	/** Type that the kind of set has there by itself. */
	planned?: string;
	/** Type in the holder, where somebody has looked. */
	fitted?: string;
	/** Why a valve that differs from the drawing is right where it is; left out, it has to be settled before power. */
	kept?: string;
	bands?: string[];
}

/** A part value as it was typed. */
export interface SetPart {
	typed: string;
	/** Base units. */
	value: number;
	/** The value was measured on the part; nobody has read its mark. */
	measured?: true;
	/** Its name on the drawing: "R12". */
	name?: string;
	/** Rating marked on it, watts. */
	watts?: number;
}

export interface SetSheet {
	/** Resistance of the sheet's meter on the range used, ohms; or ohms per volt and the range. */
	meter?: number;
	ohmsPerVolt?: number;
	range?: number;
	/** Mains that the sheet was made at. */
	mains?: number;
	/** Where the figures are from. */
	from?: string;
}

/** What the sheet or the set itself says of its HT supply. */
export interface SetSupply {
	/** AC volts RMS of one half of the HT winding. */
	winding?: number;
	/** Reservoir capacitor, F. */
	reservoir?: number;
	/** HT current of the whole set, A. */
	current?: number;
}

export interface SetData {
	valves: SetValve[];
	/** DC volts to HT negative by test point, as the sheet prints them. */
	volts: Record<string, number>;
	sheet: SetSheet;
	/** `output.cathode-resistor` stands at the point `output.cathode`; `af.anode-source` is what is seen from `af.anode`. */
	parts: Record<string, SetPart>;
	supply?: SetSupply;
	/** Where the set differs from its drawing. */
	differs: { what: string; why?: string }[];
	/** In place of a diagram. */
	answers?: SixAnswers;
}

/** More than any set has, in base units: such a figure is a slip, and no file with it is taken in. */
export const MOST = {
	volts: 5000,
	range: 5000,
	mains: 1000,
	watts: 1000,
	ohms: 1e12,
	winding: 2000,
	reservoir: 0.01,
	current: 2
} as const;

export const emptySetData = (): SetData => ({ valves: [], volts: {}, sheet: {}, parts: {}, differs: [] });

/** The same data with the volts of one point put in, or taken out. For marks on a diagram as for the table. */
export function withServiceVolts(data: SetData, point: string, volts: number | undefined): SetData {
	const { [point]: _, ...others } = data.volts;
	return { ...data, volts: volts === undefined ? others : { ...others, [point]: volts } };
}

/** Resistance of the sheet's meter: as stated, else its ohms per volt times the range. */
export const sheetMeter = ({ meter, ohmsPerVolt, range }: SetSheet): number | undefined =>
	meter ?? (ohmsPerVolt !== undefined && range !== undefined ? ohmsPerVolt * range : undefined);
