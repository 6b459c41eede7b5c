import type { Probe } from './circuit.ts';
import type { FaultRow } from './faults/types.ts';
import type { Spread } from './infer.ts';
import type { ReadingId } from './types.ts';

/** What a stage is known to be, before its readings are looked at. */
export interface Prepared<Figures> {
	sound: Figures;
	spreads: Spread<Figures>[];
	faults: FaultRow<Figures>[];
	/** What the readings of a circuit would be, in the order asked for. */
	foretell: (figures: Figures, probes: readonly Probe[]) => number[];
	/** The same of a circuit that differs little from the one foretold last. */
	nudged: (figures: Figures) => number[];
	/** Volts of a circuit with no meter on it. */
	resting: (figures: Figures) => (reading: ReadingId) => number;
}
