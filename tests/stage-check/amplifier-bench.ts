import type {
	MixerQuestion,
	PartId,
	ReadingId,
	StageKind,
	ValveQuestion
} from '../../src/lib/receiver/stage-check/index.ts';
import type { Spice } from '../published/spice/engine.ts';
import { valueOf } from '../published/spice/engine.ts';
import type { Dice } from '../random.ts';
import type { PlantedFault } from './faults.ts';
import {
	GRID_DIODE,
	type Koren,
	korenOscillator,
	korenPentode,
	korenTriode,
	netlistOf,
	oscillatorNetlist
} from './koren.ts';
import { type AmplifierSet, mixerSheet, sheetOf } from './sets.ts';

/** A stage on the simulator's bench, with its real values. */
export interface Real extends AmplifierSet {
	valve: Koren;
	oscillator?: { valve: Koren; amplitude: number; anodeVolts: number };
	/** Of the valve against its sheet, anode and screen alike. */
	emission: number;
	/** What the far side of the coupling capacitor stands at without a leak, behind its resistance. */
	before: { volts: number; ohms: number };
	gridReturn: number;
	/** A, into the grid, of a sound valve. */
	residual: number;
	/** Heptode: anode share while the third grid is not swung, against the share while it is. */
	stoppedShare: number;
	anodeLeak?: number;
	screenLeak?: number;
	cathodeLeak?: number;
	couplingLeak?: number;
	gas?: number;
	oscillatorLeakage?: number;
	stopped?: true;
}

export type Amplifier = Exclude<StageKind, 'rectifier'>;
const METER = 10e6;
const OPEN = 1e12;
const SHORT = 1;
/** Scatter: parts 10 %, valves 15 % in current and in screen share, mu 5 %, mains 5 %. */
const scatter = (dice: Dice, share: number): number => 1 + dice.between(-share, share);

/** A sound stage with all its parts and its valve scattered. */
export function drawnStage(dice: Dice, stage: Amplifier, set: AmplifierSet): Real {
	const part = (ohms: number) => ohms * scatter(dice, 0.1);
	const mains = scatter(dice, 0.05);
	const emission = scatter(dice, 0.15);
	const controlled = set.controlled === true;
	const shape = {
		power: dice.between(1.3, 1.5),
		kp: controlled ? dice.between(25, 60) : dice.between(60, 200),
		knee: dice.between(8, 20),
		returned: dice.between(0.6, 0.95),
		gridStart: dice.between(-1.2, -0.6)
	};
	const sheet = stage === 'triode-heptode' ? mixerSheet(set.type).valve : sheetOf(set.type, stage);
	const fitted =
		stage === 'triode-audio'
			? korenTriode(sheet, { ...shape, kp: 300 })
			: korenPentode(sheet, { ...shape, mu: dice.between(17, 21) });
	const valve: Koren = {
		...fitted,
		mu: fitted.mu * scatter(dice, 0.05),
		screenRatio: fitted.screenRatio * scatter(dice, 0.15)
	};
	return {
		...set,
		ht: set.ht * mains,
		anodeFeed: part(set.anodeFeed),
		screenFeed: part(set.screenFeed),
		cathodeResistor: part(set.cathodeResistor),
		gridLeak: part(set.gridLeak),
		...(set.sharedScreen !== undefined && { sharedScreen: set.sharedScreen * scatter(dice, 0.15) }),
		...(set.oscillatorFeed !== undefined && {
			oscillatorFeed: part(set.oscillatorFeed),
			oscillatorLeak: part(set.oscillatorLeak ?? 47e3)
		}),
		valve,
		...(stage === 'triode-heptode' && { oscillator: drawnOscillator(dice, set, shape) }),
		emission,
		before: { volts: set.ht * mains * dice.between(0.3, 0.6), ohms: part(150e3) },
		gridReturn: controlled ? dice.between(-1, 0) : 0,
		residual: dice.ratio(1e-9, 30e-9),
		stoppedShare: dice.between(1.5, 2.1)
	};
}

function drawnOscillator(dice: Dice, set: AmplifierSet, shape: Parameters<typeof korenTriode>[1]) {
	const { oscillator: point } = mixerSheet(set.type);
	const nominal = point.gridCurrent * point.gridLeak * 1.1;
	const valve = korenOscillator(point, { ...shape, kp: 150, mu: dice.between(19, 24) }, nominal);
	return {
		valve: { ...valve, kg1: valve.kg1 / scatter(dice, 0.15) },
		amplitude: nominal * scatter(dice, 0.1),
		anodeVolts: point.anodeVolts
	};
}

