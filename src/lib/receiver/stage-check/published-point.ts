import { type Figures, type OfSystem, operatingPoints, type OperatingPoint } from '../../valves/index.ts';
import type { OscillatorPoint, RectifierPoint, StageKind, WorkingPoint } from './types.ts';

/** What the valve data give for a stage. */
export type PublishedPoint =
	| {
			valve: WorkingPoint;
			/** Where the data have none, a usual one stands in: see `oscillatorUsual`. */
			oscillator?: OscillatorPoint;
			oscillatorUsual?: true;
			label: string;
	  }
	| { rectifier: RectifierPoint; label: string };

/** Which system of the bulb serves in a stage. */
const SYSTEMS: Readonly<Record<StageKind, readonly string[]>> = {
	'triode-audio': ['triode', 'triode1'],
	'output-pentode': ['pentode', 'tetrode'],
	'if-pentode': ['pentode'],
	'triode-heptode': ['heptode', 'hexode'],
	rectifier: ['rectifier']
};

/** Where a sheet is silent on the oscillator: that of the ECH81, near enough to start from. */
const USUAL_OSCILLATOR: OscillatorPoint = {
	anodeVolts: 100,
	anodeCurrent: 4.5e-3,
	gridCurrent: 0.2e-3,
	gridLeak: 47e3
};

/** V; an anode behind a load of a hundred kilohms or two stands far below the usual point of the sheets. */
const USUAL_AUDIO_ANODE = 100;

const MILLI = 1e-3;
const milli = (value: number | undefined): number | undefined =>
	value === undefined ? undefined : value * MILLI;

/** The published point of a valve for a stage, by type or another of its names; undefined where its data do not reach. */
export function pointOf(type: string, stage: StageKind): PublishedPoint | undefined {
	const all = operatingPoints(type).filter(({ system }) => SYSTEMS[stage].includes(system));
	const points = stage === 'triode-audio' ? nearest(all, USUAL_AUDIO_ANODE) : all;
	if (stage === 'rectifier') return firstOf(points, rectifierPoint);
	const found = firstOf(points, workingPoint);
	if (!found || (stage !== 'triode-audio' && found.valve.screenVolts === undefined)) return undefined;
	if (stage !== 'triode-heptode') return found;
	const oscillator = firstOf(operatingPoints(type, 'triode'), oscillatorPoint);
	return oscillator
		? { ...found, oscillator }
		: { ...found, oscillator: USUAL_OSCILLATOR, oscillatorUsual: true };
}

const nearest = (points: readonly OfSystem<OperatingPoint>[], volts: number) =>
	[...points].sort((one, other) => distance(one, volts) - distance(other, volts));
const distance = ({ block }: OfSystem<OperatingPoint>, volts: number): number =>
	Math.abs((block.figures['va_v'] ?? Infinity) - volts);

function firstOf<Found>(
	points: readonly OfSystem<OperatingPoint>[],
	read: (point: OperatingPoint) => Found | undefined
): Found | undefined {
	for (const { block } of points) {
		const found = read(block);
		if (found !== undefined) return found;
	}
	return undefined;
}

function workingPoint({ figures, label }: OperatingPoint) {
	const { va_v: anodeVolts, ia_ma: anode, gm_ma_v: slope, mu } = figures;
	const screenVolts = figures['vg2_v'] ?? figures['vg2_calc_v'];
	if (anodeVolts === undefined || anode === undefined) return undefined;
	const screen = screenCurrentOf(figures, label);
	const gridVolts = figures['vg1_v'] ?? selfBias(figures, anode, screen ?? 0);
	if (gridVolts === undefined) return undefined;
	const valve: WorkingPoint = {
		anodeVolts,
		anodeCurrent: anode * MILLI,
		gridVolts,
		...(screenVolts !== undefined && { screenVolts }),
		...(screen !== undefined && { screenCurrent: screen * MILLI }),
		...(slope !== undefined && { slope: slope * MILLI }),
		// That of a pentode is the one from grid to anode, which says nothing of its screen.
		...(mu !== undefined && screenVolts === undefined && { mu })
	};
	return { valve, label };
}

const selfBias = ({ rk_ohm }: Figures, anode: number, screen: number): number | undefined =>
	rk_ohm === undefined ? undefined : -rk_ohm * (anode + screen) * MILLI;

/** mA; where the sheet gives the current of a shared resistor, less what the other valve takes by its own sheet. */
function screenCurrentOf(figures: Figures, label: string): number | undefined {
	if (figures['ig2_ma'] !== undefined) return figures['ig2_ma'];
	const other = /shared with an? ([A-Z]+\d+)/.exec(label)?.[1];
	const all = figures['screen_resistor_ma'];
	if (other === undefined || all === undefined) return undefined;
	const own = operatingPoints(other, 'pentode').find(({ block }) => 'ig2_ma' in block.figures);
	const taken = own?.block.figures['ig2_ma'];
	return taken === undefined ? undefined : all - taken;
}

function oscillatorPoint({ figures }: OperatingPoint): OscillatorPoint | undefined {
	const anodeVolts = figures['va_calc_v'] ?? figures['va_v'];
	const anodeCurrent = milli(figures['ia_ma']);
	const gridCurrent = milli(figures['ig_ma']);
	const leak = figures['rg_kohm'];
	if (
		anodeVolts === undefined ||
		anodeCurrent === undefined ||
		gridCurrent === undefined ||
		leak === undefined
	)
		return undefined;
	return { anodeVolts, anodeCurrent, gridCurrent, gridLeak: leak * 1e3 };
}

function rectifierPoint({ figures, label }: OperatingPoint) {
	const { v_rms_per_anode_v: windingVolts, dc_ma: current, dc_out_v: volts } = figures;
	const series = figures['r_limit_min_per_anode_ohm'] ?? figures['winding_per_anode_ohm'];
	if (windingVolts === undefined || current === undefined || volts === undefined || series === undefined)
		return undefined;
	return { rectifier: { windingVolts, current: current * MILLI, volts, seriesResistance: series }, label };
}
