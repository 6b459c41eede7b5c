export { checkPlan, type PlanProblem } from './check.ts';
export { downstream, placeOf, placesWith, pointsOn, reaches, stagesOn, upstream } from './paths.ts';
export { PART_KINDS, PartKind, Plan, PlanTraits, Section, Sources, type Place } from './plan.ts';
export { SECTION_IDS, SECTIONS, type SectionId } from './sections.ts';
export { fits, TRAIT_NAMES, TRAITS, type TraitFilter, type TraitName, type Traits } from './traits.ts';
