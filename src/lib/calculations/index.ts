export type * from './define.ts';
export { keysOf } from './inputs.ts';
export { rangeOf } from './read.ts';
export { type CalculationId, calculationIds, calculations } from './registry.ts';
export {
	type Answer,
	calculationOf,
	type JudgementResult,
	type Refusal,
	runCalculation,
	runOn
} from './run.ts';
