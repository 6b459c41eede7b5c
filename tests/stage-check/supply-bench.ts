import type { RectifierQuestion } from '../../src/lib/receiver/stage-check/index.ts';
import { type Run, type Spice, type Vector } from '../published/spice/engine.ts';
import type { Dice } from '../random.ts';
import type { Readings } from './amplifier-bench.ts';
import type { PlantedFault } from './faults.ts';
import type { SupplySet } from './sets.ts';

/** A supply on the simulator's bench: rectifiers by powers about three halves, loads part resistor, part valves. */
export interface RealSupply extends SupplySet {
	/** Of the rectifier's law; then A/V^power of each half. */
	power: number;
	first: number;
	second: number;
	/** Share of the second half of the winding; nought where it is open. */
	secondWinding: number;
	/** Volts that the loads are meant for. */
	usual: { reservoir: number; smoothed: number };
	loadShare: number;
	directShare: number;
	reservoirLeak?: number;
	smoothedLeak?: number;
}

const MAINS = 50;
const CYCLES = 26;
/** Ohm put into the lead of a capacitor. */
const LEAD = 10;
const THREE_HALVES = 1.5;
const scatter = (dice: Dice, share: number): number => 1 + dice.between(-share, share);

/** Half of a load as a resistor, half as valves draw. */
const loadLines = (name: string, node: string, amps: number, usual: number): string[] => [
	`R${name} ${node} 0 ${usual / (amps / 2)}`,
	`B${name} ${node} 0 I=${amps / 2}*(uramp(v(${node}))/${usual})**1.5`
];

function netlist(real: RealSupply): string[] {
	const peak = real.windingVolts * Math.SQRT2;
	const half = (n: number, volts: number, perveance: number): string[] => [
		`V${n} w${n} 0 SIN(0 ${volts} ${MAINS})`,
		`Rw${n} w${n} a${n} ${real.winding}`,
		`B${n} a${n} r I=${perveance}*(uramp(v(a${n})-v(r)))**${real.power}`
	];
	return [
		...half(1, peak, real.first),
		...(real.halfWave ? [] : half(2, -peak * real.secondWinding, real.second)),
		`Cres r 0 ${real.reservoir} IC=${real.usual.reservoir}`,
		`Rsm r s ${real.smoothing}`,
		// A small one settles soon; its size does not bear on the DC volts.
		`Csm s 0 8u IC=${real.usual.smoothed}`,
		...(real.direct > 0 ? loadLines('d', 'r', real.direct * real.directShare, real.usual.reservoir) : []),
		...loadLines('l', 's', real.load * real.loadShare, real.usual.smoothed),
		...(real.reservoirLeak ? [`Rrl r 0 ${real.reservoirLeak}`] : []),
		...(real.smoothedLeak ? [`Rsl s 0 ${real.smoothedLeak}`] : []),
		`.tran ${0.02 / 160} ${CYCLES * 0.02} ${(CYCLES - 2) * 0.02} ${0.02 / 160} UIC`
	];
}

/** Mean over the time of the run. */
function meanOf(run: Run, values: Vector): number {
	const time = run.get('time') ?? [];
	const area = time.slice(1).reduce((sum, t, i) => {
		return sum + ((t - (time[i] ?? 0)) * ((values[i] ?? 0) + (values[i + 1] ?? 0))) / 2;
	}, 0);
	return area / ((time.at(-1) ?? 0) - (time[0] ?? 0));
}

/** What a meter reads on each point. */
export async function readSupply(spice: Spice, real: RealSupply): Promise<Readings> {
	const run = await spice.run(netlist(real));
	const vector = (name: string): Vector => run.get(`v(${name})`) ?? [];
	const rms = (values: Vector): number =>
		Math.sqrt(
			meanOf(
				run,
				values.map((volts) => volts * volts)
			)
		);
	const dc = meanOf(run, vector('r'));
	const smoothed = meanOf(run, vector('s'));
	const { usual, direct, directShare } = real;
	return {
		'winding-1': rms(vector('a1')),
		...(real.halfWave ? {} : { 'winding-2': rms(vector('a2')) }),
		reservoir: dc,
		smoothed,
		ripple: rms(vector('r').map((volts) => volts - dc)),
		'smoothing-drop': dc - smoothed,
		'reservoir-lead': real.reservoirLeak ? (LEAD * dc) / real.reservoirLeak : 0,
		'smoothing-lead': real.smoothedLeak ? (LEAD * smoothed) / real.smoothedLeak : 0,
		'direct-current': direct * directShare * (dc / usual.reservoir / 2 + (dc / usual.reservoir) ** 1.5 / 2)
	};
}

