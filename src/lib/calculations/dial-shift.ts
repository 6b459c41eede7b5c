/** What stations at the wrong place of a dial have in common. Frequencies in Hz. */

/** A station: where it stands on the dial, and where it belongs. */
export interface Station {
	heard: number;
	truth: number;
}

export type ShiftWord =
	'image' | 'at its place' | 'the same amount' | 'in proportion' | 'at the low end' | 'at the high end';

export interface Shift {
	/** Undefined where the stations given do not tell. */
	word: ShiftWord | undefined;
	/** Of dial against truth, on average. */
	amount: number;
	/** Of the oscillator against where the dial wants it, on average, per cent. */
	oscillatorPct: number;
}

/** A dial is read to about a hundredth. Our own choice. */
const READING = 0.01;
/** Stations nearer together than this ratio tell nothing of the two ends. */
const APART = 1.3;
/** Shifts count as alike where they differ by less than this share of their mean. */
const ALIKE = 0.35;

const mean = (values: readonly number[]): number =>
	values.reduce((sum, value) => sum + value, 0) / values.length;

/** How far values lie apart, as a share of the mean of their sizes. */
function scatter(values: readonly number[]): number {
	const size = mean(values.map(Math.abs));
	return size === 0 ? 0 : (Math.max(...values) - Math.min(...values)) / size;
}

const isImage = ({ heard, truth }: Station, step: number): boolean =>
	Math.abs(truth - heard - 2 * step) <= Math.max(10e3, 2 * READING * truth);

/** The end of the dial that is further off, by the shares of frequency. */
function worseEnd(stations: readonly Station[]): ShiftWord {
	const byTruth = [...stations].sort((a, b) => a.truth - b.truth);
	const off = ({ heard, truth }: Station): number => Math.abs(heard / truth - 1);
	const [low, high] = [byTruth[0], byTruth.at(-1)].map((one) => (one ? off(one) : 0));
	return (low ?? 0) > (high ?? 0) ? 'at the low end' : 'at the high end';
}

function wordFor(stations: readonly Station[], step: number): ShiftWord | undefined {
	if (stations.some((one) => isImage(one, step))) return 'image';
	if (stations.every(({ heard, truth }) => Math.abs(heard / truth - 1) <= READING)) return 'at its place';
	const truths = stations.map(({ truth }) => truth);
	if (stations.length < 2 || Math.max(...truths) < APART * Math.min(...truths)) return undefined;
	if (scatter(stations.map(({ heard, truth }) => heard - truth)) <= ALIKE) return 'the same amount';
	if (scatter(stations.map(({ heard, truth }) => (truth + step) / (heard + step) - 1)) <= ALIKE)
		return 'in proportion';
	return worseEnd(stations);
}

/** What shifts the stations; `step` is the IF, below nought where the oscillator runs below. */
export function shiftOf(stations: readonly Station[], step: number): Shift {
	return {
		word: wordFor(stations, step),
		amount: mean(stations.map(({ heard, truth }) => heard - truth)),
		oscillatorPct: 100 * mean(stations.map(({ heard, truth }) => (truth + step) / (heard + step) - 1))
	};
}
