import type { PartId, ReadingId, StageKind, StageQuestion } from './types.ts';

interface Named<Id> {
	id: Id;
	label: string;
	unit: 'V' | 'A' | 'ohm' | 'F';
}

/** A reading that nobody takes unasked: it parts two faults or tells the size of one. */
export interface Closer extends Named<ReadingId> {
	/** What to do, with its safety. */
	how: string;
	/** The part that `how` speaks of by `said`; its name on the drawing may stand there instead. */
	of?: PartId;
	said?: string;
}

/** What a form asks for one kind of stage, in the order in which it is filled in. */
export interface StageDescription {
	title: string;
	readings: readonly (Named<ReadingId> | Closer)[];
	closer: readonly Closer[];
	parts: readonly Named<PartId>[];
}

const volts = (id: ReadingId, label: string): Named<ReadingId> => ({ id, label, unit: 'V' });
const ohms = (id: PartId, label: string): Named<PartId> => ({ id, label, unit: 'ohm' });

const OFF = 'Unplugged and discharged:';

const across = (id: ReadingId, what: string, of: PartId): Closer => ({
	...volts(id, `Across the ${what}`),
	how: `Read across the ${what} itself: clip both leads on with the set unplugged and discharged. The whole meter stands at HT.`,
	of,
	said: `the ${what}`
});

const lifted = (id: ReadingId, capacitor: string, point: string): Closer => ({
	...volts(id, `${point}, ${capacitor} lifted`),
	how: `${OFF} lift one end of the ${capacitor}. Then read the ${inside(point)} again.`
});

const inLead = (id: ReadingId, capacitor: string): Closer => ({
	...volts(id, `10 Ω in a lead of the ${capacitor} (DC)`),
	how: `${OFF} put 10 Ω into one lead of the ${capacitor}. Then read the DC volts across it: its leak flows through.`
});

const inside = (label: string): string => label.charAt(0).toLowerCase() + label.slice(1);

const ANODE_DROP = (what: string, of: PartId = 'primary') => across('anode-drop', what, of);
const SCREEN_DROP = across('screen-drop', 'screen feed resistor', 'screen-feed');
const SCREEN_LIFTED = lifted('lifted-screen', 'screen by-pass capacitor', 'Screen');
const CATHODE_LIFTED = lifted('lifted-cathode', 'cathode by-pass capacitor', 'Cathode');
const couplingReadings = (part: string, grid: string): Closer[] => [
	{
		...volts('coupling-end', `Lifted end of the ${part}, through the meter to chassis`),
		how: `${OFF} lift the grid end of the ${part}. Then read from this free end to chassis: what shows comes through its leak.`
	},
	lifted('lifted-grid', part, grid),
	{
		...volts('grid-shunted', `${grid}, 100 kΩ to chassis, ${part} lifted`),
		how: `${OFF} put 100 kΩ from the grid to chassis, the ${part} still lifted. Then read the grid: what shows comes from the valve.`
	}
];
const COUPLED = couplingReadings('coupling capacitor', 'Grid');
const CONTROLLED: Closer[] = [
	{
		...volts('grid-no-avc', 'Grid (AVC), its AVC line on chassis'),
		how: `${OFF} clip the detector end of the AVC line to chassis. Then read the grid: what still shows is grid current or a leak, no AVC.`
	},
	...couplingReadings('connection from the positive point', 'Grid (AVC)')
];

const ANODE_LIFTED = lifted('lifted-anode', 'decoupling capacitor of the anode feed', 'Anode');
const IF_DROP = ANODE_DROP('anode feed (IF winding or feed resistor)');

const CLIP_ON = 'Clip both leads on with the set unplugged and discharged.';
const half = (id: ReadingId, which: string): Closer => ({
	...volts(id, `HT winding, ${which} half (AC)`),
	how: `AC volts from the ${which} anode of the rectifier to the centre tap of the winding. ${CLIP_ON}`
});
const RIPPLE: Closer = {
	...volts('ripple', 'Ripple on the reservoir (AC)'),
	how: `AC volts across the reservoir. ${CLIP_ON} A meter that shows DC on its AC range needs 0.1 µF (630 V) in series.`
};
const MAINS_ANODE: Closer = {
	...volts('winding-1', 'Rectifier anode (AC)'),
	how: `AC volts from the anode of the rectifier to HT negative. ${CLIP_ON} One of them is at the mains.`
};

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
		closer: [
			...COUPLED,
			CATHODE_LIFTED,
			lifted('lifted-anode', 'RF by-pass at the anode', 'Anode'),
			ANODE_DROP('anode load', 'anode-load')
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
		closer: [
			...COUPLED,
			CATHODE_LIFTED,
			SCREEN_LIFTED,
			lifted('lifted-anode', 'tone capacitor', 'Anode'),
			ANODE_DROP('output primary'),
			SCREEN_DROP
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
		closer: [...CONTROLLED, CATHODE_LIFTED, SCREEN_LIFTED, ANODE_LIFTED, IF_DROP, SCREEN_DROP],
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
		closer: [
			...CONTROLLED,
			CATHODE_LIFTED,
			SCREEN_LIFTED,
			ANODE_LIFTED,
			IF_DROP,
			SCREEN_DROP,
			lifted('lifted-oscillator-anode', 'decoupling capacitor of the oscillator feed', 'Oscillator anode'),
			across('oscillator-drop', 'oscillator anode feed', 'oscillator-feed')
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
			half('winding-1', 'first'),
			half('winding-2', 'second'),
			volts('reservoir', 'Reservoir'),
			volts('smoothed', 'After the smoothing'),
			RIPPLE
		],
		closer: [
			across('smoothing-drop', 'smoothing resistor or choke', 'smoothing'),
			inLead('reservoir-lead', 'reservoir'),
			inLead('smoothing-lead', 'smoothing capacitor'),
			{
				id: 'direct-current',
				label: 'Current straight from the reservoir',
				unit: 'A',
				how: 'Read across the output primary and divide by its DC resistance, measured cold: this current comes straight from the reservoir.'
			}
		],
		parts: [
			ohms('winding', 'HT winding, one half, with what the primary adds'),
			ohms('smoothing', 'Smoothing resistor or choke'),
			{ id: 'reservoir-capacitor', label: 'Reservoir capacitor', unit: 'F' }
		]
	}
};

/** A rectifier straight on the mains has one anode and no winding. */
const HALF_WAVE: StageDescription = {
	...STAGES.rectifier,
	title: 'Half-wave rectifier and smoothing',
	readings: [
		MAINS_ANODE,
		...STAGES.rectifier.readings.filter(({ id }) => id !== 'winding-1' && id !== 'winding-2')
	]
};

/** What can be read and measured in the stage of a question. */
export const stageOf = (question: StageQuestion): StageDescription =>
	question.stage === 'rectifier' && question.rectifier.halfWave ? HALF_WAVE : STAGES[question.stage];

/** Readings that nobody takes unasked. */
export const askable = ({ readings, closer }: StageDescription): Closer[] => [
	...readings.filter((one): one is Closer => 'how' in one),
	...closer
];
