import { printQuantity } from '../../quantity/index.ts';
import { markedOf, measuredOf, OHMMETER, toleranceOf } from './part-value.ts';
import type { PartId, PartValue, ReadingId, StageCurrent, StageFinding, StageQuestion } from './types.ts';

/** Of a meter, per cent. */
const USUAL_ACCURACY = 2;
/** From one reading to the next of the same meter, as a share. */
const BETWEEN_READINGS = 0.005;
/** V; the last digit of the meter. */
const LAST_DIGIT = 0.02;

type Current = StageCurrent['id'];

const ROWS: readonly {
	id: Current;
	label: string;
	from: ReadingId;
	to: ReadingId | undefined;
	part: PartId;
}[] = [
	{ id: 'cathode', label: 'Cathode current', from: 'cathode', to: undefined, part: 'cathode-resistor' },
	{ id: 'anode', label: 'Anode current', from: 'ht', to: 'anode', part: 'anode-load' },
	{ id: 'anode', label: 'Anode current', from: 'ht', to: 'anode', part: 'primary' },
	{ id: 'screen', label: 'Screen current', from: 'ht', to: 'screen', part: 'screen-feed' },
	{ id: 'grid', label: 'Grid current', from: 'grid', to: undefined, part: 'grid-leak' },
	{
		id: 'oscillator-anode',
		label: 'Oscillator anode current',
		from: 'ht',
		to: 'oscillator-anode',
		part: 'oscillator-feed'
	},
	{
		id: 'oscillator-grid',
		label: 'Oscillator grid current',
		from: 'cathode',
		to: 'oscillator-grid',
		part: 'oscillator-grid-leak'
	},
	{
		id: 'smoothing',
		label: 'Current through the smoothing',
		from: 'reservoir',
		to: 'smoothed',
		part: 'smoothing'
	}
];

function valueOf(part: PartValue): { value: number; tolerance: number } {
	const measured = measuredOf(part);
	return measured === undefined
		? { value: markedOf(part), tolerance: toleranceOf(part) }
		: { value: measured, tolerance: OHMMETER };
}

/** Each current that readings and part values give, taking the parts for sound. */
export function currentsOf(question: StageQuestion): StageCurrent[] {
	const { readings, parts = {} } = question;
	const accuracy = (id: ReadingId | undefined): number =>
		((id && question.readingMeter?.[id]?.accuracy) ?? question.meter?.accuracy ?? USUAL_ACCURACY) / 100;
	return ROWS.flatMap(({ id, label, from, to, part }): StageCurrent[] => {
		const upper = readings[from] ?? (from === 'cathode' && to ? 0 : undefined);
		const lower = to === undefined ? 0 : readings[to];
		const given = parts[part];
		if (upper === undefined || lower === undefined || given === undefined) return [];
		const { value, tolerance } = valueOf(given);
		if (value < 1) return [];
		const drop = upper - lower;
		// What one meter has wrong throughout falls out of the difference but for its own share.
		const error =
			accuracy(to ?? from) * Math.abs(drop) + BETWEEN_READINGS * Math.hypot(upper, lower) * 2 + LAST_DIGIT;
		const [more, less] = [1 + tolerance / 100, 1 - tolerance / 100];
		const [most, least] = [drop + error, drop - error];
		return [
			{
				id,
				label,
				amps: drop / value,
				low: least / (value * (least > 0 ? more : less)),
				high: most / (value * (most > 0 ? less : more)),
				from: `${volts(drop)} across ${printQuantity(value, 'ohm', { digits: 3 })}`
			}
		];
	});
}

const volts = (value: number): string => printQuantity(value, 'V', { digits: 3 });
const amps = (value: number): string => printQuantity(value, 'A', { digits: 3 });

/** Whether anode and screen current make up the cathode current, within the tolerances. */
export function addUp(question: StageQuestion, currents: readonly StageCurrent[]): StageFinding['addUp'] {
	if (question.stage === 'rectifier') return undefined;
	const get = (id: Current) => currents.find((one) => one.id === id);
	const [cathode, anode, screen] = [get('cathode'), get('anode'), get('screen')];
	const oscillator = get('oscillator-anode');
	const needed = [
		anode,
		...(question.stage === 'triode-audio' ? [] : [screen]),
		...(question.stage === 'triode-heptode' ? [oscillator] : [])
	];
	if (!cathode || needed.includes(undefined)) return undefined;
	const all = needed.filter((one) => one !== undefined);
	// What other valves send through the same resistors is no part of this one.
	const shared =
		question.stage === 'triode-heptode'
			? -(question.sharedScreenCurrent ?? 0)
			: (question.sharedCathodeCurrent ?? 0);
	const total = all.reduce((sum, one) => sum + one.amps, shared);
	const low = all.reduce((sum, one) => sum + one.low, shared);
	const high = all.reduce((sum, one) => sum + one.high, shared);
	const ok = cathode.low <= high && cathode.high >= low;
	const parts = all.map((one) => `${one.label.toLowerCase()} ${amps(one.amps)}`).join(', ');
	return {
		ok,
		difference: cathode.amps - total,
		words: ok
			? `The currents add up: ${parts}; cathode current ${amps(cathode.amps)}.`
			: `The currents do not add up if every part is as marked: ${parts}; cathode current ${amps(cathode.amps)}, ${amps(Math.abs(cathode.amps - total))} ${cathode.amps > total ? 'more' : 'less'}.`
	};
}
