/** A filament lamp by its rating, V and A. */
export interface Lamp {
	volts: number;
	current: number;
}

/** Current of a hot filament goes with its volts to this power, its light to that one. */
export const CURRENT_EXPONENT = 0.55;
export const LIGHT_EXPONENT = 3.4;
/** Cold resistance as a share of hot: measured lamps lie between these two; the first makes the worst inrush. */
export const COLD_SHARES = { least: 1 / 15, most: 1 / 10 } as const;

/** Current through a lamp with so many volts on it, A. */
export const lampCurrent = ({ volts: rated, current }: Lamp, volts: number): number =>
	current * (Math.max(volts, 0) / rated) ** CURRENT_EXPONENT;

/** Volts on a lamp that carries so much current, V. */
export const lampVolts = ({ volts, current: rated }: Lamp, current: number): number =>
	volts * (current / rated) ** (1 / CURRENT_EXPONENT);

/** Light as a share of full, 1 = at rated volts. */
export const lampLight = ({ volts: rated }: Lamp, volts: number): number => (volts / rated) ** LIGHT_EXPONENT;

/** Volts on a lamp in series with a resistance on the mains. There is one answer: more volts on the lamp mean more current. */
export function lampVoltsAgainst(lamp: Lamp, mains: number, resistance: number): number {
	let [low, high] = [0, mains];
	for (let i = 0; i < 60; i++) {
		const volts = (low + high) / 2;
		if (volts + lampCurrent(lamp, volts) * resistance < mains) low = volts;
		else high = volts;
	}
	return high;
}

/** How a lamp looks at a share of its rated volts; edges are our own choice. */
export function lampLooks(share: number): string {
	if (share < 0.15) return 'dark';
	if (share < 0.35) return 'dull red';
	return share < 0.7 ? 'dim yellow' : 'bright';
}