/** The perveance with which the simulator meets the published point of a rectifier by the power of three halves, A/V^1.5. */
export async function fittedPerveance(spice: Spice, { rectifier: point, type }: SupplySet): Promise<number> {
	let [low, high] = [1e-5, 1e-2];
	for (let i = 0; i < 12; i++) {
		const perveance = Math.sqrt(low * high);
		const { reservoir = 0 } = await readSupply(spice, {
			type,
			windingVolts: point.windingVolts,
			winding: point.seriesResistance,
			smoothing: 1,
			reservoir: point.reservoir ?? 50e-6,
			// All of it in one place, at the very volts of the sheet.
			load: point.current,
			direct: 0,
			rectifier: point,
			...(point.halfWave && { halfWave: true as const }),
			power: THREE_HALVES,
			first: perveance,
			second: perveance,
			secondWinding: 1,
			usual: { reservoir: point.volts, smoothed: point.volts },
			loadShare: 1,
			directShare: 1
		});
		if (reservoir < point.volts) low = perveance;
		else high = perveance;
	}
	return Math.sqrt(low * high);
}

/** A sound supply with everything scattered: parts 10 %, electrolytics 20 %, the rectifier and the loads 15 %, mains 5 %. */
export function drawnSupply(
	dice: Dice,
	set: SupplySet,
	perveance: number,
	usual: RealSupply['usual']
): RealSupply {
	const valve = perveance * scatter(dice, 0.15);
	// Another power that gives the same current at the peak of the sheet.
	const power = dice.between(1.35, 1.5);
	const peak = 3.5 * set.rectifier.current;
	const sameAtPeak = peak ** (1 - power / THREE_HALVES) * valve ** (power / THREE_HALVES - 1);
	return {
		...set,
		power,
		windingVolts: set.windingVolts * scatter(dice, 0.05),
		winding: set.winding * scatter(dice, 0.1),
		smoothing: set.smoothing * scatter(dice, 0.1),
		reservoir: set.reservoir * scatter(dice, 0.2),
		first: valve * sameAtPeak * scatter(dice, 0.05),
		second: valve * sameAtPeak * scatter(dice, 0.05),
		secondWinding: scatter(dice, 0.01),
		usual,
		loadShare: scatter(dice, 0.15),
		directShare: scatter(dice, 0.15)
	};
}

/** The supply of a set with nothing scattered. */
export const nominalSupply = (set: SupplySet, perveance: number, usual: RealSupply['usual']): RealSupply => ({
	...set,
	power: THREE_HALVES,
	first: perveance,
	second: perveance,
	secondWinding: 1,
	usual,
	loadShare: 1,
	directShare: 1
});

/** The supply with a fault in it, and the size as the check counts it. */
export function plantedSupply(real: RealSupply, { fault }: PlantedFault, size: number) {
	const plain = (change: Partial<RealSupply>, own?: number) => ({ real: { ...real, ...change }, size: own });
	switch (fault) {
		case 'rectifier-worn':
			return plain({ first: real.first / size, second: real.second / size });
		case 'rectifier-half-dead':
			return plain({ second: 1e-12 });
		case 'reservoir-dry':
			return plain({ reservoir: real.reservoir * size }, real.reservoir * size);
		case 'reservoir-leak':
			return plain({ reservoirLeak: size }, size);
		case 'winding-half-open':
			return plain({ secondWinding: 0 });
		case 'winding-low':
			return plain({ windingVolts: real.windingVolts * size }, real.windingVolts * size);
		case 'rectifier-dead':
			return plain({ first: 1e-12, second: 1e-12 });
		case 'smoothing-high':
		case 'smoothing-low':
			return plain({ smoothing: real.smoothing * size }, real.smoothing * size);
		case 'smoothing-open':
			return plain({ smoothing: 1e9 });
		case 'smoothed-leak':
			return plain({ smoothedLeak: size }, size);
		case 'load-light':
			return plain({ loadShare: real.loadShare * size }, real.load * real.loadShare * size);
		default:
			throw new Error(`no way to plant ${fault}`);
	}
}

/** The question as a restorer would put it; `ripple` only where it is to be read. */
export function supplyQuestion(set: SupplySet, readings: Readings, withRipple: boolean): RectifierQuestion {
	const { ripple, reservoir, smoothed, ...rest } = readings;
	const [one, other] = [rest['winding-1'], rest['winding-2']];
	const dc = {
		...(one !== undefined && { 'winding-1': one }),
		...(other !== undefined && { 'winding-2': other }),
		...(reservoir !== undefined && { reservoir }),
		...(smoothed !== undefined && { smoothed })
	};
	return {
		stage: 'rectifier',
		rectifier: set.rectifier,
		windingVolts: set.windingVolts,
		load: set.load,
		direct: set.direct,
		parts: { winding: set.winding, smoothing: set.smoothing, 'reservoir-capacitor': set.reservoir },
		readings: withRipple && ripple !== undefined ? { ...dc, ripple } : dc
	};
}