/** The stage with a fault in it, and the size of the fault as the check counts it. */
export function planted(
	real: Real,
	fault: PlantedFault,
	size: number
): { real: Real; size: number | undefined } {
	const figure = (
		key: 'anodeFeed' | 'screenFeed' | 'cathodeResistor' | 'oscillatorFeed' | 'oscillatorLeak'
	) => {
		const ohms = (real[key] ?? 0) * size;
		return { real: { ...real, [key]: ohms }, size: ohms };
	};
	const leak = (key: 'anodeLeak' | 'screenLeak' | 'cathodeLeak' | 'oscillatorLeakage', of: number) => ({
		real: { ...real, [key]: of * size },
		size: of * size
	});
	const plain = (change: Partial<Real>) => ({ real: { ...real, ...change }, size: undefined });
	switch (fault.fault) {
		case 'anode-feed-high':
		case 'anode-feed-low':
			return figure('anodeFeed');
		case 'anode-leak':
			return leak('anodeLeak', real.anodeFeed);
		case 'anode-feed-open':
			return plain({ anodeFeed: OPEN });
		case 'anode-short':
			return plain({ anodeLeak: SHORT });
		case 'screen-feed-high':
		case 'screen-feed-low':
			return figure('screenFeed');
		case 'screen-leak':
			return leak('screenLeak', real.screenFeed);
		case 'screen-feed-open':
			return plain({ screenFeed: OPEN });
		case 'screen-short':
			return plain({ screenLeak: SHORT });
		case 'cathode-resistor-high':
		case 'cathode-resistor-low':
			return figure('cathodeResistor');
		case 'cathode-resistor-open':
			return plain({ cathodeResistor: OPEN });
		case 'cathode-bypass-leaky':
			return leak('cathodeLeak', real.cathodeResistor);
		case 'cathode-bypass-short':
			return plain({ cathodeLeak: SHORT });
		case 'valve-worn':
			return { real: { ...real, emission: real.emission * size }, size: 100 * real.emission * size };
		case 'valve-dead':
			return plain({ emission: 1e-9, stopped: true });
		case 'coupling-leak':
			return { real: { ...real, couplingLeak: size }, size };
		case 'grid-current':
			return { real: { ...real, gas: size }, size };
		case 'grid-leak-open':
			return plain({ gridLeak: OPEN });
		case 'oscillator-stopped':
			return plain({ stopped: true });
		case 'oscillator-feed-high':
		case 'oscillator-feed-low':
			return figure('oscillatorFeed');
		case 'oscillator-decoupler-leak':
			return leak('oscillatorLeakage', real.oscillatorFeed ?? 0);
		case 'oscillator-feed-open':
			return plain({ oscillatorFeed: OPEN, stopped: true });
		case 'oscillator-decoupler-short':
			return plain({ oscillatorLeakage: SHORT, stopped: true });
		case 'oscillator-grid-leak-high':
		case 'oscillator-grid-leak-low':
			return figure('oscillatorLeak');
		default:
			throw new Error(`no way to plant ${fault.fault}`);
	}
}

const NODES: Readonly<Record<string, string>> = {
	anode: 'a',
	screen: 's',
	cathode: 'k',
	grid: 'g',
	before: 'b',
	'oscillator-anode': 'oa',
	'oscillator-grid': 'og'
};

const resistor = (name: string, from: string, to: string, ohms: number): string =>
	`R${name} ${from} ${to} ${Math.max(ohms, 0.1)}`;

