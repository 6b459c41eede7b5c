import type { Valve } from './types.ts';

const WORDS: Readonly<Record<string, string>> = {
	a: 'anode',
	a1: 'anode 1',
	a2: 'anode 2',
	k: 'cathode',
	g: 'grid',
	g1: 'control grid, g1',
	g2: 'screen grid, g2',
	g3: 'suppressor grid, g3',
	g4: 'grid 4',
	g5: 'grid 5',
	g2g4: 'screen grids, g2 and g4',
	g3g5: 'grids 3 and 5',
	gT: 'grid of the triode',
	f: 'heater',
	'f+': 'filament, positive end',
	'f-': 'filament, negative end',
	'f-tap': 'heater tap for a dial lamp',
	'f-centre': 'filament centre',
	'f-centre-tap': 'heater centre tap',
	s: 'internal screen',
	m: 'metallising',
	bp: 'beam plates',
	shell: 'metal shell',
	target: 'luminous target',
	deflector: 'ray control',
	ic: 'internal connection: leave it free',
	nc: 'no connection',
	'nc (shell on metal type)': 'no connection; the shell on a metal valve'
};

export interface PinLine {
	/** `undefined` for the cap on the bulb. */
	pin: number | undefined;
	/** "anode of the heptode". */
	what: string;
	/** Carries HT in normal use. */
	ht: boolean;
	heater: boolean;
}

/** `f+` has a plus of its own. */
const codesOf = (text: string): string[] =>
	text
		.replace(/f\+/g, 'f@')
		.split('+')
		.map((code) => code.replace('@', '+'));

/** What a pin carries, in words: `heptode:k+g5` on a valve of several systems. */
export function pinWords(text: string, several: boolean): string {
	const [system = '', codes = ''] = text.split(':');
	const words = codesOf(codes).map((code) => WORDS[code] ?? code);
	const own = several && !['heater', 'screen', 'common', '-'].includes(system);
	const shared = system === 'common' ? ' (shared)' : '';
	return `${words.join(' and ')}${own ? ` of the ${system}` : shared}`;
}

/** Every pin that the record gives, in order, the top cap last. */
export function pinLines(valve: Valve): PinLine[] {
	const several = valve.systems.length > 1;
	const line = (pin: number | undefined, text: string): PinLine => ({
		pin,
		what: pinWords(text, several),
		ht: pin !== undefined && valve.htPins.includes(pin),
		heater: codesOf(text.split(':')[1] ?? '').some(
			(code) => code === 'f' || code.startsWith('f-') || code === 'f+'
		)
	});
	const pins = Object.entries(valve.pins).map(([pin, text]) => line(Number(pin), text));
	return valve.topCap === undefined ? pins : [...pins, line(undefined, valve.topCap)];
}
