import type { Probe } from './circuit.ts';
import type { FaultRow } from './faults/types.ts';
import type { Spread } from './comparison.ts';
import type { PartId } from './types.ts';

/** What a stage is known to be, before its readings are looked at. */
export interface Prepared<Figures> {
	sound: Figures;
	spreads: Spread<Figures>[];
	/** Which figure the value of a part is. */
	figureOf: Readonly<Partial<Record<PartId, keyof Figures>>>;
	faults: FaultRow<Figures>[];
	/** What the readings of a circuit would be, in the order asked for. */
	foretell: (figures: Figures, probes: readonly Probe[]) => number[];
	/** The same of a circuit that differs little from the one foretold last. */
	nudged: (figures: Figures) => number[];
}
