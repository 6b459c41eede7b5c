import type { PartId, ReadingId, StageKind } from './types.ts';

interface Named<Id> {
	id: Id;
	label: string;
	unit: 'V' | 'ohm' | 'F';
}

/** What a form asks for one kind of stage, in the order in which it is filled in. */
export interface StageDescription {
	title: string;
	readings: readonly Named<ReadingId>[];
	parts: readonly Named<PartId>[];
}

const volts = (id: ReadingId, label: string): Named<ReadingId> => ({ id, label, unit: 'V' });
const ohms = (id: PartId, label: string): Named<PartId> => ({ id, label, unit: 'ohm' });

const HT = volts('ht', 'HT at the stage');
const CATHODE = volts('cathode', 'Cathode');
const CATHODE_RESISTOR = ohms('cathode-resistor', 'Cathode resistor');
const SCREEN_FEED = ohms('screen-feed', 'Screen feed resistor');

export const STAGES: Readonly<Record<StageKind, StageDescription>> = {
	'triode-audio': {
		title: 'Triode audio stage',
		readings: [
			HT,
			volts('anode', 'Anode'),
			CATHODE,
			volts('grid', 'Grid'),
			volts('before', 'Far side of the coupling capacitor')
		],
		parts: [ohms('anode-load', 'Anode load'), CATHODE_RESISTOR, ohms('grid-leak', 'Grid leak')]
	},
	'output-pentode': {
		title: 'Output pentode',
		readings: [
			HT,
			volts('anode', 'Anode'),
			volts('screen', 'Screen'),
			CATHODE,
			volts('grid', 'Grid'),
			volts('before', 'Anode of the stage before')
		],
		parts: [
			ohms('primary', 'Output primary, DC resistance'),
			SCREEN_FEED,
			CATHODE_RESISTOR,
			ohms('grid-leak', 'Grid leak')
		]
	},
	'if-pentode': {
		title: 'IF pentode',
		readings: [HT, volts('anode', 'Anode'), volts('screen', 'Screen'), CATHODE, volts('grid', 'Grid (AVC)')],
		parts: [
			ohms('primary', 'IF winding and anode feed resistor together'),
			SCREEN_FEED,
			CATHODE_RESISTOR,
			ohms('avc-line', 'AVC line, grid to chassis')
		]
	},
	'triode-heptode': {
		title: 'Triode-heptode or triode-hexode mixer',
		readings: [
			HT,
			volts('anode', 'Heptode anode'),
			volts('screen', 'Screen'),
			CATHODE,
			volts('oscillator-anode', 'Oscillator anode'),
			volts('oscillator-grid', 'Oscillator grid'),
			volts('grid', 'Signal grid (AVC)')
		],
		parts: [
			ohms('primary', 'IF winding and anode feed resistor together'),
			SCREEN_FEED,
			CATHODE_RESISTOR,
			ohms('oscillator-feed', 'Oscillator anode feed'),
			ohms('oscillator-grid-leak', 'Oscillator grid leak'),
			ohms('avc-line', 'AVC line, grid to chassis')
		]
	},
	rectifier: {
		title: 'Full-wave rectifier and smoothing',
		readings: [
			volts('winding-1', 'HT winding, first half (AC)'),
			volts('winding-2', 'HT winding, second half (AC)'),
			volts('reservoir', 'Reservoir'),
			volts('smoothed', 'After the smoothing'),
			volts('ripple', 'Ripple on the reservoir (AC)')
		],
		parts: [
			ohms('winding', 'HT winding, one half, with what the primary adds'),
			ohms('smoothing', 'Smoothing resistor or choke'),
			{ id: 'reservoir-capacitor', label: 'Reservoir capacitor', unit: 'F' }
		]
	}
};
