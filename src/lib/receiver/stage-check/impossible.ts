import { printQuantity } from '../../quantity/index.ts';
import { stageOf } from './stages.ts';
import type { ReadingId, StageQuestion } from './types.ts';

/** How far above HT a reading may lie before it cannot be true: the errors of two readings, as a share, and in volts. */
const MARGIN = { share: 0.05, volts: 1 };
/** Volts of a cathode without a valve that a meter may still show, from leaks. */
const STRAY = 0.3;

const BELOW_HT: readonly ReadingId[] = ['anode', 'screen', 'cathode', 'oscillator-anode', 'smoothed'];
/** Points that no fault of the stage takes below chassis. */
const NEVER_NEGATIVE: readonly ReadingId[] = [
	...BELOW_HT,
	'ht',
	'reservoir',
	'winding-1',
	'winding-2',
	'ripple'
];
const SLACK = -0.5;

const volts = (value: number): string => printQuantity(value, 'V', { digits: 3 });

/** Readings that cannot all be true, fault or not: one sentence each, with the cure. */
export function impossibleReadings(question: StageQuestion): string[] {
	const { stage, readings } = question;
	const rows = stageOf(question).readings;
	const label = (id: ReadingId): string => rows.find((row) => row.id === id)?.label ?? id;
	const negative = NEVER_NEGATIVE.filter((id) => (readings[id] ?? 0) < SLACK).map(
		(id) =>
			`${label(id)} reads ${volts(readings[id]!)}: it cannot be below chassis. Change the leads over, or check which point is HT negative.`
	);
	const topId: ReadingId = stage === 'rectifier' ? 'reservoir' : 'ht';
	const top = readings[topId];
	const above =
		top === undefined
			? []
			: BELOW_HT.filter((id) => (readings[id] ?? 0) > top * (1 + MARGIN.share) + MARGIN.volts).map(
					(id) =>
						`${label(id)} reads ${volts(readings[id]!)}, more than the ${volts(top)} that feeds it. Read both again, one right after the other, and look for a lost decimal point.`
				);
	return [...negative, ...above, ...cathodeAboveRest(question, label), ...withoutValve(question, label)];
}

function cathodeAboveRest({ stage, readings }: StageQuestion, label: (id: ReadingId) => string): string[] {
	const { cathode, screen, anode } = readings;
	if (stage === 'rectifier' || cathode === undefined) return [];
	// What feeds the cathode is the higher of the two.
	if (stage === 'triode-audio' ? anode === undefined : anode === undefined || screen === undefined) return [];
	const highest = Math.max(anode ?? 0, screen ?? 0);
	return cathode > highest * (1 + MARGIN.share) + MARGIN.volts
		? [
				`${label('cathode')} reads ${volts(cathode)}, more than anode${screen === undefined ? '' : ' and screen'}: no current of the valve can lift it there. Check which pins were read.`
			]
		: [];
}

function withoutValve(
	{ stage, readings, valveOut }: StageQuestion,
	label: (id: ReadingId) => string
): string[] {
	const { cathode } = readings;
	if (!valveOut || stage === 'rectifier' || cathode === undefined || Math.abs(cathode) <= STRAY) return [];
	return [
		`${label('cathode')} reads ${volts(cathode)} with the valve out: nothing feeds it then. Check the pin, and look for a leak or a wrong wire to the cathode tag.`
	];
}
