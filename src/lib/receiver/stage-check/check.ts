import { prepareAmplifier } from './amplifier.ts';
import type { Probe } from './circuit.ts';
import { addUp, currentsOf } from './currents.ts';
import { explain, grouped, scoreOf, weightOf } from './explain.ts';
import { impossibleReadings } from './impossible.ts';
import { type Evidence, type Hypothesis, judgeAll, SOUND_STAGE } from './infer.ts';
import { lookNext } from './look-next.ts';
import type { Prepared } from './prepared.ts';
import { prepareRectifier } from './rectifier.ts';
import { STAGES } from './stages.ts';
import { statementOf, verdictOf } from './statement.ts';
import type { Meter, ReadingId, StageFinding, StageQuestion } from './types.ts';

const USUAL_METER: Meter = { ohms: 10e6 };
/** From one reading to the next, as a share: digits, ranges and mains. What the meter has wrong throughout is reckoned apart. */
const BETWEEN_READINGS = 0.005;
/** Standard error of something that lies anywhere within its limits; per cent of a meter where none is said. */
const UNIFORM = 0.58;
const USUAL_ACCURACY = 2;
/** V. */
const LAST_DIGIT = 0.02;
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
	STAGES[question.stage].readings
		.map(({ id }) => id)
		.filter((id) => id !== 'before' && question.readings[id] !== undefined)
		.map((reading) => ({ reading, ohms: meterFor(question, reading).ohms }));

/** Standard error of a reading against the others, V. Another meter than the usual one has an error of its own. */
function errorOf(question: StageQuestion, reading: ReadingId, volts: number): number {
	const other = question.readingMeter?.[reading];
	const own = other ? (UNIFORM * (other.accuracy ?? USUAL_ACCURACY)) / 100 : 0;
	return Math.hypot(BETWEEN_READINGS * volts, own * volts, LAST_DIGIT);
}

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
		nudged: prepared.nudged,
		errors: probes.map(({ reading }, i) => errorOf(question, reading, readings[i]!))
	};
	const weighed = faults.map((row) => ({ ...row, weight: weightOf(question, row) }));
	const weight = weighed.reduce((all, row) => all + row.weight, 0);
	const healthy: Hypothesis<Figures> = { id: SOUND_STAGE, weight, set: (figures) => figures, pins: [] };
	const judged = judgeAll(evidence, [healthy, ...weighed]);
	const groups = grouped(judged, question, faults)
		.filter((group, i) => i < 2 || scoreOf(group) > WORTH_NAMING)
		.slice(0, MOST_EXPLANATIONS);
	const explanations = groups.map((group) => explain(question, prepared, group, readings.length));
	const soundOne = judged.find(({ id }) => id === SOUND_STAGE)!;
	const verdict = verdictOf(soundOne, judged, readings.length);
	const next = lookNext(
		question,
		prepared,
		groups.map(([first]) => first),
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
