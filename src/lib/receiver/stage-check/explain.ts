import { printQuantity } from '../../quantity/index.ts';
import type { Prepared } from './prepared.ts';
import { type CauseRow, COMMON, type FaultRow, type Proof, type Told } from './faults/types.ts';
import type { Judged } from './infer.ts';
import { SOUND_STAGE } from './infer.ts';
import type { Cause, Explanation, FoundValue, StageQuestion } from './types.ts';

/** A part that was measured within so many per cent is not accused of a wrong value. */
const MEASURED = 3;
const INNOCENT = 0.02;

function causeWeight(
	question: StageQuestion,
	{ accuses, common }: Pick<CauseRow, 'accuses' | 'common'>
): number {
	const part = accuses && question.parts?.[accuses];
	const measured = typeof part === 'object' && (part.tolerance ?? Infinity) <= MEASURED;
	return COMMON[common] * (measured ? INNOCENT : 1);
}

/** How common a fault is, all its causes together. */
export const weightOf = <Figures>(question: StageQuestion, { causes }: FaultRow<Figures>): number =>
	causes.reduce((sum, cause) => sum + causeWeight(question, cause), 0);

/** Whether a reading was taken, or a part measured. */
export function wasDone({ readings, parts }: StageQuestion, proof: Proof): boolean {
	if ('reading' in proof) return readings[proof.reading] !== undefined;
	const part = parts?.[proof.part];
	return (
		typeof part === 'object' && (part.measured !== undefined || (part.tolerance ?? Infinity) <= MEASURED)
	);
}

type Group<Figures> = [Judged<Figures>, ...Judged<Figures>[]];

/** Faults that the readings taken cannot part stand together, the likeliest first. */
export function grouped<Figures>(
	judged: readonly Judged<Figures>[],
	question: StageQuestion,
	faults: readonly FaultRow<Figures>[]
): Group<Figures>[] {
	const groups = new Map<string, Group<Figures>>();
	for (const one of judged) {
		if (one.id === SOUND_STAGE) continue;
		const { family, parted = [] } = faults.find(({ id }) => id === one.id)!;
		const name = family !== undefined && !parted.some((proof) => wasDone(question, proof)) ? family : one.id;
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
	{ faults }: Prepared<Figures>,
	group: Group<Figures>,
	count: number
): Explanation {
	const rowOf = ({ id }: Judged<Figures>) => faults.find((row) => row.id === id)!;
	const causes = group.flatMap((judged) =>
		[...rowOf(judged).causes]
			.sort((one, other) => causeWeight(question, other) - causeWeight(question, one))
			.map((cause) => causeOf(judged, cause))
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

/** From such a ratio between the ends of its range a size is not told by the readings. */
const TOO_WIDE = 5;

function sizeOf({ size, low, high }: Judged<never>, { unit, scale = 1 }: Told): FoundValue {
	return {
		amount: scale * size,
		low: scale * low,
		high: scale * high,
		unit,
		...(high > TOO_WIDE * low && { hidden: true as const })
	};
}

const HIDDEN = 'a size that these volts do not show';
/** Ends of a range that lie nearer together than this are not told. */
const SHARP = 1.3;

/** `12 MΩ (8.1 MΩ to 19 MΩ)`. */
function sizeWords({ amount, low, high, unit, hidden }: FoundValue): string {
	if (hidden) return HIDDEN;
	const print = (value: number) => printQuantity(value, unit, { digits: 2 });
	return high < SHARP * low ? print(amount) : `${print(amount)} (${print(low)} to ${print(high)})`;
}

function causeOf<Figures>(judged: Judged<Figures>, { fault, part, suspects, value, says }: CauseRow): Cause {
	const found = value && sizeOf(judged as Judged<never>, value);
	return {
		fault,
		part,
		...(found && { value: found }),
		words: says(found ? sizeWords(found) : ''),
		suspects
	};
}
