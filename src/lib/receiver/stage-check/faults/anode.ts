import type { Circuit } from '../circuit.ts';
import type { PartId } from '../types.ts';
import {
	type Amplifier,
	type Cause,
	cold,
	leaking,
	OHMS,
	OPEN,
	read,
	type Row,
	set,
	WIRE
} from './shared.ts';

interface AnodeWords {
	feed: string;
	accuses: PartId;
	open: readonly string[];
	high: readonly string[];
	low: readonly string[];
	leak: readonly string[];
	leaker: string;
	highCommon: Cause['common'];
	openCommon: Cause['common'];
	leakCommon: Cause['common'];
}

const IF_ANODE = (can: string, stage: string): AnodeWords => ({
	feed: 'anode feed (IF winding or feed resistor)',
	accuses: 'primary',
	open: [`ift-open@${can}`, `if-feed@${stage}`],
	high: [`if-feed@${stage}`],
	low: [`if-feed-low@${stage}`],
	leak: [`if-dec-leak@${stage}`],
	leaker: 'decoupling capacitor of the anode feed',
	highCommon: 'occasional',
	openCommon: 'occasional',
	leakCommon: 'occasional'
});

const ANODE: Readonly<Record<Amplifier, AnodeWords>> = {
	'triode-audio': {
		feed: 'anode load',
		accuses: 'anode-load',
		open: ['af-load'],
		high: ['af-load'],
		low: ['af-load-low'],
		leak: ['af-bypass-leak'],
		leaker: 'RF by-pass at the anode',
		highCommon: 'common',
		openCommon: 'common',
		leakCommon: 'rare'
	},
	'output-pentode': {
		feed: 'output primary',
		accuses: 'primary',
		open: ['ot-open'],
		high: [],
		low: ['ot-short', 'tone-short-ht'],
		leak: ['tone-short', 'ot-core'],
		leaker: 'tone capacitor, or the primary to the core',
		highCommon: 'rare',
		openCommon: 'occasional',
		leakCommon: 'occasional'
	},
	'if-pentode': IF_ANODE('if-can-2-am', 'if-valve'),
	'triode-heptode': IF_ANODE('if-can-1-am', 'mixer')
};

/** Faults of what feeds the anode, and of what hangs on it. */
export function anodeRows(stage: Amplifier, { anodeFeed: nominal }: Circuit): Row[] {
	const words = ANODE[stage];
	const pins = ['anodeFeed'] as const;
	const partBy = `Unplugged and discharged: measure the ${words.feed}; then lift what goes from the anode to chassis and read the anode again.`;
	const winding = nominal < 2e3;
	const high: Cause = {
		fault: 'anode-feed-high',
		part: words.feed,
		accuses: words.accuses,
		common: words.highCommon,
		suspects: words.high,
		value: OHMS,
		says: (value) => `The ${words.feed} has risen to ${value}.`
	};
	const leak: Cause = {
		fault: 'anode-leak',
		part: words.leaker,
		common: words.leakCommon,
		suspects: words.leak,
		value: OHMS,
		says: (value) => `The ${words.leaker} leaks to chassis: ${value}.`
	};
	const starved = {
		family: 'anode-starved',
		parted: [...cold(words.accuses), ...read('lifted-anode')],
		partBy
	};
	const dead = { ...starved, family: 'anode-dead' };
	return [
		{
			...starved,
			id: 'anode-feed-high',
			sizes: { from: 1.2 * nominal, to: (winding ? 300 : 30) * nominal },
			set: set('anodeFeed'),
			pins,
			causes: [high],
			proofs: cold(words.accuses, 'cathode-resistor')
		},
		{
			...starved,
			id: 'anode-leak',
			sizes: { from: (winding ? 0.05 : 0.1) * nominal, to: (winding ? 300 : 30) * nominal },
			set: leaking('anodeLeak'),
			pins: ['anodeLeak'],
			causes: [leak],
			proofs: [...cold(words.accuses), ...read('lifted-anode', 'anode-drop'), ...cold('cathode-resistor')]
		},
		{
			...dead,
			id: 'anode-feed-open',
			set: set('anodeFeed', OPEN),
			pins,
			causes: [
				{
					fault: 'anode-feed-open',
					part: words.feed,
					accuses: words.accuses,
					common: words.openCommon,
					suspects: words.open,
					says: () => `The ${words.feed} is open.`
				}
			]
		},
		{
			...dead,
			id: 'anode-short',
			set: (sound) => ({ ...sound, anodeLeak: 1 / WIRE }),
			pins: ['anodeLeak'],
			causes: [
				{
					fault: 'anode-short',
					part: words.leaker,
					common: 'rare',
					suspects: words.leak,
					says: () => `The ${words.leaker} is shorted to chassis.`
				}
			]
		},
		{
			id: 'anode-feed-low',
			sizes: { from: nominal / 30, to: nominal / 1.2 },
			set: set('anodeFeed'),
			pins,
			causes: [
				{
					fault: 'anode-feed-low',
					part: words.feed,
					accuses: words.accuses,
					common: stage === 'output-pentode' ? 'rare' : 'not listed',
					suspects: words.low,
					value: OHMS,
					says: (value) =>
						stage === 'output-pentode'
							? `The output primary has fallen to ${value}: shorted turns, or a leaky capacitor across it.`
							: `The ${words.feed} has fallen to ${value}.`
				}
			],
			partBy: '',
			proofs: [...cold(words.accuses), ...read('anode-drop')]
		}
	];
}
