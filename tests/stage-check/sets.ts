import {
	type OscillatorPoint,
	pointOf,
	type RectifierPoint,
	type WorkingPoint
} from '../../src/lib/receiver/stage-check/index.ts';

/** Stages as they stand in sets, by the marks on their parts (ohm, V, A). The valve data give the points. */
export interface AmplifierSet {
	type: string;
	ht: number;
	anodeFeed: number;
	screenFeed: number;
	cathodeResistor: number;
	gridLeak: number;
	/** The grid hangs on an AVC line with a little volts of its own. */
	controlled?: true;
	sharedScreen?: number;
	oscillatorFeed?: number;
	oscillatorLeak?: number;
}

export interface SupplySet {
	type: string;
	/** What its sheet gives. */
	rectifier: RectifierPoint;
	/** One anode on the mains, behind dropper or surge resistor. */
	halfWave?: true;
	/** RMS of one half, and its resistance with what the primary adds. */
	windingVolts: number;
	winding: number;
	smoothing: number;
	reservoir: number;
	load: number;
	direct: number;
}

const triode = (
	type: string,
	anodeFeed: number,
	cathodeResistor: number,
	gridLeak: number
): AmplifierSet => ({
	type,
	ht: 230,
	anodeFeed,
	screenFeed: 0,
	cathodeResistor,
	gridLeak
});

export const TRIODES: readonly AmplifierSet[] = [
	triode('ECC83', 100e3, 1.5e3, 1e6),
	triode('ECC83', 220e3, 2.2e3, 1e6),
	triode('EABC80', 220e3, 0, 10e6),
	triode('EBC41', 220e3, 3.3e3, 1e6),
	triode('6AV6', 220e3, 0, 10e6),
	triode('ECL86', 220e3, 1.8e3, 1e6),
	triode('EBC33', 47e3, 1.5e3, 1e6)
];

const output = (
	type: string,
	ht: number,
	anodeFeed: number,
	screenFeed: number,
	cathodeResistor: number,
	gridLeak: number
): AmplifierSet => ({ type, ht, anodeFeed, screenFeed, cathodeResistor, gridLeak });

export const OUTPUTS: readonly AmplifierSet[] = [
	output('EL84', 275, 450, 0, 135, 470e3),
	output('EL84', 270, 400, 1e3, 135, 680e3),
	output('EL41', 265, 500, 0, 170, 680e3),
	output('EL41', 265, 550, 1e3, 170, 1e6),
	output('ECL86', 265, 500, 1e3, 170, 470e3),
	output('ECL82', 225, 450, 2.2e3, 390, 470e3),
	output('EL95', 265, 700, 0, 320, 1e6),
	output('6AQ5', 270, 350, 1e3, 250, 470e3)
];

const amplifier = (
	type: string,
	screenFeed: number,
	cathodeResistor: number,
	anodeFeed: number
): AmplifierSet => ({
	type,
	ht: 240,
	anodeFeed,
	screenFeed,
	cathodeResistor,
	gridLeak: 1.5e6,
	controlled: true
});

export const IF_STAGES: readonly AmplifierSet[] = [
	amplifier('EF89', 47e3, 160, 2.2e3),
	amplifier('EF89', 51e3, 160, 20),
	amplifier('EBF89', 56e3, 180, 1e3),
	amplifier('EBF80', 95e3, 300, 20),
	amplifier('EF41', 91e3, 330, 3.3e3),
	amplifier('EF85', 56e3, 160, 2.2e3),
	amplifier('6BA6', 33e3, 68, 2.2e3)
];

const mixer = (
	type: string,
	screenFeed: number,
	cathodeResistor: number,
	sharedScreen: number,
	anodeFeed: number,
	oscillatorFeed: number
): AmplifierSet => ({
	type,
	ht: 240,
	anodeFeed,
	screenFeed,
	cathodeResistor,
	gridLeak: 1.5e6,
	controlled: true,
	sharedScreen,
	oscillatorFeed,
	oscillatorLeak: 47e3
});

export const MIXERS: readonly AmplifierSet[] = [
	mixer('ECH81', 22e3, 150, 1.75e-3, 20, 33e3),
	mixer('ECH81', 27e3, 150, 0, 2.2e3, 33e3),
	mixer('ECH42', 47e3, 180, 0, 2.2e3, 30e3),
	mixer('ECH35', 47e3, 220, 0, 1e3, 33e3),
	mixer('ECH3', 47e3, 220, 0, 20, 30e3)
];

/** The published points of a type; that the data have none is an error of this list. */
export function sheetOf(type: string, stage: 'triode-audio' | 'output-pentode' | 'if-pentode'): WorkingPoint {
	const found = pointOf(type, stage);
	if (!found || !('valve' in found)) throw new Error(`no working point of ${type} as ${stage}`);
	return found.valve;
}

export function mixerSheet(type: string): { valve: WorkingPoint; oscillator: OscillatorPoint } {
	const found = pointOf(type, 'triode-heptode');
	if (!found || !('valve' in found) || !found.oscillator) throw new Error(`no working point of ${type}`);
	return { valve: found.valve, oscillator: found.oscillator };
}

export function rectifierSheet(type: string): RectifierPoint {
	const found = pointOf(type, 'rectifier');
	if (!found || !('rectifier' in found)) throw new Error(`no rectifier point of ${type}`);
	return found.rectifier;
}

export const SUPPLIES: readonly SupplySet[] = [
	{
		type: 'EZ80',
		rectifier: rectifierSheet('EZ80'),
		windingVolts: 260,
		winding: 250,
		smoothing: 1.2e3,
		reservoir: 50e-6,
		load: 0.03,
		direct: 0.04
	},
	{
		type: 'EZ80',
		rectifier: rectifierSheet('EZ80'),
		windingVolts: 275,
		winding: 300,
		smoothing: 400,
		reservoir: 32e-6,
		load: 0.065,
		direct: 0
	},
	{
		type: '6X4',
		rectifier: rectifierSheet('6X4'),
		windingVolts: 250,
		winding: 280,
		smoothing: 1.5e3,
		reservoir: 40e-6,
		load: 0.025,
		direct: 0.03
	}
];

/**
 * A half-wave rectifier for series heaters. Its sheet is not in the valve data: the point is invented, of the size usual for a
 * UY85 or UY41 (from memory).
 */
const HALF_WAVE: RectifierPoint = {
	halfWave: true,
	windingVolts: 220,
	current: 0.11,
	volts: 210,
	seriesResistance: 100
};
const acDc = (
	winding: number,
	smoothing: number,
	reservoir: number,
	load: number,
	direct: number
): SupplySet => ({
	type: 'half-wave, series heaters',
	rectifier: HALF_WAVE,
	halfWave: true,
	windingVolts: 220,
	winding,
	smoothing,
	reservoir,
	load,
	direct
});

export const AC_DC_SUPPLIES: readonly SupplySet[] = [
	acDc(150, 1.2e3, 50e-6, 0.022, 0.045),
	acDc(200, 1e3, 60e-6, 0.03, 0.03),
	acDc(160, 350, 50e-6, 0.06, 0)
];
