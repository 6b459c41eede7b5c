/**
 * What needs the valve data: a survey, its expectations, a plan made of a line-up. Apart from `index.ts`, so that pages which only
 * read plans do not load the valves.
 */
export { type PartValue, workedOut, type Worked } from './currents.ts';
export {
	expectedVolts,
	toHt,
	type Expectation,
	type MeasuredHt,
	type SheetFacts,
	type Today
} from './expected.ts';
export {
	nearestPlan,
	planWith,
	traitsBy,
	typesIn,
	type NearestPlan,
	type SixAnswers
} from './nearest-plan.ts';
export { impossibleIn, patternOf } from './pattern.ts';
export { questionReading, type Question } from './question-reading.ts';
export { surveyPoints, type SurveyPoint } from './survey-points.ts';
export { type SurveyRow } from './survey-row.ts';
export { falseAlarm, isWrong, VERDICTS, verdictOf } from './verdict.ts';
export { type Bench, type CloserPoint, stagesSay, type StageSays } from './survey-stages.ts';
export { type SupplyFacts } from './survey-supply.ts';
