import type { Circuit } from '../circuit.ts';
import { type Row, ohms, OPEN, own, set } from './shared.ts';

/** Faults of the oscillator of a mixer. */
export function oscillatorRows({ oscillatorFeed: feed, oscillatorLeak: leak }: Circuit): Row[] {
	const part = 'oscillator anode feed';
	const capacitor = 'decoupling capacitor of the oscillator feed';
	const partBy = `Unplugged and discharged: measure the ${part}, then lift one end of its ${capacitor.split(' of')[0]} and read again.`;
	return [
		{
			id: 'oscillator-stopped',
			set: (sound) => ({ ...sound, swing: 0 }),
			pins: ['swing'],
			causes: [
				{
					fault: 'oscillator-stopped',
					part: 'oscillator: triode, coil or its capacitors',
					common: 'common',
					suspects: ['lo-stop', 'lo-coil', 'lo-cap', 'lo-coil-band', 'lo-turns'],
					says: () => 'The oscillator stands still: no grid current, and its anode draws more.'
				}
			],
			partBy: ''
		},
		{
			id: 'oscillator-starved',
			sizes: { from: 1.2 * feed, to: 30 * feed },
			set: set('oscillatorFeed'),
			pins: ['oscillatorFeed'],
			causes: [
				{
					fault: 'oscillator-feed-high',
					part,
					accuses: 'oscillator-feed',
					common: 'common',
					suspects: ['lo-rh'],
					value: own,
					says: (value) => `The ${part} has risen to ${value}.`
				},
				{
					fault: 'oscillator-decoupler-leak',
					part: capacitor,
					common: 'rare',
					suspects: ['lo-dec-leak'],
					value: ohms(({ size, sound, resting }) => {
						const drop = resting('ht') - resting('oscillator-anode');
						return resting('oscillator-anode') / Math.max(drop * (1 / sound.oscillatorFeed - 1 / size), 1e-9);
					}),
					says: (value) => `The ${capacitor} leaks: ${value}.`
				}
			],
			partBy
		},
		{
			id: 'oscillator-dead',
			set: (sound) => ({ ...sound, oscillatorFeed: OPEN, swing: 0 }),
			pins: ['oscillatorFeed', 'swing'],
			causes: [
				{
					fault: 'oscillator-feed-open',
					part,
					common: 'common',
					suspects: ['lo-rh'],
					says: () => `The ${part} is open.`
				},
				{
					fault: 'oscillator-decoupler-short',
					part: capacitor,
					common: 'rare',
					suspects: ['lo-dec-leak'],
					says: () => `The ${capacitor} is shorted.`
				}
			],
			partBy
		},
		{
			id: 'oscillator-feed-low',
			sizes: { from: feed / 30, to: feed / 1.2 },
			set: set('oscillatorFeed'),
			pins: ['oscillatorFeed'],
			causes: [
				{
					fault: 'oscillator-feed-low',
					part,
					accuses: 'oscillator-feed',
					common: 'not listed',
					suspects: ['lo-rl'],
					value: own,
					says: (value) => `The ${part} is only ${value}.`
				}
			],
			partBy: ''
		},
		{
			id: 'oscillator-leak-low',
			sizes: { from: leak / 30, to: leak / 1.2 },
			set: set('oscillatorLeak'),
			pins: ['oscillatorLeak'],
			causes: [
				{
					fault: 'oscillator-grid-leak-low',
					part: 'oscillator grid leak',
					accuses: 'oscillator-grid-leak',
					common: 'not listed',
					suspects: ['lo-rg-low'],
					value: own,
					says: (value) => `The oscillator grid leak is only ${value}.`
				}
			],
			partBy: ''
		},
		{
			id: 'oscillator-leak-high',
			sizes: { from: 1.2 * leak, to: 30 * leak },
			set: set('oscillatorLeak'),
			pins: ['oscillatorLeak'],
			causes: [
				{
					fault: 'oscillator-grid-leak-high',
					part: 'oscillator grid leak',
					accuses: 'oscillator-grid-leak',
					common: 'occasional',
					suspects: ['lo-rg'],
					value: own,
					says: (value) => `The oscillator grid leak has risen to ${value}.`
				}
			],
			partBy: ''
		}
	];
}
