export interface Interval {
	low: number;
	high: number;
}

/** A tolerance in per cent, the same both ways or, as on old electrolytics, more up than down. Each zero or more. */
export type Tolerance = number | { plus: number; minus: number };

/** One factor of a product: its tolerance in per cent and the power it is raised to (-1 for a divisor, 2 for a square). */
export interface Factor {
	pct: number;
	power?: number;
}

/** The values that a part or reading may really have: 4700 with 20 is 3760 to 5640. Low is the lesser number, sign included. */
export function withTolerance(value: number, tolerance: Tolerance): Interval {
	const { plus, minus } = typeof tolerance === 'number' ? { plus: tolerance, minus: tolerance } : tolerance;
	const size = Math.abs(value);
	const [up, down] = value < 0 ? [minus, plus] : [plus, minus];
	return { low: value - (size * down) / 100, high: value + (size * up) / 100 };
}

/**
 * The tolerance in per cent of a product or quotient, to first order: relative errors add, each as often as its factor stands
 * there. V²/R with 2 % and 10 % is 2·2 + 10 = 14 %. This is the worst case, and fair while the sum stays well below 100 %.
 */
export function scaleTolerance(...factors: readonly (number | Factor)[]): number {
	return factors.reduce<number>((sum, factor) => {
		const { pct, power = 1 } = typeof factor === 'number' ? { pct: factor } : factor;
		return sum + Math.abs(pct * power);
	}, 0);
}

/** What stands before the ±, and the tolerance in per cent, 0 to 80. */
export type SplitTolerance = { ok: true; text: string; pct: number } | { ok: false; hint: string };

/** Beyond this a worst case to first order says nothing any more. Our own choice. */
const WIDEST_PCT = 80;

/** Parts `4k7 ±10 %` (also `+-10`, `+/-10%`) into value and tolerance; undefined where no tolerance stands behind a value. */
export function splitTolerance(text: string): SplitTolerance | undefined {
	const match = /^(.*?\S)\s*(?:±|\+\/?[-−])\s*(.*)$/s.exec(text.trim());
	if (!match) return undefined;
	const [, value = '', behind = ''] = match;
	const figure = /^(\d+\.?\d*|\.\d+)\s*%?$/.exec(behind.trim())?.[1];
	const pct = Number(figure);
	if (figure !== undefined && pct <= WIDEST_PCT) return { ok: true, text: value, pct };
	return {
		ok: false,
		hint: `Behind ± stands a tolerance of 0 to ${WIDEST_PCT} per cent, for example ±10 %.`
	};
}
