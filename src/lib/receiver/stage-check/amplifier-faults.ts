import type { Circuit } from './circuit.ts';
import type { CauseRow, FaultRow, Seen } from './fault-types.ts';
import type { PartId, StageKind } from './types.ts';

type Row = FaultRow<Circuit>;
type Cause = CauseRow<Circuit>;
type Amplifier = Exclude<StageKind, 'rectifier'>;
type Names = Readonly<Record<Amplifier, readonly string[]>>;

/** Ohm: as good as nothing connected, and as good as a wire. */
const OPEN = 1e10;
const WIRE = 0.5;

const ohms = (amount: (seen: Seen<Circuit>) => number) => ({ unit: 'ohm' as const, amount });
const own = ohms(({ size }) => size);

/** The leak to chassis that lowers a point as much as its feed resistor would if it had risen to `size`. */
const leakBehind = (key: 'anodeFeed' | 'screenFeed', point: 'anode' | 'screen') =>
	ohms(({ size, sound, circuit, resting }) => {
		const drop = circuit.ht - resting(point);
		return resting(point) / Math.max(drop * (1 / sound[key] - 1 / size), 1e-9);
	});

const set =
	<Key extends keyof Circuit>(key: Key, value?: number) =>
	(sound: Circuit, size: number): Circuit => ({ ...sound, [key]: value ?? size });

const NONE: Names = { 'triode-audio': [], 'output-pentode': [], 'if-pentode': [], 'triode-heptode': [] };
const names = (some: Partial<Names>): Names => ({ ...NONE, ...some });

const WORN = names({
	'triode-audio': ['af-weak'],
	'output-pentode': ['ov-weak'],
	'if-pentode': ['ifv-weak'],
	'triode-heptode': ['mix-weak']
});
const AT: Readonly<Record<Amplifier, string>> = {
	'triode-audio': 'af',
	'output-pentode': 'output',
	'if-pentode': 'if-valve',
	'triode-heptode': 'mixer'
};
const CATHODE_HIGH = names({
	'triode-audio': ['af-rk'],
	'output-pentode': ['rk-high'],
	'if-pentode': ['if-rk'],
	'triode-heptode': ['mix-rk']
});
const CATHODE_LOW = names({
	'output-pentode': ['rk-low'],
	'if-pentode': ['if-rk-low'],
	'triode-heptode': ['mix-rk-low']
});
const BYPASS_SHORT = names({
	'output-pentode': ['ck-short'],
	'if-pentode': ['if-ck-short'],
	'triode-heptode': ['mix-ck-short']
});

function cathodeRows(stage: Amplifier, { cathodeResistor: nominal }: Circuit): Row[] {
	if (nominal <= WIRE) return [];
	const pins = ['cathodeResistor'] as const;
	const accuses: PartId = 'cathode-resistor';
	const part = 'cathode resistor';
	const high = stage === 'output-pentode' ? 'occasional' : 'rare';
	const bypassLeak = ohms(({ size }) => 1 / Math.max(1 / size - 1 / nominal, 1e-9));
	return [
		{
			id: 'cathode-high',
			sizes: { from: 1.2 * nominal, to: 30 * nominal },
			set: set('cathodeResistor'),
			pins,
			causes: [
				{
					fault: 'cathode-resistor-high',
					part,
					accuses,
					common: high,
					suspects: CATHODE_HIGH[stage],
					value: own,
					says: (value) => `The cathode resistor has risen to ${value}.`
				}
			],
			partBy: ''
		},
		{
			id: 'cathode-open',
			set: set('cathodeResistor', OPEN),
			pins,
			causes: [
				{
					fault: 'cathode-resistor-open',
					part,
					accuses,
					common: high,
					suspects: CATHODE_HIGH[stage],
					says: () => 'The cathode resistor is open: the volts are those that just cut the valve off.'
				}
			],
			partBy: ''
		},
		{
			id: 'cathode-low',
			sizes: { from: nominal / 30, to: nominal / 1.2 },
			set: set('cathodeResistor'),
			pins,
			causes: [
				{
					fault: 'cathode-bypass-leaky',
					part: 'cathode by-pass capacitor',
					common: stage === 'output-pentode' ? 'occasional' : 'rare',
					suspects: BYPASS_SHORT[stage],
					value: bypassLeak,
					says: (value) => `The cathode by-pass capacitor leaks: ${value} across the resistor.`
				},
				{
					fault: 'cathode-resistor-low',
					part,
					accuses,
					common: stage === 'output-pentode' ? 'occasional' : 'not listed',
					suspects: CATHODE_LOW[stage],
					value: own,
					says: (value) => `The cathode resistor is only ${value}.`
				},
				{
					fault: 'heater-cathode-leak',
					part: 'valve, heater to cathode',
					common: 'rare',
					suspects:
						stage === 'triode-audio'
							? ['af-hk']
							: ['if-pentode', 'triode-heptode'].includes(stage)
								? [`valve-leak@${AT[stage]}`]
								: [],
					value: bypassLeak,
					says: (value) => `The valve leaks from cathode to heater: ${value}.`
				}
			],
			partBy:
				'Unplugged and discharged: lift one end of the by-pass capacitor, measure the resistor, then the capacitor.'
		},
		{
			id: 'cathode-short',
			set: set('cathodeResistor', WIRE),
			pins,
			causes: [
				{
					fault: 'cathode-bypass-short',
					part: 'cathode by-pass capacitor',
					common: stage === 'output-pentode' ? 'occasional' : 'rare',
					suspects: BYPASS_SHORT[stage],
					says: () => 'The cathode by-pass capacitor is shorted, or the cathode touches chassis.'
				}
			],
			partBy: ''
		}
	];
}

