import { printQuantity } from '../../quantity/index.ts';
import type { Prepared } from './prepared.ts';
import { type CauseRow, COMMON, type FaultRow } from './faults/types.ts';
import type { Judged } from './infer.ts';
import { SOUND_STAGE } from './infer.ts';
import { SOURCE_WEAK } from './faults/rectifier.ts';
import type { Cause, Explanation, FoundValue, ReadingId, StageQuestion } from './types.ts';

/** A part that was measured within so many per cent is not accused of a wrong value. */
const MEASURED = 3;
const INNOCENT = 0.02;

function causeWeight(
	question: StageQuestion,
	{ accuses, common }: Pick<CauseRow<unknown>, 'accuses' | 'common'>
): number {
	const part = accuses && question.parts?.[accuses];
	const measured = typeof part === 'object' && part.tolerance <= MEASURED;
	return COMMON[common] * (measured ? INNOCENT : 1);
}

/** How common a fault is, all its causes together. */
export const weightOf = <Figures>(question: StageQuestion, { causes }: FaultRow<Figures>): number =>
	causes.reduce((sum, cause) => sum + causeWeight(question, cause), 0);

type Group<Figures> = [Judged<Figures>, ...Judged<Figures>[]];

/** Faults that the readings taken cannot part stand together, the likeliest first. */
export function grouped<Figures>(
	judged: readonly Judged<Figures>[],
	{ readings }: StageQuestion,
	faults: readonly FaultRow<Figures>[]
): Group<Figures>[] {
	const groups = new Map<string, Group<Figures>>();
	for (const one of judged) {
		if (one.id === SOUND_STAGE) continue;
		const family = faults.find(({ id }) => id === one.id)?.family;
		const name =
			family !== undefined && (family !== SOURCE_WEAK || readings.ripple === undefined) ? family : one.id;
		const group = groups.get(name);
		if (group) group.push(one);
		else groups.set(name, [one]);
	}
	return [...groups.values()].sort((one, other) => scoreOf(other) - scoreOf(one));
}

/** Chance of a group together. */
export const scoreOf = (group: Group<unknown>): number => group.reduce((sum, { score }) => sum + score, 0);

export function explain<Figures extends object>(
	question: StageQuestion,
	prepared: Prepared<Figures>,
	group: Group<Figures>,
	count: number
): Explanation {
	const rowOf = ({ id }: Judged<Figures>) => prepared.faults.find((row) => row.id === id)!;
	const causes = group.flatMap((judged) =>
		[...rowOf(judged).causes]
			.sort((one, other) => causeWeight(question, other) - causeWeight(question, one))
			.map((cause) => causeOf(question, prepared, judged, { pins: rowOf(judged).pins, cause }))
	);
	const [first, ...rest] = causes as [Cause, ...Cause[]];
	const same = rest.filter(
		({ fault }, i) => fault !== first.fault && rest.findIndex((one) => one.fault === fault) === i
	);
	const { misfit } = group[0];
	return {
		...first,
		score: scoreOf(group),
		fit: misfit < count + 4 ? 'good' : misfit < 3 * count + 8 ? 'fair' : 'poor',
		same,
		partBy: same.length > 0 ? rowOf(group[0]).partBy : ''
	};
}

/** How far a part is stretched for the range of a size that is reckoned from it, in standard errors. */
const STRETCH = 1.7;

/** The sound stage, and the same with the parts that a fault bears on at either end of their tolerance. */
function stretched<Figures extends object>(
	{ sound, spreads }: Prepared<Figures>,
	pins: readonly (keyof Figures)[]
): Figures[] {
	const ends = spreads
		.filter(({ key, additive }) => !additive && pins.includes(key))
		.flatMap(({ key, sigma }) =>
			[-STRETCH, STRETCH].map((by) => ({ ...sound, [key]: (sound[key] as number) * Math.exp(by * sigma) }))
		);
	return [sound, ...ends];
}

function sizeOf<Figures extends object>(
	question: StageQuestion,
	prepared: Prepared<Figures>,
	{ size, low, high, circuit }: Judged<Figures>,
	{ pins, value }: { pins: readonly (keyof Figures)[]; value: NonNullable<CauseRow<Figures>['value']> }
): FoundValue | undefined {
	const likely = prepared.resting(circuit);
	// Where the meter changes nothing, what was read is better than what is reckoned.
	const resting = (id: ReadingId): number =>
		(id === 'grid' ? undefined : question.readings[id]) ?? likely(id);
	const before = question.readings.before ?? usualBefore(question);
	const at = (of: number, sound: Figures) => value.amount({ size: of, sound, circuit, resting, before });
	const amount = at(size, prepared.sound);
	if (!Number.isFinite(amount)) return undefined;
	const range = stretched(prepared, pins)
		.flatMap((sound) => [low, size, high].map((of) => at(of, sound)))
		.filter((one) => Number.isFinite(one) && one > 0);
	return { amount, low: Math.min(amount, ...range), high: Math.max(amount, ...range), unit: value.unit };
}

function causeOf<Figures extends object>(
	question: StageQuestion,
	prepared: Prepared<Figures>,
	judged: Judged<Figures>,
	row: { pins: readonly (keyof Figures)[]; cause: CauseRow<Figures> }
): Cause {
	const { fault, part, suspects, value, says } = row.cause;
	const found = value && sizeOf(question, prepared, judged, { pins: row.pins, value });
	return {
		fault,
		part,
		...(found && { value: found }),
		words: says(found ? printQuantity(found.amount, found.unit, { digits: 2 }) : ''),
		suspects
	};
}

/** Where the far side of the coupling capacitor was not read: an anode behind its load stands at some 40 % of HT. */
const usualBefore = ({ readings }: StageQuestion): number => 0.4 * (readings.ht ?? 250);
