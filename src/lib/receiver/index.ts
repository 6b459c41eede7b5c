export { checkPlan, type PlanProblem } from './check.ts';
export { downstream, placeOf, placesWith, pointsOn, reaches, stagesOn, upstream } from './paths.ts';
// The schema stays out of here: pages that only read plans need no zod. It is in `plan.ts`.
export type { PartKind, Place, Plan } from './plan.ts';
export { SECTION_IDS, SECTIONS, type SectionId } from './sections.ts';
export { fits, TRAIT_NAMES, TRAITS, type TraitFilter, type TraitName, type Traits } from './traits.ts';
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
