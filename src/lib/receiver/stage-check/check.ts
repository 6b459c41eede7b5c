import { prepareAmplifier } from './amplifier.ts';
import type { Probe } from './circuit.ts';
import { addUp, currentsOf } from './currents.ts';
import { explain, grouped, scoreOf, weightOf } from './explain.ts';
import { impossibleReadings } from './impossible.ts';
import type { Evidence, Hypothesis, Observed } from './comparison.ts';
import { judgeAll, SOUND_STAGE } from './infer.ts';
import { lookNext } from './look-next.ts';
import { measuredOf, OHMMETER } from './part-value.ts';
import type { Prepared } from './prepared.ts';
import { prepareRectifier } from './rectifier.ts';
import { stageOf } from './stages.ts';
import { statementOf, verdictOf } from './statement.ts';
import { unseenIn } from './unseen.ts';
import type { Meter, PartId, PartValue, ReadingId, StageFinding, StageQuestion } from './types.ts';

const USUAL_METER: Meter = { ohms: 10e6 };
/** From one reading to the next, as a share: digits, ranges and mains. What the meter has wrong throughout is reckoned apart. */
const BETWEEN_READINGS = 0.005;
/** Standard error of something that lies anywhere within its limits; per cent of a meter where none is said. */
const UNIFORM = 0.58;
const USUAL_ACCURACY = 2;
/** V; less on the low range on which volts across a part, or through a leak, are read. */
const LAST_DIGIT = 0.02;
const FINE_DIGIT = 0.005;
const MOST_EXPLANATIONS = 6;
/** Chance below which a third explanation is only noise. */
const WORTH_NAMING = 0.002;

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
	[...stageOf(question).readings, ...stageOf(question).closer]
		.map(({ id }) => id)
		.filter((id) => id !== 'before' && question.readings[id] !== undefined)
		.map((reading) => ({ reading, ohms: meterFor(question, reading).ohms }));

/** Of a current that was worked out from volts across a part, as a share. */
const WORKED_OUT = 0.025;

/** They follow from a leak alone, whatever the valve does. */
const FROM_PARTS: readonly ReadingId[] = ['coupling-end', 'reservoir-lead', 'smoothing-lead'];
const ON_MILLIVOLTS: readonly ReadingId[] = ['grid-shunted', 'grid-no-avc'];
/** Taken on a low range of the meter. */
const onLowRange = (reading: ReadingId): boolean =>
	reading.endsWith('-drop') || ON_MILLIVOLTS.includes(reading) || FROM_PARTS.includes(reading);

/** A reading with its standard error against the others, V. Another meter than the usual one has an error of its own. */
function observed(question: StageQuestion, reading: ReadingId): Observed {
	const value = question.readings[reading]!;
	if (reading === 'direct-current') return { value, error: WORKED_OUT * value, exact: true };
	const other = question.readingMeter?.[reading];
	const own = other ? (UNIFORM * (other.accuracy ?? USUAL_ACCURACY)) / 100 : 0;
	const digit = onLowRange(reading) ? FINE_DIGIT : LAST_DIGIT;
	const error = Math.hypot(BETWEEN_READINGS * value, own * value, digit);
	return {
		value,
		error,
		...(FROM_PARTS.includes(reading) && { exact: true as const })
	};
}

/** A part that was measured cold. */
interface Cold<Figures> {
	key: keyof Figures;
	ohms: number;
}

/** Ohm; an ohmmeter that shows more shows an open part. */
const OVER_RANGE = 1e8;

function coldOf<Figures>(question: StageQuestion, { figureOf }: Prepared<Figures>): Cold<Figures>[] {
	const given = Object.entries(question.parts ?? {}) as [PartId, PartValue][];
	return given.flatMap(([id, part]): Cold<Figures>[] => {
		const key: keyof Figures | undefined = figureOf[id];
		const ohms = measuredOf(part) ?? 0;
		return key === undefined || ohms <= 0 ? [] : [{ key, ohms: Math.min(ohms, OVER_RANGE) }];
	});
}

/** All that was read and measured, beside what any circuit would show. */
function evidenceOf<Figures extends object>(
	question: StageQuestion,
	prepared: Prepared<Figures>,
	cold: readonly Cold<Figures>[]
): Evidence<Figures> {
	const probes = probesOf(question);
	// Values of parts are compared by ratio.
	const values = (figures: Figures) =>
		cold.map(({ key }) => Math.log(Math.min(figures[key] as number, OVER_RANGE)));
	const error = (UNIFORM * OHMMETER) / 100;
	return {
		sound: prepared.sound,
		spreads: prepared.spreads,
		readings: [
			...probes.map(({ reading }) => observed(question, reading)),
			...cold.map(({ ohms }): Observed => ({ value: Math.log(ohms), error, exact: true }))
		],
		foretell: (figures) => [...prepared.foretell(figures, probes), ...values(figures)],
		nudged: (figures) => [...prepared.nudged(figures), ...values(figures)]
	};
}

/** The faults with their weights; of a part that was measured, what was measured is looked at as a size. */
function hypotheses<Figures extends object>(
	question: StageQuestion,
	{ sound, faults }: Prepared<Figures>,
	cold: readonly Cold<Figures>[]
): Hypothesis<Figures>[] {
	const weighed = faults.map((row): Hypothesis<Figures> => {
		const { sizes } = row;
		const own = cold.find(({ key, ohms }) => sizes && row.set(sound, ohms)[key] === ohms);
		const within = own && sizes && own.ohms >= sizes.from && own.ohms <= sizes.to;
		const weight = weightOf(question, row);
		return within ? { ...row, weight, sizes: { ...sizes, also: own.ohms } } : { ...row, weight };
	});
	const weight = weighed.reduce((all, row) => all + row.weight, 0);
	return [{ id: SOUND_STAGE, weight, set: (figures) => figures, pins: [] }, ...weighed];
}

function finding<Figures extends object>(
	question: StageQuestion,
	prepared: Prepared<Figures>,
	start: Pick<StageFinding, 'currents' | 'addUp'>
): StageFinding {
	const cold = coldOf(question, prepared);
	const evidence = evidenceOf(question, prepared, cold);
	const count = evidence.readings.length;
	const judged = judgeAll(evidence, hypotheses(question, prepared, cold));
	const groups = grouped(judged, question, prepared.faults)
		.filter((group, i) => i < 2 || scoreOf(group) > WORTH_NAMING)
		.slice(0, MOST_EXPLANATIONS);
	const explanations = groups.map((group) => explain(question, prepared, group, count));
	const soundOne = judged.find(({ id }) => id === SOUND_STAGE)!;
	const verdict = verdictOf(soundOne, judged, count);
	const firsts = groups.map(([first]) => first);
	const unseen = verdict === 'sound' ? unseenIn(question, judged) : undefined;
	const next = lookNext(question, prepared, firsts, explanations, verdict);
	return {
		...start,
		verdict,
		statement: statementOf(verdict, explanations, { ...start, unseen }),
		explanations,
		...(next && { lookNext: next })
	};
}
