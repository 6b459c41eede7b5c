import { alignmentOrder } from './alignment-order.ts';
import { dialFrequencies } from './dial-frequencies.ts';
import { gridLeakage } from './grid-leakage.ts';
import { meterLoading } from './meter-loading.ts';
import { resistorDrop } from './resistor-drop.ts';
import { valveOperatingPoint } from './valve-operating-point.ts';

/** Every calculation under its id. A test compares this list with the folder. */
export const calculations = {
	'resistor-drop': resistorDrop,
	'grid-leakage': gridLeakage,
	'valve-operating-point': valveOperatingPoint,
	'meter-loading': meterLoading,
	'dial-frequencies': dialFrequencies,
	'alignment-order': alignmentOrder
} as const;

export type CalculationId = keyof typeof calculations;
export const calculationIds = Object.keys(calculations) as CalculationId[];
