import { printQuantity } from '../quantity/index.ts';

/** One adjustment: what to feed in, where, and what to watch. */
export interface AlignmentRow {
	circuit: string;
	generator: string;
	frequency: string;
	at: string;
	coupling: string;
	adjust: string;
	indicator: string;
}

/** Two dial marks at which a band is set, Hz. */
export interface Marks {
	band: string;
	low: number | undefined;
	high: number | undefined;
}

const AM_METER = 'output meter across the speaker, or AVC volts';
const TONE = '400 Hz, 30 %';
const OLD_SHEET = "the set's IF, by its service sheet";

/** Below this a set sees the dummy aerial as 200 pF, above it as 400 ohm. */
const DUMMY_CHANGES = 1.7e6;
export const DUMMY_BELOW = '200 pF';
export const DUMMY_ABOVE = '400 ohm';

const dummyAt = (frequency: number): string =>
	`dummy aerial, ${frequency < DUMMY_CHANGES ? DUMMY_BELOW : DUMMY_ABOVE}`;
/** Medium and long waves are spoken of in kilohertz: 1,400 kHz. */
const printed = (frequency: number): string =>
	printQuantity(frequency, 'Hz', frequency < DUMMY_CHANGES ? { as: 'kHz' } : {});
const shown = (frequency: number | undefined, otherwise: string): string =>
	frequency === undefined ? otherwise : printed(frequency);

/** The IF cans, from the last one forward, and the trap. `frequency` is the IF in Hz. */
export function amIfRows(frequency: number | undefined): AlignmentRow[] {
	const shared = {
		generator: `IF, modulated ${TONE}`,
		frequency: shown(frequency, OLD_SHEET),
		indicator: AM_METER
	};
	const atMixer = { ...shared, coupling: '10 to 50 nF' };
	return [
		{
			...atMixer,
			circuit: 'last IF can',
			at: 'mixer grid, gang at a quiet place (last IF grid if nothing passes)',
			adjust: 'secondary, then primary, for maximum'
		},
		{
			...atMixer,
			circuit: 'first IF can',
			at: 'mixer grid',
			adjust: 'secondary, then primary, for maximum; then both cans once more'
		},
		{ ...shared, circuit: 'IF trap', at: 'aerial', coupling: dummyAt(frequency ?? 0), adjust: 'for minimum' }
	];
}

function bandRow(marks: Marks, end: 'low' | 'high', circuit: string, adjust: string): AlignmentRow {
	const frequency = marks[end];
	return {
		circuit: `${marks.band} ${circuit}, ${end} end`,
		generator: `modulated ${TONE}`,
		frequency: shown(frequency, `the ${end} mark of the band, by the service sheet`),
		at: 'aerial',
		coupling: dummyAt(frequency ?? (marks.band === 'SW' ? DUMMY_CHANGES : 0)),
		adjust,
		indicator: AM_METER
	};
}

/** Oscillator and aerial circuits of one band. On short waves the high end comes first. */
export function amBandRows(marks: Marks): AlignmentRow[] {
	const low = bandRow(marks, 'low', 'oscillator', 'padder or oscillator core, with the pointer on its mark');
	const high = bandRow(marks, 'high', 'oscillator', 'oscillator trimmer, with the pointer on its mark');
	return [
		...(marks.band === 'SW' ? [high, low] : [low, high]),
		bandRow(marks, 'low', 'aerial', 'core or slide coil for maximum, rocking the gang'),
		bandRow(marks, 'high', 'aerial', 'trimmer for maximum'),
		{
			...bandRow(marks, 'low', 'oscillator and aerial', 'the rows of this band again until nothing moves'),
			circuit: `${marks.band}, repeat`,
			frequency: `${shown(marks.low, 'low mark')} and ${shown(marks.high, 'high mark')}`
		}
	];
}

function ratioRows(frequency: string): AlignmentRow[] {
	const shared = { generator: 'unmodulated, small', frequency, at: 'last IF grid', coupling: '10 nF' };
	return [
		{
			...shared,
			circuit: 'ratio detector primary',
			adjust: 'for maximum',
			indicator: 'DC across the stabilising electrolytic, valve voltmeter'
		},
		{
			...shared,
			circuit: 'ratio detector secondary',
			adjust: 'for zero, at the steepest point between plus and minus',
			indicator: 'DC from the audio take-off to the centre of the load'
		}
	];
}

function discriminatorRows(frequency: string): AlignmentRow[] {
	const shared = {
		generator: 'unmodulated',
		frequency,
		at: 'limiter grid',
		coupling: '10 nF',
		indicator: 'detector output'
	};
	return [
		{ ...shared, circuit: 'discriminator primary', adjust: 'for height' },
		{ ...shared, circuit: 'discriminator secondary', adjust: 'for symmetry on a sweep, or for zero DC' }
	];
}

type Detector = 'ratio detector' | 'discriminator';
const fmMeter = (detector: Detector): string =>
	detector === 'ratio detector'
		? 'DC across the stabilising electrolytic'
		: 'limiter grid return, through 1 Mohm';

/** FM detector, then the IF back to the mixer. `intermediate` is the FM IF in Hz. */
export function fmIfRows(intermediate: number, detector: Detector): AlignmentRow[] {
	const frequency = printed(intermediate);
	return [
		...(detector === 'ratio detector' ? ratioRows(frequency) : discriminatorRows(frequency)),
		{
			circuit: 'FM IF back to the mixer',
			generator: 'unmodulated, small',
			frequency,
			at: 'mixer grid',
			coupling: 'weak: a ring or screened lead near the valve',
			adjust: 'for maximum',
			indicator: fmMeter(detector)
		}
	];
}

/** Oscillator and RF circuits of the FM front end. */
export function fmFrontRows(detector: Detector): AlignmentRow[] {
	const shared = {
		generator: 'unmodulated, small',
		at: 'FM dipole terminals',
		coupling: '240 or 300 ohm',
		indicator: fmMeter(detector)
	};
	return [
		{
			...shared,
			circuit: 'FM front end, low end',
			frequency: '88 MHz',
			adjust: 'cores: oscillator to the dial, then RF for maximum'
		},
		{
			...shared,
			circuit: 'FM front end, high end',
			frequency: '106 MHz',
			adjust: 'trimmers: oscillator to the dial, then RF for maximum'
		},
		{
			...shared,
			circuit: 'FM, repeat',
			frequency: '88 MHz and 106 MHz',
			adjust: 'both ends again until nothing moves'
		}
	];
}
