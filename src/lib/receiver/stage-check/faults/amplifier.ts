import type { Circuit } from '../circuit.ts';
import { anodeRows } from './anode.ts';
import { cathodeRows } from './cathode.ts';
import { gridRows } from './grid.ts';
import { oscillatorRows } from './oscillator.ts';
import { screenRows } from './screen.ts';
import type { Amplifier, Row } from './shared.ts';
import { valveRows } from './valve.ts';

/** Every fault that can be told from the DC volts of an amplifying stage with these parts. */
export function amplifierFaults(stage: Amplifier, sound: Circuit): Row[] {
	return [
		...anodeRows(stage, sound),
		...(stage === 'triode-audio' ? [] : screenRows(stage, sound)),
		...cathodeRows(stage, sound),
		...valveRows(stage),
		...gridRows(stage, sound),
		...(stage === 'triode-heptode' ? oscillatorRows(sound) : [])
	];
}
