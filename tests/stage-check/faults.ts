import type { StageKind } from '../../src/lib/receiver/stage-check/index.ts';
import type { Dice } from '../random.ts';

/**
 * The faults that the proof of the stage check plants, with the sizes that it draws. This list and its classes were written down
 * before the check was tuned. A draw counts only where it moves some reading by 5 % or more; nothing else is left out.
 *
 * Faults of one class have the same effect on DC volts at the electrodes, whatever their size: a feed resistor that has risen
 * to the right value and a leak to chassis behind a good one give the same volts, and the same current in the valve. They count
 * as one. Their sizes differ, and each is judged by its own.
 */
export interface PlantedFault {
	/** As the check names it. */
	fault: string;
	class: string;
	/**
	 * By what a figure of the circuit is multiplied, or for a leak the resistance in ohm, or the current in A; drawn in equal
	 * ratios between the two. Left out for opens and shorts.
	 */
	size?: readonly [number, number];
	/** A figure that must be there: no screen fault without a screen resistor. */
	needs?: 'cathodeResistor' | 'screenFeed' | 'anodeFeed';
}

const cathode: readonly PlantedFault[] = [
	{ fault: 'cathode-resistor-high', class: 'cathode-high', size: [1.4, 5], needs: 'cathodeResistor' },
	{ fault: 'cathode-resistor-open', class: 'cathode-open', needs: 'cathodeResistor' },
	{ fault: 'cathode-resistor-low', class: 'cathode-low', size: [0.2, 0.7], needs: 'cathodeResistor' },
	// Ohm across the resistor, as a multiple of it.
	{ fault: 'cathode-bypass-leaky', class: 'cathode-low', size: [0.25, 2.5], needs: 'cathodeResistor' },
	{ fault: 'cathode-bypass-short', class: 'cathode-short', needs: 'cathodeResistor' }
];

const valve: readonly PlantedFault[] = [
	{ fault: 'valve-worn', class: 'valve-worn', size: [0.15, 0.65] },
	{ fault: 'valve-dead', class: 'valve-dead' }
];

const screen: readonly PlantedFault[] = [
	{ fault: 'screen-feed-high', class: 'screen-starved', size: [1.4, 6], needs: 'screenFeed' },
	// Ohm to chassis, as a multiple of the feed resistor.
	{ fault: 'screen-leak', class: 'screen-starved', size: [0.15, 5], needs: 'screenFeed' },
	{ fault: 'screen-feed-open', class: 'screen-dead', needs: 'screenFeed' },
	{ fault: 'screen-short', class: 'screen-dead', needs: 'screenFeed' },
	{ fault: 'screen-feed-low', class: 'screen-feed-low', size: [0.2, 0.65], needs: 'screenFeed' }
];

const anode: readonly PlantedFault[] = [
	{ fault: 'anode-feed-high', class: 'anode-starved', size: [1.4, 5] },
	// Ohm to chassis, as a multiple of the anode feed.
	{ fault: 'anode-leak', class: 'anode-starved', size: [0.4, 6] },
	{ fault: 'anode-feed-open', class: 'anode-dead' },
	{ fault: 'anode-short', class: 'anode-dead' },
	{ fault: 'anode-feed-low', class: 'anode-feed-low', size: [0.2, 0.65] }
];

export const FAULTS: Readonly<Record<StageKind, readonly PlantedFault[]>> = {
	'triode-audio': [
		...anode,
		...cathode,
		...valve,
		{ fault: 'coupling-leak', class: 'grid-raised', size: [2e6, 200e6] },
		{ fault: 'grid-current', class: 'grid-raised', size: [0.1e-6, 2e-6] },
		{ fault: 'grid-leak-open', class: 'grid-floating' }
	],
	'output-pentode': [
		...anode,
		...screen,
		...cathode,
		...valve,
		{ fault: 'coupling-leak', class: 'grid-raised', size: [1e6, 50e6] },
		{ fault: 'grid-current', class: 'grid-raised', size: [1e-6, 30e-6] },
		{ fault: 'grid-leak-open', class: 'grid-floating' }
	],
	'if-pentode': [
		...anode,
		...screen,
		...cathode,
		...valve,
		{ fault: 'coupling-leak', class: 'grid-raised', size: [20e6, 400e6] },
		{ fault: 'grid-current', class: 'grid-raised', size: [0.3e-6, 6e-6] },
		{ fault: 'grid-leak-open', class: 'grid-floating' }
	],
	'triode-heptode': [
		...anode,
		...screen,
		...cathode,
		...valve,
		{ fault: 'coupling-leak', class: 'grid-raised', size: [20e6, 400e6] },
		{ fault: 'grid-current', class: 'grid-raised', size: [0.3e-6, 6e-6] },
		{ fault: 'grid-leak-open', class: 'grid-floating' },
		{ fault: 'oscillator-stopped', class: 'oscillator-stopped' },
		{ fault: 'oscillator-feed-high', class: 'oscillator-starved', size: [1.4, 4] },
		// Ohm to chassis, as a multiple of the feed.
		{ fault: 'oscillator-decoupler-leak', class: 'oscillator-starved', size: [0.4, 5] },
		{ fault: 'oscillator-feed-open', class: 'oscillator-dead' },
		{ fault: 'oscillator-decoupler-short', class: 'oscillator-dead' },
		{ fault: 'oscillator-feed-low', class: 'oscillator-feed-low', size: [0.2, 0.65] },
		{ fault: 'oscillator-grid-leak-high', class: 'oscillator-leak-high', size: [1.5, 10] },
		{ fault: 'oscillator-grid-leak-low', class: 'oscillator-leak-low', size: [0.1, 0.65] }
	],
	// All that lowers the volts on the reservoir for the current that is drawn is one class: two DC volts cannot tell a tired
	// rectifier from a dry or a leaky reservoir. A ripple reading does, and is not among DC volts.
	rectifier: [
		{ fault: 'rectifier-worn', class: 'source-weak', size: [2, 8] },
		{ fault: 'rectifier-half-dead', class: 'source-weak' },
		{ fault: 'reservoir-dry', class: 'source-weak', size: [0.02, 0.2] },
		// Ohm across the reservoir.
		{ fault: 'reservoir-leak', class: 'source-weak', size: [2e3, 20e3] },
		{ fault: 'winding-half-open', class: 'winding-half-open' },
		// Both halves low: shorted turns, or the selector on the wrong tap.
		{ fault: 'winding-low', class: 'winding-low', size: [0.75, 0.9] },
		{ fault: 'rectifier-dead', class: 'no-volts' },
		{ fault: 'smoothing-high', class: 'smoothing-high', size: [1.4, 5] },
		{ fault: 'smoothing-open', class: 'smoothing-open' },
		{ fault: 'smoothing-low', class: 'smoothing-low', size: [0.2, 0.65] },
		// Ohm across the smoothed line.
		{ fault: 'smoothed-leak', class: 'load-heavy', size: [1.5e3, 20e3] },
		// What the set draws, as a share of what it should.
		{ fault: 'load-light', class: 'load-light', size: [0.2, 0.65] }
	]
};

/** The size of a fault, drawn. */
export const drawnSize = (dice: Dice, { size }: PlantedFault): number =>
	size ? dice.ratio(size[0], size[1]) : 1;