/** One copy of the stage, every name ending in `x`, with a meter on one point. */
function copyOf(real: Real, stage: Amplifier, x: string, metered: ReadingId): string[] {
	const n = (name: string) => `${name}${x}`;
	const dead = real.emission < 1e-6;
	const pentode = stage !== 'triode-audio';
	const share = real.stopped ? Math.min(0.75, real.stoppedShare / (1 + real.valve.screenRatio)) : undefined;
	const valve: Koren = {
		...real.valve,
		kg1: real.valve.kg1 / real.emission,
		...(share !== undefined && stage === 'triode-heptode' && stoppedSplit(real, share))
	};
	return [
		resistor(n('load'), 'ht', n('a'), real.anodeFeed),
		...(pentode ? [resistor(n('rs'), 'ht', n('s'), real.screenFeed)] : []),
		resistor(n('rk'), n('k'), '0', real.cathodeResistor),
		`Vret${x} ${n('ret')} 0 ${real.gridReturn}`,
		resistor(n('rg'), n('g'), n('ret'), real.gridLeak),
		`Ires${x} 0 ${n('g')} ${(dead ? 0 : real.residual) + (real.gas ?? 0)}`,
		`Vb${x} ${n('bs')} 0 ${real.before.volts}`,
		resistor(n('rb'), n('bs'), n('b'), real.before.ohms),
		...(real.couplingLeak ? [resistor(n('cl'), n('b'), n('g'), real.couplingLeak)] : []),
		...(real.anodeLeak ? [resistor(n('al'), n('a'), '0', real.anodeLeak)] : []),
		...(real.screenLeak ? [resistor(n('sl'), n('s'), '0', real.screenLeak)] : []),
		...(real.cathodeLeak ? [resistor(n('kl'), n('k'), '0', real.cathodeLeak)] : []),
		...(real.sharedScreen
			? [`Bsh${x} ${n('s')} 0 I=${real.sharedScreen}*(uramp(v(${n('s')})/90))**1.5`]
			: []),
		...netlistOf(valve, `v${x}`, {
			anode: n('a'),
			grid: n('g'),
			cathode: n('k'),
			...(pentode && { screen: n('s') })
		}),
		...(real.oscillator ? oscillatorCopy(real, real.oscillator, x, dead) : []),
		...(NODES[metered] && metered !== 'ht' ? [resistor(n('meter'), n(NODES[metered]), '0', METER)] : [])
	];
}

/** Space current as before, more of it to the anode. */
function stoppedSplit(real: Real, share: number) {
	const space = (1 + real.valve.screenRatio) / (real.valve.kg1 / real.emission);
	return { kg1: 1 / (space * share), screenRatio: (1 - share) / share };
}

function oscillatorCopy(
	real: Real,
	{ valve, amplitude, anodeVolts }: NonNullable<Real['oscillator']>,
	x: string,
	dead: boolean
): string[] {
	const n = (name: string) => `${name}${x}`;
	const pins = { anode: n('oa'), grid: n('og'), cathode: n('k') };
	// A worn bulb is worn in both systems.
	const own = { ...valve, kg1: dead ? 1e15 : valve.kg1 / Math.min(1, real.emission + 0.15) };
	return [
		resistor(n('ro'), 'ht', n('oa'), real.oscillatorFeed ?? OPEN),
		resistor(n('rog'), n('og'), n('k'), real.oscillatorLeak ?? OPEN),
		...(real.oscillatorLeakage ? [resistor(n('ol'), n('oa'), '0', real.oscillatorLeakage)] : []),
		...(real.stopped
			? netlistOf(own, `o${x}`, pins)
			: oscillatorNetlist(own, `o${x}`, pins, { amplitude, anodeVolts }))
	];
}

const POINTS: Readonly<Record<Amplifier, readonly ReadingId[]>> = {
	'triode-audio': ['ht', 'anode', 'cathode', 'grid', 'before'],
	'output-pentode': ['ht', 'anode', 'screen', 'cathode', 'grid', 'before'],
	'if-pentode': ['ht', 'anode', 'screen', 'cathode', 'grid', 'before'],
	'triode-heptode': [
		'ht',
		'anode',
		'screen',
		'cathode',
		'grid',
		'oscillator-anode',
		'oscillator-grid',
		'before'
	]
};

export type Readings = Partial<Record<ReadingId, number>>;

/** What a meter of 10 Mohm reads, one point after the other, for each of the stages given. */
export async function readOnBench(
	spice: Spice,
	stage: Amplifier,
	reals: readonly Real[]
): Promise<Readings[]> {
	const points = POINTS[stage].filter((point) => point !== 'ht');
	const [first] = reals;
	const run = await spice.run([
		`Vht ht 0 ${first?.ht ?? 0}`,
		GRID_DIODE,
		'.options gmin=1e-13 reltol=1e-5 itl1=1000',
		...reals.flatMap((real, i) => points.flatMap((point, j) => copyOf(real, stage, `x${i}x${j}`, point))),
		'.op'
	]);
	return reals.map((real, i) => ({
		ht: real.ht,
		...Object.fromEntries(points.map((point, j) => [point, valueOf(run, `v(${NODES[point]}x${i}x${j})`)]))
	}));
}