function valveRows(stage: Amplifier): Row[] {
	const suspects = WORN[stage];
	return [
		{
			id: 'valve-worn',
			sizes: { from: 0.04, to: 0.78 },
			set: (sound, size) => ({ ...sound, emission: size }),
			pins: ['emission'],
			causes: [
				{
					fault: 'valve-worn',
					part: 'valve',
					common: stage === 'output-pentode' ? 'common' : 'occasional',
					suspects,
					value: { unit: '%', amount: ({ size }) => 100 * size },
					says: (value) => `The valve is worn: ${value} of the current on its sheet.`
				}
			],
			partBy: ''
		},
		{
			id: 'valve-dead',
			set: (sound) => ({ ...sound, emission: 1e-6, oscillatorEmission: 1e-6, swing: 0 }),
			pins: ['emission', 'oscillatorEmission', 'swing'],
			causes: [
				{
					fault: 'valve-dead',
					part: 'valve, its heater or its socket',
					common: 'occasional',
					suspects: [`valve-htr@${AT[stage]}`, `socket@${AT[stage]}`, ...suspects],
					says: () =>
						'The valve draws no current: cold heater, bad contact in the socket, or no emission left.'
				}
			],
			partBy: ''
		}
	];
}

const GAS = names({
	'triode-audio': ['af-gas'],
	'output-pentode': ['ov-gas'],
	'if-pentode': ['avc-ge@if-valve'],
	'triode-heptode': ['avc-ge@mixer']
});
const LEAK = names({
	'triode-audio': ['af-leak'],
	'output-pentode': ['cc-leak'],
	'if-pentode': ['ift-cap-leak@if-can-1-am'],
	'triode-heptode': []
});
const FLOATING = names({
	'triode-audio': ['af-gleak'],
	'output-pentode': ['gleak-out', 'stopper-open'],
	'if-pentode': ['if-gret'],
	'triode-heptode': ['mix-gret']
});

function gridCauses(stage: Amplifier): Cause[] {
	const coupled = stage === 'triode-audio' || stage === 'output-pentode';
	const leak: Cause = {
		fault: 'coupling-leak',
		part: coupled ? 'coupling capacitor' : 'insulation from a positive point to the grid or its AVC line',
		common: stage === 'output-pentode' ? 'very common' : coupled ? 'occasional' : 'rare',
		suspects: LEAK[stage],
		value: ohms(({ size, before, resting }) => Math.max(before - resting('grid'), 1) / size),
		says: (value) =>
			coupled
				? `The coupling capacitor leaks: ${value}.`
				: `A leak of ${value} from a positive point lifts the grid.`
	};
	const gas: Cause = {
		fault: 'grid-current',
		part: 'valve, grid current',
		common: stage === 'triode-audio' ? 'not listed' : 'occasional',
		suspects: GAS[stage],
		value: { unit: 'A', amount: ({ size }) => size },
		says: (value) => `The valve is gassy or its grid emits: ${value} of grid current.`
	};
	return coupled ? [leak, gas] : [gas, leak];
}

function gridRows(stage: Amplifier, { gridLeak }: Circuit): Row[] {
	return [
		{
			id: 'grid-raised',
			sizes: { from: 0.04 / gridLeak, to: 150 / gridLeak },
			set: set('gridFeed'),
			pins: ['gridFeed'],
			causes: gridCauses(stage),
			partBy:
				stage === 'if-pentode' || stage === 'triode-heptode'
					? 'Change the valve for a sound one: volts that stay come from a leak, volts that go came from the valve.'
					: 'Unplugged, lift the grid end of the coupling capacitor, then read the grid again: volts that go came through the capacitor, volts that stay and grow come from the valve.'
		},
		{
			id: 'grid-floating',
			set: set('gridLeak', 3e9),
			pins: ['gridLeak'],
			causes: [
				{
					fault: 'grid-leak-open',
					part: stage === 'if-pentode' || stage === 'triode-heptode' ? 'grid return' : 'grid leak',
					accuses: 'grid-leak',
					common: stage === 'if-pentode' || stage === 'triode-heptode' ? 'rare' : 'occasional',
					suspects: FLOATING[stage],
					says: () => 'The grid floats: its leak, a stopper or a joint on the way to it is open.'
				}
			],
			partBy: ''
		}
	];
}

