import { printQuantity } from '../../quantity/index.ts';
import { wasDone } from './explain.ts';
import type { Proof } from './faults/types.ts';
import type { Judged } from './infer.ts';
import type { Prepared } from './prepared.ts';
import { askable, stageOf } from './stages.ts';
import { isControlled } from './unseen.ts';
import type { Explanation, PartId, ReadingId, StageFinding, StageQuestion, Verdict } from './types.ts';

const USUAL_METER_OHMS = 10e6;
/** Standard errors between two foretold readings, from which on the reading tells them apart. */
const TELLS = 3;
/** Error of a foretold reading, as a share, and V. */
const FORETOLD = { share: 0.07, volts: 0.1 };
/** Below this chance a second explanation is not worth a reading. */
const WORTH = 0.03;

/** `Screen` becomes `screen`, `HT` stays. */
const inSentence = (label: string): string =>
	/^[A-Z][a-z]/.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;

const volts = (value: number): string => printQuantity(value, 'V', { digits: value < 10 ? 2 : 3 });

/** The reading that best parts the first two explanations, or else what to do at the first one. */
export function lookNext<Figures extends object>(
	question: StageQuestion,
	prepared: Prepared<Figures>,
	judged: readonly Judged<Figures>[],
	explanations: readonly Explanation[],
	verdict: Verdict
): StageFinding['lookNext'] {
	const [first, second] = explanations;
	if (!first || verdict === 'unexplained') return undefined;
	if (verdict === 'sound') return unseenCurrent(question, explanations);
	const dead = coldFirst(question);
	if (dead) return dead;
	const [one, other] = judged;
	if (one && other && second && second.score > WORTH) {
		const best = tellingReading(question, prepared, one, other);
		if (best)
			return {
				reading: best.id,
				words: `Read the ${inSentence(best.label)}: ${speaksFor([best.one, first], [best.other, second])}`
			};
	}
	const proof = one && sharpening(question, prepared, one, first);
	if (proof) return proof;
	return {
		words:
			first.partBy ||
			`Unplugged and discharged: measure or exchange the ${first.part} alone, then read the stage again.`
	};
}

/** V; what stands below it may be shorted: nobody reads on under power. */
const LEAST_HT = 20;
const NO_HT =
	'Unplug the set, prove it dead, and measure from the reservoir to chassis with the ohmmeter. Next to nothing: the reservoir or what hangs on it is shorted. Many kilohms: the heater of the rectifier, then its surge resistor.';
const NO_LINE =
	'Unplug the set, prove it dead, and measure from the smoothed line to chassis with the ohmmeter. Next to nothing: its capacitor or what hangs on it is shorted. Many kilohms: measure the smoothing resistor or choke.';

/** A supply without volts is not read further. */
function coldFirst({ stage, readings }: StageQuestion): StageFinding['lookNext'] {
	if (stage !== 'rectifier') return undefined;
	const { reservoir = Infinity, smoothed = Infinity } = readings;
	return reservoir < LEAST_HT ? { words: NO_HT } : smoothed < LEAST_HT ? { words: NO_LINE } : undefined;
}

type Foretold = readonly [number, Explanation];

/** By the parts where they differ, else by what is wrong with each. */
const speaksFor = ([one, first]: Foretold, [other, second]: Foretold): string =>
	first.part === second.part
		? `about ${volts(one)} speaks for this: ${first.words} About ${volts(other)} speaks for this: ${second.words}`
		: `about ${volts(one)} speaks for the ${first.part}, about ${volts(other)} for the ${second.part}.`;

/** From this chance on, what does not show in the volts of a sound stage is worth its proof. */
const SUSPECTED = 0.02;
/** The same of a grid on an AVC line that was read, and of one that was not. */
const LIFTED = { read: 0.015, unread: 0.05 };

/** What the volts of a sound stage may hide, where that is worth a reading. */
const unseenCurrent = (
	question: StageQuestion,
	explanations: readonly Explanation[]
): StageFinding['lookNext'] =>
	isControlled(question) ? liftedGrid(question, explanations) : unseenLeak(question, explanations[0]);

