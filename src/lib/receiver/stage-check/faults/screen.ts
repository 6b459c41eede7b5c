import type { Circuit } from '../circuit.ts';
import { type Amplifier, cold, leaking, OHMS, OPEN, read, type Row, set, WIRE } from './shared.ts';

const SCREEN = {
	'triode-audio': { high: [], low: [], leak: [] },
	'output-pentode': { high: ['rs-open'], low: ['output-rs-low'], leak: ['rs-leak'] },
	'if-pentode': { high: ['if-rs'], low: ['if-rs-low'], leak: ['if-cs-leak'] },
	'triode-heptode': { high: ['mix-rs'], low: ['mix-rs-low'], leak: ['mix-cs-leak'] }
} as const;

/** Faults of screen feed and screen capacitor; none where the screen sits on HT. */
export function screenRows(stage: Amplifier, { screenFeed: nominal }: Circuit): Row[] {
	if (nominal <= WIRE) return [];
	const pins = ['screenFeed'] as const;
	const common = stage === 'output-pentode' ? 'rare' : 'common';
	const feed = { part: 'screen feed resistor', accuses: 'screen-feed', common } as const;
	const leak = { part: 'screen by-pass capacitor', common, suspects: SCREEN[stage].leak } as const;
	const partBy =
		'Unplugged and discharged: measure the feed resistor, then lift one end of the screen capacitor and read the screen again.';
	const starved = {
		family: 'screen-starved',
		parted: [...cold('screen-feed'), ...read('lifted-screen')],
		partBy
	};
	const dead = { ...starved, family: 'screen-dead' };
	return [
		{
			...starved,
			id: 'screen-feed-high',
			sizes: { from: 1.2 * nominal, to: 40 * nominal },
			set: set('screenFeed'),
			pins,
			causes: [
				{
					...feed,
					fault: 'screen-feed-high',
					suspects: SCREEN[stage].high,
					value: OHMS,
					says: (value) => `The screen feed resistor has risen to ${value}.`
				}
			],
			proofs: cold('screen-feed')
		},
		{
			...starved,
			id: 'screen-leak',
			sizes: { from: 0.03 * nominal, to: 30 * nominal },
			set: leaking('screenLeak'),
			pins: ['screenLeak'],
			causes: [
				{
					...leak,
					fault: 'screen-leak',
					value: OHMS,
					says: (value) => `The screen by-pass capacitor leaks: ${value}.`
				}
			],
			proofs: [...cold('screen-feed'), ...read('lifted-screen', 'screen-drop'), ...cold('cathode-resistor')]
		},
		{
			...dead,
			id: 'screen-feed-open',
			set: set('screenFeed', OPEN),
			pins,
			causes: [
				{
					...feed,
					fault: 'screen-feed-open',
					suspects: SCREEN[stage].high,
					says: () => 'The screen feed resistor is open.'
				}
			]
		},
		{
			...dead,
			id: 'screen-short',
			set: (sound) => ({ ...sound, screenLeak: 1 / WIRE }),
			pins: ['screenLeak'],
			causes: [
				{
					...leak,
					fault: 'screen-short',
					says: () => 'The screen by-pass capacitor is shorted.'
				}
			]
		},
		{
			id: 'screen-feed-low',
			sizes: { from: nominal / 30, to: nominal / 1.2 },
			set: set('screenFeed'),
			pins,
			causes: [
				{
					...feed,
					fault: 'screen-feed-low',
					common: 'not listed',
					suspects: SCREEN[stage].low,
					value: OHMS,
					says: (value) => `The screen feed resistor has fallen to ${value}.`
				}
			],
			partBy: '',
			proofs: cold('screen-feed')
		}
	];
}
