/** A section of a supply chain: resistor from the node before, and what is tapped at its own node. Base units. */
interface ChainSection {
	resistance: number;
	/** Steady current tapped, A. */
	tap?: number | undefined;
	/** Bleeder or divider from the node to chassis, ohm. */
	bleeder?: number | undefined;
}

/** Volts at a node, current through the resistor before it, current tapped there. */
export interface ChainNode {
	volts: number;
	through: number;
	tapped: number;
}

/** Current into a node as slope * V + fixed, with all that hangs behind it. */
interface Demand {
	slope: number;
	fixed: number;
}

/** What the chain draws from the node before each section, as seen from there. */
function demands(sections: readonly ChainSection[]): Demand[] {
	let behind: Demand = { slope: 0, fixed: 0 };
	const seen = [...sections].reverse().map(({ resistance, tap = 0, bleeder = Infinity }) => {
		const slope = behind.slope + 1 / bleeder;
		const fixed = behind.fixed + tap;
		behind = { slope: slope / (1 + resistance * slope), fixed: fixed / (1 + resistance * slope) };
		return behind;
	});
	return seen.reverse();
}

/** Volts and currents along a chain that hangs on so many volts. */
export function chainForward(supply: number, sections: readonly ChainSection[]): ChainNode[] {
	const drawn = demands(sections);
	let before = supply;
	const reached = sections.map(({ resistance }, i) => {
		const { slope, fixed } = drawn[i] ?? { slope: 0, fixed: 0 };
		const through = slope * before + fixed;
		before -= through * resistance;
		return { volts: before, through };
	});
	return reached.map((node, i) => ({ ...node, tapped: node.through - (reached[i + 1]?.through ?? 0) }));
}

/** What one measured stretch of the chain carries: the current through each of its resistors. */
function stretch(drop: number, sections: readonly ChainSection[]): number[] {
	// Taps in between were not measured: they are taken as expected, and the rest flows to the end of the stretch.
	const beyond = sections.map((_, i) => sections.slice(i, -1).reduce((sum, { tap = 0 }) => sum + tap, 0));
	const expected = sections.reduce((sum, { resistance }, i) => sum + resistance * (beyond[i] ?? 0), 0);
	const whole = sections.reduce((sum, { resistance }) => sum + resistance, 0);
	const last = (drop - expected) / whole;
	return beyond.map((taps) => last + taps);
}

/**
 * Currents from measured volts; `measured[i]` belongs to `sections[i]`, undefined where nobody measured. Behind the last node
 * measured the taps are taken as expected. `tapped` of a node includes its bleeder.
 */
export function chainBackward(
	supply: number,
	sections: readonly ChainSection[],
	measured: readonly (number | undefined)[]
): ChainNode[] {
	const through: number[] = [];
	let from = 0;
	let before = supply;
	measured.forEach((volts, i) => {
		if (volts === undefined) return;
		through.push(...stretch(before - volts, sections.slice(from, i + 1)));
		[from, before] = [i + 1, volts];
	});
	const rest = chainForward(before, sections.slice(from));
	through.push(...rest.map((node) => node.through));
	let volts = supply;
	return sections.map(({ resistance }, i) => {
		const here = through[i] ?? 0;
		volts -= here * resistance;
		return { volts, through: here, tapped: here - (through[i + 1] ?? 0) };
	});
}