/** What a reading that was asked for changes in the stage, nought for what is lifted, and where the meter stands. */
const CLOSER: Readonly<
	Partial<Record<ReadingId, { with?: Partial<Real>; at: string; from?: 'ht'; shunt?: number }>>
> = {
	'anode-drop': { at: 'a', from: 'ht' },
	'screen-drop': { at: 's', from: 'ht' },
	'oscillator-drop': { at: 'oa', from: 'ht' },
	'lifted-anode': { at: 'a', with: { anodeLeak: 0 } },
	'lifted-screen': { at: 's', with: { screenLeak: 0 } },
	'lifted-cathode': { at: 'k', with: { cathodeLeak: 0 } },
	'lifted-grid': { at: 'g', with: { couplingLeak: 0 } },
	'lifted-oscillator-anode': { at: 'oa', with: { oscillatorLeakage: 0 } },
	'grid-no-avc': { at: 'g', with: { gridReturn: 0 } },
	'grid-shunted': { at: 'g', with: { couplingLeak: 0 }, shunt: 100e3 },
	'coupling-end': { at: 'e', with: { couplingLeak: 0 } }
};

/** What the meter reads where the check asks for more than the usual points; `undefined` where the bench cannot take it. */
export async function readCloser(
	spice: Spice,
	stage: Amplifier,
	real: Real,
	reading: ReadingId
): Promise<number | undefined> {
	const how = CLOSER[reading];
	if (!how) return undefined;
	const { with: changed = {}, at, from, shunt } = how;
	const run = await spice.run([
		`Vht ht 0 ${real.ht}`,
		GRID_DIODE,
		'.options gmin=1e-13 reltol=1e-5 itl1=1000',
		...copyOf({ ...real, ...changed }, stage, 'x', 'ht'),
		...(at === 'e' ? [resistor('lift', 'bx', 'ex', real.couplingLeak ?? OPEN)] : []),
		...(shunt === undefined ? [] : [resistor('shunt', `${at}x`, '0', shunt)]),
		resistor('meter', `${at}x`, from ?? '0', METER),
		'.op'
	]);
	const volts = valueOf(run, `v(${at}x)`);
	return from ? real.ht - volts : volts;
}

/** Resistance of a part on the ohmmeter, one end lifted. */
export function ohmsOf(real: Real, part: PartId): number | undefined {
	const ohms: Partial<Record<PartId, number | undefined>> = {
		'anode-load': real.anodeFeed,
		primary: real.anodeFeed,
		'screen-feed': real.screenFeed,
		'cathode-resistor': real.cathodeResistor,
		'grid-leak': real.gridLeak,
		'avc-line': real.gridLeak,
		'oscillator-feed': real.oscillatorFeed,
		'oscillator-grid-leak': real.oscillatorLeak
	};
	return ohms[part];
}

/** The question as a restorer would put it: parts as marked, readings as read. */
export function questionOf(
	stage: Amplifier,
	set: AmplifierSet,
	readings: Readings
): ValveQuestion | MixerQuestion {
	const feed = stage === 'triode-audio' ? 'anode-load' : 'primary';
	const common = {
		readings,
		parts: {
			[feed]: set.anodeFeed,
			'cathode-resistor': set.cathodeResistor,
			...(stage !== 'triode-audio' && { 'screen-feed': set.screenFeed }),
			[set.controlled ? 'avc-line' : 'grid-leak']: set.gridLeak,
			...(set.oscillatorFeed !== undefined && {
				'oscillator-feed': set.oscillatorFeed,
				'oscillator-grid-leak': set.oscillatorLeak ?? 47e3
			})
		}
	};
	if (stage === 'triode-heptode')
		return {
			...common,
			stage,
			...mixerSheet(set.type),
			...(set.sharedScreen && { sharedScreenCurrent: set.sharedScreen })
		};
	return { ...common, stage, valve: sheetOf(set.type, stage) };
}

/** Faults that this set can have. */
export const possible = (set: AmplifierSet, { needs }: PlantedFault): boolean =>
	needs === undefined || set[needs] > 0;
