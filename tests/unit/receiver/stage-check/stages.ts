import {
	type MixerQuestion,
	pointOf,
	type ReadingId,
	type RectifierQuestion,
	type StageKind,
	type ValveQuestion
} from '../../../../src/lib/receiver/stage-check/index.ts';

/** Stages of usual sets, for the tests. */
type Readings = Partial<Record<ReadingId, number>>;

function published(type: string, stage: StageKind) {
	const point = pointOf(type, stage);
	if (!point || !('valve' in point)) throw new Error(`no point of ${type}`);
	return point;
}

export const triode = (readings: Readings): ValveQuestion => ({
	stage: 'triode-audio',
	valve: published('ECC83', 'triode-audio').valve,
	parts: { 'anode-load': 100e3, 'cathode-resistor': 1.5e3, 'grid-leak': 1e6 },
	readings
});

export const output = (readings: Readings): ValveQuestion => ({
	stage: 'output-pentode',
	valve: published('EL84', 'output-pentode').valve,
	parts: { primary: 450, 'screen-feed': 1e3, 'cathode-resistor': 135, 'grid-leak': 470e3 },
	readings
});

export const ifStage = (readings: Readings): ValveQuestion => ({
	stage: 'if-pentode',
	valve: published('EF89', 'if-pentode').valve,
	parts: { primary: 2.2e3, 'screen-feed': 51e3, 'cathode-resistor': 160, 'avc-line': 1.5e6 },
	readings
});

export function mixer(readings: Readings): MixerQuestion {
	const { valve, oscillator } = published('ECH81', 'triode-heptode');
	if (!oscillator) throw new Error('no oscillator');
	return {
		stage: 'triode-heptode',
		valve,
		oscillator,
		parts: {
			primary: 2.2e3,
			'screen-feed': 27e3,
			'cathode-resistor': 150,
			'avc-line': 1.5e6,
			'oscillator-feed': 33e3,
			'oscillator-grid-leak': 47e3
		},
		readings
	};
}

export function supply(readings: Readings): RectifierQuestion {
	const point = pointOf('EZ80', 'rectifier');
	if (!point || !('rectifier' in point)) throw new Error('no rectifier');
	return {
		stage: 'rectifier',
		rectifier: point.rectifier,
		windingVolts: 260,
		load: 0.03,
		direct: 0.04,
		parts: { winding: 250, smoothing: 1.2e3, 'reservoir-capacitor': 50e-6 },
		readings
	};
}

/** A set for AC and DC mains: one anode behind 150 ohm, at 220 V. The point of its rectifier is invented. */
export const acDc = (readings: Readings): RectifierQuestion => ({
	stage: 'rectifier',
	rectifier: { halfWave: true, windingVolts: 220, current: 0.11, volts: 210, seriesResistance: 100 },
	windingVolts: 220,
	load: 0.022,
	direct: 0.045,
	parts: { winding: 150, smoothing: 1.2e3, 'reservoir-capacitor': 50e-6 },
	readings
});
