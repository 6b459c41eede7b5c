import type { ReadingId, RectifierPoint } from './types.ts';

/** A supply as it may really be, full-wave or half-wave. Ohm, F, A, V RMS. */
export interface Supply {
	/** Volts of the winding that both halves share, and of the second half against the first. */
	winding: number;
	second: number;
	windingOhms: number;
	/** Of each half of the rectifier, at the peak current of its sheet. */
	firstOhms: number;
	secondOhms: number;
	reservoir: number;
	smoothing: number;
	/** A at the volts of a sound set: behind the smoothing, and straight from the reservoir. */
	load: number;
	direct: number;
	/** S, from reservoir and from the smoothed line to chassis. */
	reservoirLeak: number;
	smoothedLeak: number;
	meterScale: number;
}

/** What the figures of a supply are reckoned from. */
export interface Usual {
	/** Hz. */
	mains: number;
	halfWave: boolean;
	/** Peak current for which the ohms of the rectifier hold, A. */
	peak: number;
	/** Volts at which the loads draw what they should. */
	reservoir: number;
	smoothed: number;
}

const STEPS = 36;
/** Cycles of the mains at most, and the change of the volts over one that ends the reckoning sooner. */
const CYCLES = 16;
const SETTLED = 1e-3;
const SINES = Array.from({ length: STEPS }, (_, i) => Math.sin((Math.PI * (i + 0.5)) / STEPS));
/** Ohm. */
const NO_RECTIFIER = 1e7;
/** Currents of a set of valves rise a little faster than their volts. */
const LOAD_POWER = 1.3;
/** By the power of three halves the resistance of a rectifier falls with the cube root of its current. */
const FALLS = 1 / 3;
/** As far as its resistance is followed, against that at the peak of the sheet. */
const MOST_RISE = 4;

interface Shape {
	dc: number;
	/** V RMS. */
	ripple: number;
	first: number;
	second: number;
	/** A; the higher of the two halves. */
	peak: number;
}

/** Volts behind the smoothing for volts before it, by Newton's method. */
function smoothedVolts(supply: Supply, usual: Usual, reservoir: number): number {
	if (reservoir <= 0) return 0;
	let volts = Math.min(reservoir, usual.smoothed);
	for (let i = 0; i < 12; i++) {
		const drawn = supply.load * (volts / usual.smoothed) ** LOAD_POWER;
		const excess = drawn + volts * supply.smoothedLeak - (reservoir - volts) / supply.smoothing;
		const slope = (LOAD_POWER * drawn) / volts + supply.smoothedLeak + 1 / supply.smoothing;
		const step = excess / slope;
		volts = Math.max(volts - step, volts / 10);
		if (Math.abs(step) < 1e-4) break;
	}
	return volts;
}

const directOf = ({ direct }: Supply, usual: Usual, reservoir: number): number =>
	direct * (Math.max(reservoir, 0) / usual.reservoir) ** LOAD_POWER;

const drawnFrom = (supply: Supply, usual: Usual, reservoir: number): number =>
	(reservoir - smoothedVolts(supply, usual, reservoir)) / supply.smoothing +
	directOf(supply, usual, reservoir) +
	reservoir * supply.reservoirLeak;

/** Sums over the steps of one half cycle. */
interface Half {
	end: number;
	volts: number;
	squares: number;
	/** Of the volts at the rectifier's anode. */
	anode: number;
	/** A. */
	peak: number;
}

/** A half of the rectifier with what is in series with it, while it conducts. */
interface Path {
	/** V. */
	peak: number;
	ohms: number;
	windingOhms: number;
}

/** One half cycle, from the volts at its start and a steady current drawn, A; `step` in s. */
function halfCycle(
	{ peak, ohms, windingOhms }: Path,
	farad: number,
	start: number,
	current: number,
	step: number
): Half {
	const charge = step / (ohms * farad);
	const half = { end: start, volts: 0, squares: 0, anode: 0, peak: 0 };
	for (const sine of SINES) {
		const source = peak * sine;
		half.end = Math.max(0, half.end - (current * step) / farad);
		// Taken at the end of the step where it conducts, so that a small resistance cannot make it swing.
		if (source > half.end) half.end = (half.end + charge * source) / (1 + charge);
		const through = Math.max(0, source - half.end) / ohms;
		const atAnode = source - through * windingOhms;
		half.peak = Math.max(half.peak, through);
		half.volts += half.end;
		half.squares += half.end * half.end;
		half.anode += atAnode * atAnode;
	}
	return half;
}

function pathOf(supply: Supply, { peak: sheet, halfWave }: Usual, first: boolean, peak: number): Path {
	const rise = Math.min(MOST_RISE, (sheet / Math.max(peak, 1e-6)) ** FALLS);
	const own = first ? supply.firstOhms : supply.secondOhms;
	const open = !first && halfWave;
	return {
		peak: Math.SQRT2 * supply.winding * (first ? 1 : supply.second),
		ohms: open ? NO_RECTIFIER * 1e3 : own * rise + supply.windingOhms,
		windingOhms: supply.windingOhms
	};
}

/** Volts RMS at an anode: loaded in its own half of the cycle, free in the other. */
const atAnode = ({ anode }: Half, peak: number): number => Math.sqrt((anode / STEPS + (peak * peak) / 2) / 2);

