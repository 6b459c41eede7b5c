export { DIGITS } from './colour-code.ts';
export type * from './define.ts';
export { keysOf } from './inputs.ts';
export { GROUPS, type Group } from './groups.ts';
export { putKeys, withLabels } from './key-words.ts';
export type * from './picture.ts';
export { fieldsOfWays } from './read.ts';
export { rangeOf } from './read-input.ts';
export { type CalculationId, calculationIds, calculations } from './registry.ts';
export {
	type Answer,
	calculationOf,
	type JudgementResult,
	picturesOf,
	runCalculation,
	runOn
} from './run.ts';
export type { Refusal } from './run-row.ts';
export { verdictTitle } from './verdict-title.ts';
