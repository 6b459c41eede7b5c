import type { Power } from '$lib/flow/machine-types.ts';
import type { StepPower } from '$lib/flow/terms.ts';

/** A caution as it is shown. */
export interface CautionText {
	title: string;
	/** Markdown. */
	text: string;
	source: string[];
	/** Power states that it belongs to; left out or empty: all of them. */
	covers?: StepPower[];
}

/** Why the set may not pass to a power state now; `undefined` where it may. Volts at the reservoir and after the smoothing. */
export type Refuse = (to: Power, volts?: [number, number]) => string | undefined;

/** One of several answers on big buttons. */
export interface Choice {
	id: string;
	label: string;
	/** A few quiet words under the label. */
	note?: string;
}
