/** What a listener hears, or a tracer shows. `good` is the healthy one. */
export const PATH_OUTCOMES = ['good', 'weak', 'distorted', 'hum', 'noise', 'none'] as const;
export type PathOutcome = (typeof PATH_OUTCOMES)[number];

/** As answers on a button. */
export const PATH_LABELS: Readonly<Record<PathOutcome, string>> = {
	good: 'Good',
	weak: 'Weak',
	distorted: 'Distorted',
	hum: 'Hum',
	noise: 'Noise, crackle or whistle',
	none: 'Nothing'
};

/** As what a band does: "FM plays". */
export const PATH_VERBS: Readonly<Record<PathOutcome, string>> = {
	good: 'plays well',
	weak: 'is faint',
	distorted: 'is distorted',
	hum: 'hums',
	noise: 'is noisy',
	none: 'is silent'
};

/** Power states that a step can want. */
export const POWER_STATES = ['unplugged', 'limiter', 'live'] as const;
export type StepPower = (typeof POWER_STATES)[number];

/** What can stand on a bench; steps say which of these their ways need. */
export const INSTRUMENTS = {
	meter: 'Multimeter',
	'meter-10M': 'Multimeter of 10 Mohm or more on volts',
	generator: 'AM signal generator',
	'fm-generator': 'FM signal generator',
	oscilloscope: 'Oscilloscope',
	counter: 'Frequency counter',
	'signal-tracer': 'Signal tracer',
	'second-set': 'A second receiver',
	'lamp-limiter': 'Lamp limiter',
	'isolating-transformer': 'Isolating transformer',
	variac: 'Variable transformer',
	'capacitor-tester': 'Capacitor tester (capacitance)',
	'insulation-tester': 'Insulation or leakage tester at working volts',
	'valve-tester': 'Valve tester',
	'bench-supply': 'Bench supply',
	'test-speaker': 'Test loudspeaker',
	'spare-valve': 'A good spare valve of the same type'
} as const;
export type Instrument = keyof typeof INSTRUMENTS;
