import type { Finding } from '../finding.ts';
import type { Library, Origins } from '../library.ts';
import { outcomesLeaveAGap, outcomesOverlap, rangeUnreadable } from './bands.ts';
import { calculationFill } from './calculation-fill.ts';
import { liveWithoutCaution } from './cautions.ts';
import { kindMissing } from './kinds.ts';
import { provokeTwoOutcomes } from './provoking.ts';
import { noPlanFits, unreachableStep } from './reach.ts';
import { neverSeparated } from './separation.ts';
import type { Check } from './types.ts';
import { unknownName } from './unknown-name.ts';
import { maybeWords, rarerThanHealthy } from './wording.ts';

/** Checks that read names come first: the others trust them. */
export const NAME_CHECKS: readonly Check[] = [unknownName, rangeUnreadable];
export const CHECKS: readonly Check[] = [
	...NAME_CHECKS,
	outcomesLeaveAGap,
	outcomesOverlap,
	noPlanFits,
	unreachableStep,
	liveWithoutCaution,
	calculationFill,
	kindMissing,
	provokeTwoOutcomes,
	neverSeparated,
	rarerThanHealthy,
	maybeWords
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
