import type { Band, Calculation, Judgement } from './define.ts';
import { bandFor, judgedField, type Values } from './judge.ts';

/** How far outputs may be off either way, by field, in base units; only those that a tolerance reaches. */
export type Spreads = Readonly<Record<string, number>>;

/** Less than this share of the value is binary crumbs. */
const CRUMBS = 1e-9;

/** The results with one input moved up and down by its tolerance. */
interface Moved {
	up: Values;
	down: Values;
}

/** Each input with a tolerance (per cent, by field) moved by itself. What would be refused counts as not moved. */
export function movedBy(
	calculation: Calculation,
	given: Readonly<Record<string, unknown>>,
	tolerances: Readonly<Record<string, number>>,
	results: Values
): readonly Moved[] {
	return Object.entries(tolerances).map(([field, pct]) => {
		const value = given[field] as number;
		const at = (factor: number): Values => {
			const moved = { ...given, [field]: value * factor } as never;
			return calculation.refuse?.(moved) ? results : (calculation.formula(moved) as Values);
		};
		return { up: at(1 + pct / 100), down: at(1 - pct / 100) };
	});
}

/**
 * Carries tolerances to the results to first order: half of what an output moves by is added up over the inputs. That is the
 * worst case, fair while tolerances are small.
 */
export function spreadsOf(moved: readonly Moved[], results: Values): Spreads {
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

/** A finding in words may become another one where an input is moved. */
function verdictsOfWords(calculation: Calculation, judgement: Judgement, moved: readonly Moved[]): string[] {
	return moved
		.flatMap(({ up, down }) => [up, down])
		.flatMap((values) => {
			const word = values[judgedField(judgement, values) ?? ''];
			return typeof word === 'string' ? [bandFor(calculation, judgement, word).verdict] : [];
		});
}

/** Verdicts, other than those that were reached, which the tolerances would allow as well. */
export function otherVerdicts(
	calculation: Calculation,
	values: Values,
	moved: readonly Moved[],
	reached: readonly string[]
): string[] {
	const spreads = spreadsOf(moved, values);
	const possible = (calculation.judge ?? []).flatMap((judgement) => [
		...verdictsWithin(calculation, judgement, values, spreads),
		...verdictsOfWords(calculation, judgement, moved)
	]);
	return [...new Set(possible)].filter((verdict) => !reached.includes(verdict));
}
