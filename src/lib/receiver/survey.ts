/**
 * What needs the valve data: a survey, its expectations, a plan made of a line-up. Apart from `index.ts`, so that pages which only
 * read plans do not load the valves.
 */
export { workedOut, type PartValue, type Worked } from './currents.ts';
export {
	expectedVolts,
	sourceAt,
	toHt,
	typicalHt,
	type Expectation,
	type MeasuredHt,
	type SheetFacts,
	type Today
} from './expected.ts';
export {
	nearestPlan,
	placeLineUp,
	planWith,
	traitsBy,
	typesIn,
	type NearestPlan,
	type SixAnswers
} from './nearest-plan.ts';
export { impossibleIn, patternOf, type LineNames } from './pattern.ts';
export { questionReading, type Question } from './question-reading.ts';
export { surveyPoints, type SurveyPoint } from './survey-points.ts';
export { readAt, type SurveyRow } from './survey-row.ts';
export { falseAlarm, VERDICTS, verdictOf, type Verdict } from './verdict.ts';
export { stagesSay, type StageSays } from './survey-stages.ts';
