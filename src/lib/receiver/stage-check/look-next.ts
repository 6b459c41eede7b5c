import { printQuantity } from '../../quantity/index.ts';
import type { Judged } from './infer.ts';
import type { Prepared } from './prepared.ts';
import { STAGES } from './stages.ts';
import type { Explanation, ReadingId, StageFinding, StageQuestion, Verdict } from './types.ts';

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
	[first, second]: readonly Explanation[],
	verdict: Verdict
): StageFinding['lookNext'] {
	if (!first || verdict === 'sound' || verdict === 'unexplained') return undefined;
	if (first.fault === 'coupling-leak' && question.readings.before === undefined)
		return {
			reading: 'before',
			words: 'Read the volts at the far side of the coupling capacitor: the leak follows from them.'
		};
	const [one, other] = judged;
	if (one && other && second && second.score > WORTH) {
		const best = tellingReading(question, prepared, one, other);
		if (best)
			return {
				reading: best.id,
				words: `Read the ${inSentence(best.label)}: about ${volts(best.one)} speaks for this: ${first.words} About ${volts(best.other)} speaks for this: ${second.words}`
			};
	}
	return {
		words:
			first.partBy ||
			`Unplugged and discharged: measure or exchange the ${first.part} alone, then read the stage again.`
	};
}

function tellingReading<Figures extends object>(
	question: StageQuestion,
	prepared: Prepared<Figures>,
	one: Judged<Figures>,
	other: Judged<Figures>
) {
	const open = STAGES[question.stage].readings.filter(
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
