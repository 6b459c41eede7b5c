/** What a listener hears, or a tracer shows. `good` is the healthy one. */
export const PATH_OUTCOMES = ['good', 'weak', 'distorted', 'hum', 'noise', 'none', 'intermittent'] as const;
export type PathOutcome = (typeof PATH_OUTCOMES)[number];

/** As answers on a button. */
export const PATH_LABELS: Readonly<Record<PathOutcome, string>> = {
	good: 'Good',
	weak: 'Weak',
	distorted: 'Distorted',
	hum: 'Hum',
	noise: 'Noise, crackle or whistle',
	none: 'Nothing',
	intermittent: 'Comes and goes'
};

/** As what a band does: "FM plays". */
export const PATH_VERBS: Readonly<Record<PathOutcome, string>> = {
	good: 'plays well',
	weak: 'is faint',
	distorted: 'is distorted',
	hum: 'hums',
	noise: 'is noisy',
	none: 'is silent',
	intermittent: 'comes and goes'
};

/**
 * What is noticed beside the sound of each band: seen, felt, smelt, measured, or told by a control. A flow is entered by
 * them too. Ids stand in stored jobs: never renamed. `kind` groups them on the start page.
 */
export const SIGNS = {
	dark: { kind: 'power', label: 'No valve and no dial lamp lights' },
	'uneven-glow': { kind: 'power', label: 'Some valves stay dark, or one glows too bright' },
	'lamp-dark': { kind: 'power', label: 'A dial lamp is out' },
	'fuse-blows': { kind: 'power', label: 'The fuse blows' },
	'limiter-bright': { kind: 'power', label: 'The limiter lamp stays bright' },
	'part-burnt': { kind: 'power', label: 'A part smokes, smells or is burnt' },
	'transformer-hot': { kind: 'power', label: 'The mains transformer runs hot' },
	'valve-hot': { kind: 'power', label: 'The output valve gets far too hot' },
	'valve-glows': { kind: 'power', label: 'An anode or a screen glows red' },
	'ht-low': { kind: 'power', label: 'HT measures low' },
	'ht-high': { kind: 'power', label: 'HT measures high' },
	'eye-dark': { kind: 'power', label: 'The tuning indicator is dark or dim' },
	shock: { kind: 'power', label: 'It tingles or gives a shock' },
	hiss: { kind: 'sound', label: 'It hisses, but no station comes' },
	'hum-at-minimum': { kind: 'sound', label: 'Hum stays with the volume turned down' },
	'hum-on-stations': { kind: 'sound', label: 'Hum comes with a station only' },
	'strong-distorts': { kind: 'sound', label: 'Strong stations distort, weak ones do not' },
	whistles: { kind: 'sound', label: 'It whistles or squeals' },
	interference: { kind: 'sound', label: 'Buzz, hash or clicks lie over the stations' },
	fades: { kind: 'sound', label: 'It fades by itself' },
	'cuts-out': { kind: 'sound', label: 'It cuts out and comes back' },
	'distorts-warm': { kind: 'sound', label: 'Clean at first, distorted once warm' },
	rattles: { kind: 'sound', label: 'It rattles or rasps on certain notes' },
	'tone-wrong': { kind: 'sound', label: 'Treble or bass is missing' },
	crackles: { kind: 'sound', label: 'It crackles by itself' },
	'control-noisy': { kind: 'sound', label: 'A control crackles as it is turned' },
	'control-dead': { kind: 'sound', label: 'A control does nothing, or acts in jumps' },
	motorboats: { kind: 'sound', label: 'It putters like a motor boat' },
	rings: { kind: 'sound', label: 'It rings when knocked, or howls when loud' },
	'one-channel': { kind: 'sound', label: 'One channel of a stereo set is weak or dead' },
	'one-band-dead': { kind: 'tuning', label: 'One AM band is dead, others play' },
	'part-of-dial-dead': { kind: 'tuning', label: 'Part of the dial is dead' },
	'wrong-place': { kind: 'tuning', label: 'Stations stand at a wrong place' },
	drifts: { kind: 'tuning', label: 'Stations wander off as it warms' },
	'whistle-at-a-mark': { kind: 'tuning', label: 'It whistles at fixed places of the dial' },
	broad: { kind: 'tuning', label: 'Stations spread over each other' },
	'dial-crackles': { kind: 'tuning', label: 'It crackles as the dial is turned' },
	'tuning-slips': { kind: 'tuning', label: 'Tuning is stiff, slips or does not follow the knob' },
	'eye-still': { kind: 'tuning', label: 'The tuning indicator does not move' },
	'worse-since-work': { kind: 'past', label: 'Something is worse since it was worked on' }
} as const satisfies Record<string, { kind: 'power' | 'sound' | 'tuning' | 'past'; label: string }>;
export type Sign = keyof typeof SIGNS;

export const SIGN_KINDS = {
	power: 'Light, heat, smell and meter',
	sound: 'By ear',
	tuning: 'At the dial',
	past: 'What went before'
} as const;

/** Ways to make a fault that comes and goes come or go, as the sheet of a step names them. Ids stand in stored jobs: never renamed. */
export const PROVOCATIONS = {
	warm: 'Warm it',
	cool: 'Cool it',
	tap: 'Tap it',
	flex: 'Flex or push it',
	switch: 'Work the switch or switch the set'
} as const;
export type Provocation = keyof typeof PROVOCATIONS;

/** The sheet of a step: per provocation, how many rounds were tried and in how many the fault came or went. */
export type Provoked = Partial<Record<Provocation, readonly [tried: number, came: number]>>;

/**
 * Kinds of part as age, storage and hands treat them alike: the history of a set speaks of kinds. `work` is a slip of an
 * earlier hand.
 */
export const SUSPECT_KINDS = [
	'paper-capacitor',
	'electrolytic',
	'mica-capacitor',
	'resistor',
	'control',
	'valve',
	'lamp',
	'contact',
	'joint',
	'wiring',
	'winding',
	'alignment',
	'mechanics',
	'semiconductor',
	'loudspeaker',
	'battery',
	'setting',
	'work',
	'outside'
] as const;
/** What is known of the set's past. Ids stand in stored jobs: never renamed. */
export const HISTORY = {
	untouched: 'Nobody seems to have worked on it',
	'worked-on': 'Somebody has worked on it',
	recapped: 'Capacitors have been changed',
	'just-changed': 'Parts were changed just before it went wrong',
	'played-until-lately': 'It played until lately',
	'stored-long': 'It stood unused for years',
	moved: 'It has been moved',
	dropped: 'It was dropped or knocked'
} as const;
export type HistoryWord = keyof typeof HISTORY;

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

/**
 * Minutes to fetch an instrument, connect and set it, where the step before did not use it. Our own choice. What belongs
 * to a power state (limiter, transformers) is paid for there, and a meter lies ready.
 */
export const SET_UP_MINUTES: Readonly<Partial<Record<Instrument, number>>> = {
	generator: 2,
	'fm-generator': 2,
	oscilloscope: 2,
	counter: 2,
	'signal-tracer': 1,
	'second-set': 2,
	'capacitor-tester': 1,
	'insulation-tester': 1,
	'valve-tester': 3,
	'bench-supply': 2,
	'test-speaker': 1
};
