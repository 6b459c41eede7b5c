export { HT_NEGATIVE } from './back-bias.ts';
export { dutiesOf, type Duty } from './duties.ts';
export { checkPlan, type PlanProblem } from './check.ts';
export { downstream, placeOf, placesWith, pointsOn, reaches, stagesOn, upstream } from './paths.ts';
// The schema stays out of here: pages that only read plans need no zod. It is in `plan.ts`.
export { NO_ELECTRODE } from './no-electrode.ts';
export type { PartKind, Place, Plan } from './plan.ts';
export { SECTION_IDS, SECTIONS, type SectionId } from './sections.ts';
export { movedByTuning, TUNED, TUNED_WORDS, tuningMoves, type Tuned } from './tuned.ts';
export { fits, TRAIT_NAMES, TRAITS, type TraitFilter, type TraitName, type Traits } from './traits.ts';
