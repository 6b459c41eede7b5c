import type { GateStage } from './gate.ts';

interface StageWords {
	heading: string;
	/** What to do, Markdown. */
	text: string;
	/** On the button that says it is done. */
	done: string;
	/** In the row of what comes. */
	short: string;
	/** Hands can meet volts in this stage. */
	danger: boolean;
}

/**
 * Wording of the gate. Cautions come from the library; the lamp's behaviour is from the fault reference, D1 and C
 * (PA3, ARO) and from the need "first power on the lamp".
 */
const MAINS_WORDS: Record<Exclude<GateStage, 'open'>, StageWords> = {
	'switch-off': {
		heading: 'Switch off and pull the plug',
		text: 'Pull the plug out of the wall and lay it where you see it. The switch alone is not enough.',
		done: 'Off, and the plug is out',
		short: 'switch off',
		danger: true
	},
	'no-meter': {
		heading: 'No step that touches the chassis opens without a meter',
		text: 'Capacitors keep their charge after the plug is out, and only a meter shows that they are empty. A meter of any kind that reads volts will do. Add it to the instruments of this job, or take a step that touches nothing.',
		done: '',
		short: 'meter wanted',
		danger: true
	},
	'prove-dead': {
		heading: 'Discharge, then prove it dead',
		text: 'Discharge every HT capacitor. Then measure at both points, from HT negative, and type what the meter shows.',
		done: 'Record both readings',
		short: 'prove it dead',
		danger: true
	},
	connect: {
		heading: 'Connect while the set is dead',
		text: '',
		done: 'Connected',
		short: 'connect',
		danger: false
	},
	limiter: {
		heading: 'Put it on the limiter',
		text: 'Put the lamp in series with the mains lead. Then plug in, switch on and watch the lamp.',
		done: 'It is on, through the lamp',
		short: 'limiter',
		danger: true
	},
	live: {
		heading: 'Full mains',
		text: 'Only if the lamp flashed and dimmed: switch off, pull the plug and take the lamp out of the lead. Then plug in and switch on.',
		done: 'It is on full mains',
		short: 'full mains',
		danger: true
	}
};

/** A battery set has no lamp: what limits is the supply that feeds it. Common practice, no source. */
const BATTERY_WORDS: typeof MAINS_WORDS = {
	...MAINS_WORDS,
	'switch-off': {
		...MAINS_WORDS['switch-off'],
		heading: 'Switch off and take the supply off',
		text: 'Take HT and filament supply off the set and lay both plugs where you see them. The switch alone is not enough.',
		done: 'Off, and both supplies are off'
	},
	limiter: {
		...MAINS_WORDS.limiter,
		heading: 'First power, limited',
		text: 'Feed the filaments alone first and measure at a valve holder: above the sheet, take it off again, for HT or a wrong supply burns every filament at once. Then feed HT from a supply held to about 20 mA, or through a resistor of about 4.7 kΩ.',
		done: 'It is on, through the limited supply',
		short: 'limited supply'
	},
	live: {
		...MAINS_WORDS.live,
		heading: 'Full supply',
		text: 'Only if the current came up slowly and stayed where the sheet has it: take the supply off, take the limit out, and put it on again.',
		done: 'It is on full supply',
		short: 'full supply'
	}
};

export const gateWords = (battery: boolean): typeof MAINS_WORDS => (battery ? BATTERY_WORDS : MAINS_WORDS);

/** What shows the current, and what its course says. */
interface LimiterWords {
	story: readonly { sign: string; says: string }[];
	/** On the button for a load that is too heavy. */
	heavy: string;
	/** What to do about it. */
	then: string;
}

const LAMP: LimiterWords = {
	story: [
		{ sign: 'Flashes, then dims', says: 'As it should be.' },
		{
			sign: 'Dims, then a little brighter at about half a minute',
			says: 'The valves warm and draw current. That is no short.'
		},
		{ sign: 'Bright, and stays bright', says: 'Something is shorted. Switch off at once.' }
	],
	heavy: 'The lamp stays bright: I have switched off',
	then: 'A lamp that stays bright shows a heavy load. Pull the plug, and look for a short on the dead set before any more power.'
};

const BENCH_SUPPLY: LimiterWords = {
	story: [
		{ sign: 'Rises within seconds, then steady at the sheet’s current', says: 'As it should be.' },
		{ sign: 'At its limit, and the volts stay down', says: 'Something is shorted. Switch off at once.' }
	],
	heavy: 'The current stays at its limit: I have switched off',
	then: 'A supply held at its limit shows a heavy load. Take it off, and look for a short on the dead set before any more power.'
};

export const limiterWords = (battery: boolean): LimiterWords => (battery ? BENCH_SUPPLY : LAMP);
