import type { Expectation } from './expected.ts';
import type { SurveyPoint } from './survey-points.ts';
import type { Tuned } from './tuned.ts';
import type { Verdict } from './verdict.ts';

/** One line of a survey as it stands: what is expected, what was read, what that says. */
export interface SurveyRow {
	point: SurveyPoint;
	/** At the HT that the set should have; `now` is the same at the HT that it has. */
	expected: Expectation | undefined;
	now: Expectation | undefined;
	/** Volts, as read last. */
	reading: number | undefined;
	/** It was read with the valve out of its holder. */
	out: boolean;
	/** What the set was doing meanwhile; nothing: no station came in. */
	tuned?: Tuned | undefined;
	verdict: Verdict | undefined;
	/** Why it looks wrong and is not. */
	alarm: string | undefined;
}

/** What was read at a point, with its valve in. */
export const readAt = (rows: readonly SurveyRow[], id: string): number | undefined =>
	rows.find(({ point, out }) => point.id === id && !out)?.reading;
