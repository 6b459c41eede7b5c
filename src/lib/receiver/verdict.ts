import type { Expectation } from './expected.ts';

/** A reading against what a sound set shows. */
export type Verdict = 'as-expected' | 'high' | 'low' | 'absent' | 'set-aside' | 'unknown';

export const VERDICTS: Readonly<Record<Verdict, { word: string; arrow: string }>> = {
	'as-expected': { word: 'as expected', arrow: '=' },
	high: { word: 'high', arrow: '▲' },
	low: { word: 'low', arrow: '▼' },
	absent: { word: 'absent', arrow: '✕' },
	'set-aside': { word: 'not judged', arrow: '~' },
	unknown: { word: 'nothing to compare with', arrow: '?' }
};

/** Whether a reading speaks of a fault. One that the tuning of the set explains does not. */
export const isWrong = (verdict: Verdict | undefined): boolean =>
	verdict === 'high' || verdict === 'low' || verdict === 'absent';

/** Below this share of what is expected the volts are absent, as in the steps of the flows. */
const ABSENT = 0.1;

export function verdictOf(value: number, expected: Expectation | undefined): Verdict {
	if (!expected) return 'unknown';
	if (value >= expected.from && value <= expected.to) return 'as-expected';
	const wanted = Math.abs(expected.value);
	// Under a volt nobody calls a cathode absent: it reads low.
	if (wanted >= 1 && Math.abs(value) < ABSENT * wanted) return 'absent';
	// A bias of -12 V in place of -7 V is called high.
	if (expected.value < 0) return value > expected.to ? 'low' : 'high';
	return value < expected.from ? 'low' : 'high';
}

/**
 * Why a reading that looks wrong beside the sheet is none: what was printed would have said otherwise, what is expected today
 * says as expected. Nothing where the two agree.
 */
export function falseAlarm(value: number, expected: Expectation | undefined): string | undefined {
	if (!expected || expected.printed === undefined || expected.steps.length === 0) return undefined;
	if (verdictOf(value, expected) !== 'as-expected') return undefined;
	const width = Math.abs(expected.printed) * 0.2;
	const off =
		value < expected.printed - width ? 'low' : value > expected.printed + width ? 'high' : undefined;
	return off && `No fault: beside the sheet it looks ${off}, but ${expected.steps.join('; ')}.`;
}
