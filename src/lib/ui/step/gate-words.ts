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
export const GATE_WORDS: Record<Exclude<GateStage, 'open'>, StageWords> = {
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

/** What the lamp can do, and what that says. */
export const LAMP_STORY: readonly { lamp: string; says: string }[] = [
	{ lamp: 'Flashes, then dims', says: 'As it should be.' },
	{
		lamp: 'Dims, then a little brighter at about half a minute',
		says: 'The valves warm and draw current. That is no short.'
	},
	{ lamp: 'Bright, and stays bright', says: 'Something is shorted. Switch off at once.' }
];
