import { printQuantity } from '../../quantity/index.ts';
import { prepareAmplifier, type Prepared } from './amplifier.ts';
import type { Probe } from './circuit.ts';
import { addUp, currentsOf } from './currents.ts';
import { type CauseRow, COMMON, type FaultRow } from './fault-types.ts';
import { impossibleReadings } from './impossible.ts';
import { type Evidence, type Hypothesis, judgeAll, type Judged } from './infer.ts';
import { lookNext } from './look-next.ts';
import { prepareRectifier } from './rectifier.ts';
import { SOURCE_WEAK } from './rectifier-faults.ts';
import { STAGES } from './stages.ts';
import { statementOf, verdictOf } from './statement.ts';
import type { Cause, Explanation, Meter, ReadingId, StageFinding, StageQuestion } from './types.ts';

const USUAL_METER: Meter = { ohms: 10e6 };
/** From one reading to the next, as a share: digits, ranges and mains. What the meter has wrong throughout is reckoned apart. */
const BETWEEN_READINGS = 0.005;
/** V. */
const LAST_DIGIT = 0.02;
const SOUND = 'sound';
/** A part that was measured within so many per cent is not accused of a wrong value. */
const MEASURED = 3;
const INNOCENT = 0.02;
const MOST_EXPLANATIONS = 6;

/** Puts the readings of one stage together: what flows, whether it adds up, and which single fault would explain it. */
export function checkStage(question: StageQuestion): StageFinding {
	const currents = currentsOf(question);
	const sum = addUp(question, currents);
	const start = { currents, ...(sum && { addUp: sum }) };
	const impossible = impossibleReadings(question);
	if (impossible.length > 0)
		return { ...start, verdict: 'impossible', statement: impossible.join(' '), explanations: [] };
	if (probesOf(question).length < 2 || question.valveOut)
		return {
			...start,
			verdict: 'too-little',
			statement: question.valveOut
				? 'With the valve out its stage cannot be checked. Read the points again with the valve in.'
				: 'Too few readings: take HT and at least one electrode.',
			explanations: []
		};
	return question.stage === 'rectifier'
		? finding(question, prepareRectifier(question), start)
		: finding(question, prepareAmplifier(question), start);
}

const meterFor = ({ meter = USUAL_METER, readingMeter }: StageQuestion, reading: ReadingId): Meter =>
	readingMeter?.[reading] ?? meter;

/** The readings that a circuit foretells; what feeds a coupling capacitor is only taken note of. */
const probesOf = (question: StageQuestion): Probe[] =>
	STAGES[question.stage].readings
		.map(({ id }) => id)
		.filter((id) => id !== 'before' && question.readings[id] !== undefined)
		.map((reading) => ({ reading, ohms: meterFor(question, reading).ohms }));

/** Standard error of a reading against the others of the same meter, V. */
const errorOf = (volts: number): number => Math.hypot(BETWEEN_READINGS * volts, LAST_DIGIT);

function finding<Figures extends object>(
	question: StageQuestion,
	prepared: Prepared<Figures>,
	start: Pick<StageFinding, 'currents' | 'addUp'>
): StageFinding {
	const probes = probesOf(question);
	const { sound, spreads, faults } = prepared;
	const readings = probes.map(({ reading }) => question.readings[reading]!);
	const evidence: Evidence<Figures> = {
		sound,
		spreads,
		readings,
		foretell: (figures) => prepared.foretell(figures, probes),
		errors: readings.map(errorOf)
	};
	const weighed = faults.map((row) => ({ ...row, weight: weightOf(question, row) }));
	const weight = weighed.reduce((all, row) => all + row.weight, 0);
	const healthy: Hypothesis<Figures> = { id: SOUND, weight, set: (figures) => figures, pins: [] };
	const judged = judgeAll(evidence, [healthy, ...weighed]);
	const groups = grouped(judged, question, faults).slice(0, MOST_EXPLANATIONS);
	const explanations = groups.map((group) => explain(question, prepared, group, readings.length));
	const soundOne = judged.find(({ id }) => id === SOUND)!;
	const verdict = verdictOf(soundOne, judged, readings.length);
	const next = lookNext(
		question,
		prepared,
		judged.filter(({ id }) => id !== SOUND),
		explanations,
		verdict
	);
	return {
		...start,
		verdict,
		statement: statementOf(verdict, explanations, start),
		explanations,
		...(next && { lookNext: next })
	};
}

function causeWeight(
	question: StageQuestion,
	{ accuses, common }: Pick<CauseRow<unknown>, 'accuses' | 'common'>
): number {
	const part = accuses && question.parts?.[accuses];
	const measured = typeof part === 'object' && part.tolerance <= MEASURED;
	return COMMON[common] * (measured ? INNOCENT : 1);
}

const weightOf = <Figures>(question: StageQuestion, { causes }: FaultRow<Figures>): number =>
	causes.reduce((sum, cause) => sum + causeWeight(question, cause), 0);

type Group<Figures> = [Judged<Figures>, ...Judged<Figures>[]];

/** Faults that the readings taken cannot part stand together, the likeliest first. */
function grouped<Figures>(
	judged: readonly Judged<Figures>[],
	{ readings }: StageQuestion,
	faults: readonly FaultRow<Figures>[]
): Group<Figures>[] {
	const groups = new Map<string, Group<Figures>>();
	for (const one of judged) {
		if (one.id === SOUND) continue;
		const family = faults.find(({ id }) => id === one.id)?.family;
		const name =
			family !== undefined && (family !== SOURCE_WEAK || readings.ripple === undefined) ? family : one.id;
		const group = groups.get(name);
		if (group) group.push(one);
		else groups.set(name, [one]);
	}
	return [...groups.values()].sort((one, other) => scoreOf(other) - scoreOf(one));
}

const scoreOf = (group: Group<unknown>): number => group.reduce((sum, { score }) => sum + score, 0);

function explain<Figures extends object>(
	question: StageQuestion,
	prepared: Prepared<Figures>,
	group: Group<Figures>,
	count: number
): Explanation {
	const rowOf = ({ id }: Judged<Figures>) => prepared.faults.find((row) => row.id === id)!;
	const causes = group.flatMap((judged) =>
		[...rowOf(judged).causes]
			.sort((one, other) => causeWeight(question, other) - causeWeight(question, one))
			.map((cause) => causeOf(question, prepared, judged, cause))
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

function causeOf<Figures extends object>(
	question: StageQuestion,
	prepared: Prepared<Figures>,
	{ size, low, high, circuit }: Judged<Figures>,
	{ fault, part, suspects, value, says }: CauseRow<Figures>
): Cause {
	const resting = prepared.resting(circuit);
	const before = question.readings.before ?? usualBefore(question);
	const amountAt = (at: number) =>
		value?.amount({ size: at, sound: prepared.sound, circuit, resting, before }) ?? NaN;
	const amount = amountAt(size);
	const found =
		value && Number.isFinite(amount)
			? {
					amount,
					low: Math.min(amountAt(low), amountAt(high), amount),
					high: Math.max(amountAt(low), amountAt(high), amount),
					unit: value.unit
				}
			: undefined;
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
