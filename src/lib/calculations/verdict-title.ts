import type { Calculation } from './define.ts';

/** Verdicts that many sums share, as they are read out. */
const SHARED: Readonly<Record<string, string>> = { ok: 'In order', watch: 'Keep an eye on it' };

/** A verdict as it is read out: `Draws too much`. */
export function verdictTitle({ verdicts = [] }: Calculation, verdict: string): string {
	const own = verdicts.find((one) => one.verdict === verdict)?.title ?? SHARED[verdict];
	return own ?? (verdict.charAt(0).toUpperCase() + verdict.slice(1)).replaceAll('-', ' ');
}
