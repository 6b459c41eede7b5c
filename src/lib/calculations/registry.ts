import { alignmentOrder } from './alignment-order.ts';
import { apparentResistance } from './apparent-resistance.ts';
import { avc } from './avc.ts';
import { cableCapacitance } from './cable-capacitance.ts';
import { capacitorCondition } from './capacitor-condition.ts';
import { dialFrequencies } from './dial-frequencies.ts';
import { electrolyticLeakageLimit } from './electrolytic-leakage-limit.ts';
import { fmDetector } from './fm-detector.ts';
import { fuse } from './fuse.ts';
import { gmCheck } from './gm-check.ts';
import { gridLeakage } from './grid-leakage.ts';
import { heaterChain } from './heater-chain.ts';
import { ifTransformer } from './if-transformer.ts';
import { insulationTouchCurrent } from './insulation-touch-current.ts';
import { lampLimiter } from './lamp-limiter.ts';
import { lcResonance } from './lc-resonance.ts';
import { mainsOvervoltage } from './mains-overvoltage.ts';
import { meterLoading } from './meter-loading.ts';
import { outputTransformer } from './output-transformer.ts';
import { partCodes } from './part-codes.ts';
import { reformProgress } from './reform-progress.ts';
import { reformResistor } from './reform-resistor.ts';
import { replacementValue } from './replacement-value.ts';
import { resistorDerating } from './resistor-derating.ts';
import { resistorDrop } from './resistor-drop.ts';
import { stageGain } from './stage-gain.ts';
import { supplyChain } from './supply-chain.ts';
import { supplyRipple } from './supply-ripple.ts';
import { timeConstant } from './time-constant.ts';
import { tracking } from './tracking.ts';
import { valveOperatingPoint } from './valve-operating-point.ts';

/** Every calculation under its id. A test compares this list with the folder. */
export const calculations = {
	'resistor-drop': resistorDrop,
	'grid-leakage': gridLeakage,
	'valve-operating-point': valveOperatingPoint,
	'meter-loading': meterLoading,
	'dial-frequencies': dialFrequencies,
	'alignment-order': alignmentOrder,
	'resistor-derating': resistorDerating,
	'apparent-resistance': apparentResistance,
	'electrolytic-leakage-limit': electrolyticLeakageLimit,
	'reform-resistor': reformResistor,
	'mains-overvoltage': mainsOvervoltage,
	'heater-chain': heaterChain,
	'insulation-touch-current': insulationTouchCurrent,
	'lc-resonance': lcResonance,
	'time-constant': timeConstant,
	'fm-detector': fmDetector,
	'cable-capacitance': cableCapacitance,
	'output-transformer': outputTransformer,
	'gm-check': gmCheck,
	'capacitor-condition': capacitorCondition,
	fuse: fuse,
	tracking: tracking,
	'if-transformer': ifTransformer,
	'lamp-limiter': lampLimiter,
	'reform-progress': reformProgress,
	avc: avc,
	'stage-gain': stageGain,
	'replacement-value': replacementValue,
	'supply-ripple': supplyRipple,
	'supply-chain': supplyChain,
	'part-codes': partCodes
} as const;

export type CalculationId = keyof typeof calculations;
export const calculationIds = Object.keys(calculations) as CalculationId[];
