export { bases, valves } from './data.ts';
export { findValve, type FoundValve, limitsOf, type OfSystem, operatingPoints } from './find.ts';
export { type PinFinding, pinOf } from './pins.ts';
export { type SourceId, type ValveSource, valveSources } from './sources.ts';
export type * from './types.ts';
