import type { Band, Calculation, Judgement } from './define.ts';
import { bandFor, judgedField, type Values } from './judge.ts';

/** How far outputs may be off either way, by field, in base units; only those that a tolerance reaches. */
export type Spreads = Readonly<Record<string, number>>;

/** Less than this share of the value is binary crumbs. */
const CRUMBS = 1e-9;

/**
 * Carries tolerances (per cent, by input field) through the formula to first order: each input is moved up and down by its
 * tolerance, and half of what an output moves by is added up. That is the worst case, fair while tolerances are small.
 */
export function spreadsOf(
	calculation: Calculation,
	given: Readonly<Record<string, unknown>>,
	tolerances: Readonly<Record<string, number>>,
	results: Values
): Spreads {
	const moved = Object.entries(tolerances).map(([field, pct]) => {
		const value = given[field] as number;
		const at = (factor: number): Values =>
			calculation.formula({ ...given, [field]: value * factor } as never) as Values;
		return { up: at(1 + pct / 100), down: at(1 - pct / 100) };
	});
	const spreads = Object.entries(results).flatMap(([field, value]) => {
		if (typeof value !== 'number') return [];
		const halves = moved.map(({ up, down }) => Math.abs(Number(up[field]) - Number(down[field])) / 2);
		const spread = halves.reduce((sum, half) => sum + half, 0);
		return Number.isFinite(spread) && spread > CRUMBS * Math.abs(value) ? [[field, spread] as const] : [];
	});
	return Object.fromEntries(spreads);
}

const edgesOf = ({ upTo, below }: Band): number[] =>
	[upTo, below].filter((edge): edge is number => edge !== undefined);

function verdictsWithin(
	calculation: Calculation,
	judgement: Judgement,
	values: Values,
	spreads: Spreads
): string[] {
	const field = judgedField(judgement, values);
	const value = field === undefined ? undefined : values[field];
	const spread = spreads[field ?? ''];
	if (typeof value !== 'number' || spread === undefined) return [];
	const [low, high] = [value - spread, value + spread];
	// A band that is narrower than the spread lies wholly inside: its edges are looked at too.
	const inside = judgement.bands.flatMap(edgesOf).filter((edge) => edge > low && edge < high);
	return [low, ...inside, high].map((at) => bandFor(calculation, judgement, at).verdict);
}

/** Verdicts, other than those that were reached, which the tolerances would allow as well. */
export function otherVerdicts(
	calculation: Calculation,
	values: Values,
	spreads: Spreads,
	reached: readonly string[]
): string[] {
	const possible = (calculation.judge ?? []).flatMap((judgement) =>
		verdictsWithin(calculation, judgement, values, spreads)
	);
	return [...new Set(possible)].filter((verdict) => !reached.includes(verdict));
}
