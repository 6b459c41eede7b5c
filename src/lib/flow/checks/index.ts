import type { Finding } from '../finding.ts';
import type { Library, Origins } from '../library.ts';
import { contradictsPlan } from './contradicts-plan.ts';
import { contradictsShared } from './contradicts-shared.ts';
import { outcomesLeaveAGap, outcomesOverlap, rangeUnreadable } from './bands.ts';
import { calculationFill } from './calculation-fill.ts';
import { liveWithoutCaution } from './cautions.ts';
import { firstNotUsed } from './first-not-used.ts';
import { irrelevantStep } from './irrelevant-step.ts';
import { kindMissing } from './kinds.ts';
import { maybeWords } from './maybe-words.ts';
import { ownIdTwice } from './own-id-twice.ts';
import { pointlessNext } from './pointless-next.ts';
import { prematureStep } from './premature-step.ts';
import { provokeTwoOutcomes } from './provoking.ts';
import { rarerThanHealthy } from './rarer-than-healthy.ts';
import { noPlanFits, unreachableStep } from './reach.ts';
import { redundantStep } from './redundant-step.ts';
import { sentenceTooLong } from './sentence-too-long.ts';
import { neverSeparated } from './separation.ts';
import { splitsBadly } from './splits-badly.ts';
import { stepTooLong } from './step-too-long.ts';
import { todo } from './todo.ts';
import type { Check } from './types.ts';
import { unknownName } from './unknown-name.ts';

/** Checks that read names come first: the others trust them. */
export const NAME_CHECKS: readonly Check[] = [unknownName, rangeUnreadable];
export const CHECKS: readonly Check[] = [
	...NAME_CHECKS,
	outcomesLeaveAGap,
	outcomesOverlap,
	noPlanFits,
	unreachableStep,
	firstNotUsed,
	liveWithoutCaution,
	calculationFill,
	kindMissing,
	provokeTwoOutcomes,
	neverSeparated,
	rarerThanHealthy,
	maybeWords,
	ownIdTwice,
	todo,
	splitsBadly,
	pointlessNext,
	redundantStep,
	prematureStep,
	irrelevantStep,
	contradictsPlan,
	contradictsShared,
	stepTooLong,
	sentenceTooLong
];

const run = (checks: readonly Check[], library: Library, origins: Origins): Finding[] =>
	checks.flatMap(({ code, level, check }) =>
		check(library, origins).map((complaint) => ({ code, level, ...complaint }))
	);

/** Everything that a schema cannot see. */
export function runChecks(library: Library, origins: Origins): Finding[] {
	const names = run(NAME_CHECKS, library, origins);
	return names.length ? names : run(CHECKS.slice(NAME_CHECKS.length), library, origins);
}