const SCREEN = {
	'triode-audio': { high: [], low: [], leak: [] },
	'output-pentode': { high: ['rs-open'], low: ['output-rs-low'], leak: ['rs-leak'] },
	'if-pentode': { high: ['if-rs'], low: ['if-rs-low'], leak: ['if-cs-leak'] },
	'triode-heptode': { high: ['mix-rs'], low: ['mix-rs-low'], leak: ['mix-cs-leak'] }
} as const;

function screenRows(stage: Amplifier, { screenFeed: nominal }: Circuit): Row[] {
	if (nominal <= WIRE) return [];
	const pins = ['screenFeed'] as const;
	const common = stage === 'output-pentode' ? 'rare' : 'common';
	const feed = { part: 'screen feed resistor', accuses: 'screen-feed', common } as const;
	const leak = { part: 'screen by-pass capacitor', common, suspects: SCREEN[stage].leak } as const;
	const partBy =
		'Unplugged and discharged: measure the feed resistor, then lift one end of the screen capacitor and read the screen again.';
	return [
		{
			id: 'screen-starved',
			sizes: { from: 1.2 * nominal, to: 40 * nominal },
			set: set('screenFeed'),
			pins,
			causes: [
				{
					...feed,
					fault: 'screen-feed-high',
					suspects: SCREEN[stage].high,
					value: own,
					says: (value) => `The screen feed resistor has risen to ${value}.`
				},
				{
					...leak,
					fault: 'screen-leak',
					value: leakBehind('screenFeed', 'screen'),
					says: (value) => `The screen by-pass capacitor leaks: ${value}.`
				}
			],
			partBy
		},
		{
			id: 'screen-dead',
			set: set('screenFeed', OPEN),
			pins,
			causes: [
				{
					...feed,
					fault: 'screen-feed-open',
					suspects: SCREEN[stage].high,
					says: () => 'The screen feed resistor is open.'
				},
				{
					...leak,
					fault: 'screen-short',
					says: () => 'The screen by-pass capacitor is shorted.'
				}
			],
			partBy
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
					value: own,
					says: (value) => `The screen feed resistor is only ${value}.`
				}
			],
			partBy: ''
		}
	];
}

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

function anodeRows(stage: Amplifier, { anodeFeed: nominal }: Circuit): Row[] {
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
		value: own,
		says: (value) => `The ${words.feed} has risen to ${value}.`
	};
	const leak: Cause = {
		fault: 'anode-leak',
		part: words.leaker,
		common: words.leakCommon,
		suspects: words.leak,
		value: leakBehind('anodeFeed', 'anode'),
		says: (value) => `The ${words.leaker} leaks to chassis: ${value}.`
	};
	return [
		{
			id: 'anode-starved',
			sizes: { from: 1.2 * nominal, to: (winding ? 300 : 30) * nominal },
			set: set('anodeFeed'),
			pins,
			causes: stage === 'output-pentode' ? [leak, high] : [high, leak],
			partBy
		},
		{
			id: 'anode-dead',
			set: set('anodeFeed', OPEN),
			pins,
			causes: [
				{
					fault: 'anode-feed-open',
					part: words.feed,
					common: words.openCommon,
					suspects: words.open,
					says: () => `The ${words.feed} is open.`
				},
				{
					fault: 'anode-short',
					part: words.leaker,
					common: 'rare',
					suspects: words.leak,
					says: () => `The ${words.leaker} is shorted to chassis.`
				}
			],
			partBy
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
					value: own,
					says: (value) =>
						stage === 'output-pentode'
							? `The output primary is only ${value}: shorted turns, or a leaky capacitor across it.`
							: `The ${words.feed} is only ${value}.`
				}
			],
			partBy: ''
		}
	];
}

function oscillatorRows({ oscillatorFeed: feed, oscillatorLeak: leak }: Circuit): Row[] {
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
					value: ohms(({ size, circuit, resting }) => {
						const drop = circuit.ht - resting('oscillator-anode');
						return resting('oscillator-anode') / Math.max(drop * (1 / feed - 1 / size), 1e-9);
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
