/** Volts across a silicon diode while it conducts some tenths of an ampere. */
const DIODE = 0.8;
/** Steps of the reckoning in half a mains cycle, and half cycles until the volts repeat themselves. */
const STEPS = 4000;
const HALF_CYCLES = 60;

/** What a rectifier leaves on its reservoir: V, V peak to peak, A RMS through the capacitor. */
interface Reservoir {
	dc: number;
	ripple: number;
	capacitorCurrent: number;
}

interface Winding {
	/** Peak volts of one half. */
	peak: number;
	/** Winding and valve, for each side, ohm. */
	ohms: number;
	capacitance: number;
	/** Steady current drawn, A. */
	current: number;
	mains: number;
}

/** Full-wave rectifier behind a resistance, reckoned step by step until one half cycle is like the one before. */
export function runRectifier({ peak, ohms, capacitance, current, mains }: Winding): Reservoir {
	const step = 1 / (2 * mains * STEPS);
	const charge = step / (ohms * capacitance);
	let volts = 0.9 * peak;
	let [low, high, sum, squares] = [Infinity, -Infinity, 0, 0];
	for (let half = 0; half < HALF_CYCLES; half++) {
		[low, high, sum, squares] = [Infinity, -Infinity, 0, 0];
		for (let i = 0; i < STEPS; i++) {
			const source = peak * Math.sin((Math.PI * (i + 0.5)) / STEPS);
			const conducts = source - DIODE > volts;
			const before = volts;
			// Taken at the end of the step where the diode conducts, so that a small resistance cannot make it swing.
			volts -= (current * step) / capacitance;
			if (conducts) volts = (volts + charge * (source - DIODE)) / (1 + charge);
			const into = ((volts - before) * capacitance) / step;
			low = Math.min(low, volts);
			high = Math.max(high, volts);
			sum += volts;
			squares += into ** 2;
		}
	}
	return { dc: sum / STEPS, ripple: high - low, capacitorCurrent: Math.sqrt(squares / STEPS) };
}

interface Pulses {
	/** Conduction and discharge, s. */
	conducting: number;
	discharging: number;
	/** Capacitance that gives this ripple, F, and what the plain saw-tooth asks for. */
	capacitance: number;
	sawTooth: number;
	/** Height of a rectangular charging pulse, A. */
	pulse: number;
	/** RMS current of the capacitor, A. */
	capacitorCurrent: number;
}

/** Closer than the saw-tooth, for a stiff source: the reservoir is charged while the mains is above its lowest volts. */
export function pulsesOf(
	dc: number,
	ripple: number,
	current: number,
	mains: number,
	perCycle: 1 | 2
): Pulses {
	const top = dc + ripple / 2;
	const bottom = dc - ripple / 2;
	const conducting = (Math.PI / 2 - Math.asin(bottom / top)) / (2 * Math.PI * mains);
	const period = 1 / (perCycle * mains);
	const discharging = period - conducting;
	return {
		conducting,
		discharging,
		capacitance: (current * discharging) / ripple,
		sawTooth: (current * period) / ripple,
		pulse: (current * period) / conducting,
		capacitorCurrent: current * Math.sqrt(discharging / conducting)
	};
}