/** The reservoir through cycles of the mains, until each ends as it began. */
function reservoirOf(supply: Supply, usual: Usual, drawn: (volts: number) => number, start: number): Shape {
	const step = 1 / (2 * usual.mains * STEPS);
	let [begin, mean, firstPeak, secondPeak] = [start, start, usual.peak, usual.peak];
	let before: { begin: number; off: number } | undefined;
	for (let cycle = 1; ; cycle++) {
		const current = drawn(mean);
		const one = pathOf(supply, usual, true, firstPeak);
		const other = pathOf(supply, usual, false, secondPeak);
		const first = halfCycle(one, supply.reservoir, begin, current, step);
		const second = halfCycle(other, supply.reservoir, first.end, current, step);
		const dc = (first.volts + second.volts) / (2 * STEPS);
		const off = second.end - begin;
		const shifted = Math.abs(dc - mean) + Math.abs(off);
		mean = dc;
		[firstPeak, secondPeak] = [first.peak || firstPeak, second.peak || secondPeak];
		if (cycle === CYCLES || shifted < SETTLED)
			return {
				dc,
				ripple: Math.sqrt(Math.max(0, (first.squares + second.squares) / (2 * STEPS) - dc * dc)),
				first: atAnode(first, one.peak),
				second: atAnode(second, other.peak),
				peak: Math.max(first.peak, second.peak)
			};
		const next = begin + stride(off, begin, before);
		before = { begin, off };
		// What the next cycle begins with moves its mean along.
		mean += next - begin;
		begin = Math.max(0, next);
	}
}

/** Where the next cycle should begin, from how far the last two ended off where they began: by their secant. */
function stride(off: number, begin: number, before: { begin: number; off: number } | undefined): number {
	if (!before || Math.abs(begin - before.begin) < 1e-9) return off;
	const slope = (off - before.off) / (begin - before.begin);
	// It falls from cycle to cycle; anything else comes from the loads, which have not settled yet.
	return slope < -0.02 ? Math.max(-60, Math.min(60, -off / slope)) : off;
}

/** 10 ohm in the lead of the reservoir. */
const LEAD = 10;

/** Tells what each point of a supply reads; starts from the volts of the supply that was asked about before. */
export function supplyReader(usual: Usual) {
	let last = usual.reservoir;
	return (supply: Supply): ((reading: ReadingId) => number) => {
		// With no rectifier the reservoir is empty; it would take its time to run out.
		const { firstOhms, secondOhms } = supply;
		const best = usual.halfWave ? firstOhms : Math.min(firstOhms, secondOhms);
		const start = best > NO_RECTIFIER ? 0 : last;
		const shape = reservoirOf(supply, usual, (volts) => drawnFrom(supply, usual, volts), start);
		last = Math.max(shape.dc, 1);
		const smoothed = smoothedVolts(supply, usual, shape.dc);
		const all: Partial<Record<ReadingId, number>> = {
			'winding-1': shape.first,
			'winding-2': shape.second,
			reservoir: shape.dc,
			smoothed,
			'smoothing-drop': shape.dc - smoothed,
			'reservoir-lead': shape.dc * supply.reservoirLeak * LEAD,
			'smoothing-lead': smoothed * supply.smoothedLeak * LEAD,
			'direct-current': directOf(supply, usual, shape.dc),
			ripple: shape.ripple
		};
		return (reading) => (all[reading] ?? NaN) * supply.meterScale;
	};
}

/** The volts of a sound supply whose loads draw what they should. */
export function usualVolts(supply: Supply, usual: Pick<Usual, 'mains' | 'halfWave' | 'peak'>): Usual {
	const current = supply.load + supply.direct;
	const whole = { ...usual, reservoir: 1, smoothed: 1 };
	const { dc } = reservoirOf(supply, whole, () => current, 1.2 * supply.winding);
	return { ...usual, reservoir: Math.max(dc, 1), smoothed: Math.max(dc - supply.load * supply.smoothing, 1) };
}

/** Resistance of one half of a rectifier that meets its published point, ohm, and the peak current there, A. */
export function rectifierAt(point: RectifierPoint, mains: number): { ohms: number; peak: number } {
	const supply: Supply = {
		winding: point.windingVolts,
		second: 1,
		windingOhms: point.seriesResistance,
		firstOhms: 0,
		secondOhms: 0,
		reservoir: point.reservoir ?? 50e-6,
		smoothing: 1,
		load: 0,
		direct: 0,
		reservoirLeak: 0,
		smoothedLeak: 0,
		meterScale: 1
	};
	const halfWave = point.halfWave === true;
	let [low, high, peak] = [5, 5e3, 3 * point.current];
	for (let i = 0; i < 30; i++) {
		const ohms = Math.sqrt(low * high);
		const both = { ...supply, firstOhms: ohms, secondOhms: ohms };
		// At its own peak the resistance is as it is: the rise that is followed elsewhere is 1 here.
		const usual = { mains, halfWave, peak, reservoir: point.volts, smoothed: point.volts };
		const shape = reservoirOf(both, usual, () => point.current, point.volts);
		peak = shape.peak;
		if (shape.dc > point.volts) low = ohms;
		else high = ohms;
	}
	return { ohms: Math.sqrt(low * high), peak };
}
