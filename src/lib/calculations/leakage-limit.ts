/** Rules for the leakage of an electrolytic, the one for parts of valve age first. */
export const LEAKAGE_RULES = ['JAN-C-62', '1968 distributor', '0.01CV'] as const;
type LeakageRule = (typeof LEAKAGE_RULES)[number];

/** Milliamps for each microfarad up to so many rated volts, beside a fixed 0.3 mA: the EIA table of old capacitor analysers. */
const JAN_ROWS = [
	{ upTo: 100, perMicrofarad: 0.01e-3 },
	{ upTo: 250, perMicrofarad: 0.02e-3 },
	{ upTo: 350, perMicrofarad: 0.025e-3 },
	{ upTo: Infinity, perMicrofarad: 0.04e-3 }
] as const;
/** The printed table stops there. */
const JAN_MOST = 10e-3;

function byJan(microfarads: number, rated: number): number {
	const row = JAN_ROWS.find(({ upTo }) => rated <= upTo);
	return Math.min(JAN_MOST, (row?.perMicrofarad ?? NaN) * microfarads + 0.3e-3);
}

/** Leakage allowed at the rated volts, A; capacitance in F, volts in V. */
export function leakageLimit(rule: LeakageRule, capacitance: number, rated: number): number {
	const microfarads = capacitance * 1e6;
	const product = microfarads * rated;
	if (rule === 'JAN-C-62') return byJan(microfarads, rated);
	if (rule === '0.01CV') return Math.max(3, 0.01 * product) * 1e-6;
	return (rated < 100 ? 0.08 * product + 100 : 0.05 * product + 250) * 1e-6;
}