/** Near zero bias a small leak of the coupling capacitor is lost in the grid current of the valve. */
function unseenLeak(question: StageQuestion, first: Explanation | undefined): StageFinding['lookNext'] {
	const proof = { reading: 'coupling-end' } as const;
	const unseen = first?.fault === 'coupling-leak' && first.value?.hidden && first.score > SUSPECTED;
	return unseen && !wasDone(question, proof) ? asked(question, proof) : undefined;
}

/** Behind an AVC line grid current and leaks are lost in its resting volts, which nobody knows. */
function liftedGrid(question: StageQuestion, explanations: readonly Explanation[]): StageFinding['lookNext'] {
	const proof = { reading: 'grid-no-avc' } as const;
	const least = question.readings.grid === undefined ? LIFTED.unread : LIFTED.read;
	const lifted = explanations.some(
		({ fault, score }) => score > least && (fault === 'coupling-leak' || fault === 'grid-current')
	);
	return lifted && !wasDone(question, proof) ? asked(question, proof) : undefined;
}

/** A size that lies within a quarter or so either way needs no further reading. */
const SHARP = 1.3;

/** What tells the size of the first explanation better, where that is worth it. */
function sharpening<Figures extends object>(
	question: StageQuestion,
	{ faults, figureOf }: Prepared<Figures>,
	{ id }: Judged<Figures>,
	{ value, same }: Explanation
): StageFinding['lookNext'] {
	const { proofs = [], parted = [] } = faults.find((row) => row.id === id)!;
	const wanted = same.length > 0 ? [...proofs, ...parted] : proofs;
	if (value && value.high < SHARP * value.low && same.length === 0) return undefined;
	const open = wanted.filter((proof) => !wasDone(question, proof) && canBeDone(question, figureOf, proof));
	return open[0] && asked(question, open[0]);
}

/** There is such a part, or such a reading, in this stage. */
function canBeDone(
	question: StageQuestion,
	figureOf: Readonly<Partial<Record<PartId, unknown>>>,
	proof: Proof
): boolean {
	const { readings, closer } = stageOf(question);
	if ('reading' in proof) return [...readings, ...closer].some(({ id }) => id === proof.reading);
	return figureOf[proof.part] !== undefined && question.parts?.[proof.part] !== 0;
}

function asked(question: StageQuestion, proof: Proof): NonNullable<StageFinding['lookNext']> {
	const { names = {} } = question;
	const stage = stageOf(question);
	const { readings, parts } = stage;
	if ('part' in proof) {
		const label = parts.find(({ id }) => id === proof.part)?.label ?? proof.part;
		const name = names[proof.part];
		return {
			part: proof.part,
			words: `Unplugged and discharged: lift one end of ${name === undefined ? `the ${inSentence(label)}` : `${name} (${inSentence(label)})`} and measure it. The size follows from its real value.`
		};
	}
	const close = askable(stage).find(({ id }) => id === proof.reading);
	const label = readings.find(({ id }) => id === proof.reading)?.label ?? proof.reading;
	const name = close?.of && names[close.of];
	const how = name && close.said ? close.how.replace(close.said, name) : close?.how;
	return {
		reading: proof.reading,
		words: how ?? `Read the ${inSentence(label)}: the size follows from it.`
	};
}

function tellingReading<Figures extends object>(
	question: StageQuestion,
	prepared: Prepared<Figures>,
	one: Judged<Figures>,
	other: Judged<Figures>
) {
	const open = stageOf(question).readings.filter(
		({ id }) => id !== 'before' && question.readings[id] === undefined
	);
	const probes = open.map(({ id }: { id: ReadingId }) => ({
		reading: id,
		ohms: question.meter?.ohms ?? USUAL_METER_OHMS
	}));
	const [first, second] = [one, other].map(({ circuit }) => prepared.foretell(circuit, probes));
	const told = open.map(({ id, label }, i) => {
		const [here, there] = [first![i]!, second![i]!];
		const error = FORETOLD.volts + FORETOLD.share * Math.max(Math.abs(here), Math.abs(there));
		return { id, label, one: here, other: there, telling: Math.abs(here - there) / error };
	});
	return told.sort((a, b) => b.telling - a.telling).find(({ telling }) => telling > TELLS);
}
