export { type KeyedUnit, unitOfKey } from './keys.ts';
export {
	type Choice,
	type ParsedAnyQuantity,
	type ParsedQuantity,
	type ParseOptions,
	type Refusal,
	parseAnyQuantity,
	parseQuantity
} from './parse.ts';
export { type PrintOptions, printFigure, printInFull, printQuantity, printWithSpread } from './print.ts';
export { type Scale, type ScaleName, fromBase, isScaleName, scaleOf, scales, toBase } from './scales.ts';
export {
	type Factor,
	type Interval,
	scaleTolerance,
	type SplitTolerance,
	splitTolerance,
	type Tolerance,
	withTolerance
} from './tolerance.ts';
export { type Unit, type UnitRow, units } from './units.ts';
