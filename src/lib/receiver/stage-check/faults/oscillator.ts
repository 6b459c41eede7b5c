import type { Circuit } from '../circuit.ts';
import { cold, leaking, OHMS, OPEN, read, type Row, set, WIRE } from './shared.ts';

/** Faults of the oscillator of a mixer. */
export function oscillatorRows({ oscillatorFeed: feed, oscillatorLeak: leak }: Circuit): Row[] {
	const part = 'oscillator anode feed';
	const capacitor = 'decoupling capacitor of the oscillator feed';
	const partBy = `Unplugged and discharged: measure the ${part}, then lift one end of its ${capacitor.split(' of')[0]} and read again.`;
	const starved = {
		family: 'oscillator-starved',
		parted: [...cold('oscillator-feed'), ...read('lifted-oscillator-anode')],
		partBy
	};
	const dead = { ...starved, family: 'oscillator-dead' };
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
			...starved,
			id: 'oscillator-feed-high',
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
					value: OHMS,
					says: (value) => `The ${part} has risen to ${value}.`
				}
			],
			proofs: cold('oscillator-feed')
		},
		{
			...starved,
			id: 'oscillator-decoupler-leak',
			sizes: { from: 0.1 * feed, to: 30 * feed },
			set: leaking('oscillatorLeakage'),
			pins: ['oscillatorLeakage'],
			causes: [
				{
					fault: 'oscillator-decoupler-leak',
					part: capacitor,
					common: 'rare',
					suspects: ['lo-dec-leak'],
					value: OHMS,
					says: (value) => `The ${capacitor} leaks: ${value}.`
				}
			],
			proofs: [...cold('oscillator-feed'), ...read('lifted-oscillator-anode')]
		},
		{
			...dead,
			id: 'oscillator-feed-open',
			set: (sound) => ({ ...sound, oscillatorFeed: OPEN, swing: 0 }),
			pins: ['oscillatorFeed', 'swing'],
			causes: [
				{
					fault: 'oscillator-feed-open',
					part,
					common: 'common',
					suspects: ['lo-rh'],
					says: () => `The ${part} is open.`
				}
			]
		},
		{
			...dead,
			id: 'oscillator-decoupler-short',
			set: (sound) => ({ ...sound, oscillatorLeakage: 1 / WIRE, swing: 0 }),
			pins: ['oscillatorLeakage', 'swing'],
			causes: [
				{
					fault: 'oscillator-decoupler-short',
					part: capacitor,
					common: 'rare',
					suspects: ['lo-dec-leak'],
					says: () => `The ${capacitor} is shorted.`
				}
			]
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
					value: OHMS,
					says: (value) => `The ${part} has fallen to ${value}.`
				}
			],
			partBy: '',
			proofs: cold('oscillator-feed')
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
					value: OHMS,
					says: (value) => `The oscillator grid leak has fallen to ${value}.`
				}
			],
			partBy: '',
			proofs: cold('oscillator-grid-leak')
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
					value: OHMS,
					says: (value) => `The oscillator grid leak has risen to ${value}.`
				}
			],
			partBy: '',
			proofs: cold('oscillator-grid-leak')
		}
	];
}
