/** A smoothing section: resistor or choke in series, capacitor to chassis. Base units. */
interface Section {
	resistance?: number | undefined;
	inductance?: number | undefined;
	capacitance: number;
}

/** A complex number: real and imaginary part. */
type Complex = readonly [re: number, im: number];

const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const over = (one: Complex, [c, d]: Complex): Complex => {
	const size = c * c + d * d;
	return times(one, [c / size, -d / size]);
};

/**
 * Ripple after each section as a share of what goes in, at one frequency in Hz. Every section loads the one before it; `load`
 * in ohm stands across the last.
 */
export function ladderRatios(sections: readonly Section[], frequency: number, load = Infinity): number[] {
	const w = 2 * Math.PI * frequency;
	// From the far end: what each node carries to chassis, and what its section lets through.
	let beyond: Complex = [1 / load, 0];
	const passed = [...sections].reverse().map(({ resistance = 0, inductance = 0, capacitance }) => {
		const node: Complex = [beyond[0], beyond[1] + w * capacitance];
		const drop = times([resistance, w * inductance], node);
		const whole: Complex = [1 + drop[0], drop[1]];
		beyond = over(node, whole);
		return 1 / Math.hypot(...whole);
	});
	let ratio = 1;
	return passed.reverse().map((share) => (ratio *= share));
}
