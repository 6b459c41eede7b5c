import type { Unit } from '../../quantity/index.ts';

/** The stages that can be checked from their DC volts. */
export const STAGE_KINDS = [
	'triode-audio',
	'output-pentode',
	'if-pentode',
	'triode-heptode',
	'rectifier'
] as const;
export type StageKind = (typeof STAGE_KINDS)[number];

/**
 * Where a reading is taken, DC volts to HT negative (chassis). `before`: the far plate of the coupling capacitor, as a rule the
 * anode of the stage before. `winding-1` and `winding-2`: AC volts RMS from each rectifier anode to the centre tap; `ripple`:
 * AC volts RMS on the reservoir.
 *
 * `…-drop`: volts across the resistor or winding itself, the meter on its two ends. `lifted-…`: the same point again with the
 * capacitor lifted that may leak from it. `grid-shunted`: the grid with
 * 100 kohm from it to chassis and the coupling capacitor lifted. `grid-no-avc`: the grid with the far end of its AVC line on chassis. `coupling-end`: the free end of the lifted coupling capacitor to chassis, through
 * nothing but the meter. `reservoir-lead`, `smoothing-lead`: DC volts
 * across 10 ohm put into one lead of that capacitor. `direct-current`: A, what is drawn straight from the reservoir.
 */
export type ReadingId =
	| 'ht'
	| 'anode'
	| 'screen'
	| 'cathode'
	| 'grid'
	| 'before'
	| 'oscillator-anode'
	| 'oscillator-grid'
	| 'anode-drop'
	| 'screen-drop'
	| 'oscillator-drop'
	| 'lifted-anode'
	| 'lifted-screen'
	| 'lifted-cathode'
	| 'lifted-grid'
	| 'lifted-oscillator-anode'
	| 'grid-shunted'
	| 'grid-no-avc'
	| 'coupling-end'
	| 'winding-1'
	| 'winding-2'
	| 'reservoir'
	| 'smoothed'
	| 'smoothing-drop'
	| 'reservoir-lead'
	| 'smoothing-lead'
	| 'direct-current'
	| 'ripple';

/**
 * Parts whose value bears on the volts, in ohm (`reservoir-capacitor` in farad). `primary`: DC resistance of the output primary or of
 * the IF winding. `avc-line`: DC resistance from the grid through the AVC line to chassis. `winding`: one half of the HT
 * winding, what the primary adds included; of a half-wave rectifier what is in series with its anode.
 */
export type PartId =
	| 'anode-load'
	| 'primary'
	| 'screen-feed'
	| 'cathode-resistor'
	| 'grid-leak'
	| 'avc-line'
	| 'oscillator-feed'
	| 'oscillator-grid-leak'
	| 'winding'
	| 'smoothing'
	| 'reservoir-capacitor';

/**
 * A value in base units as marked, and how far a sound part may lie from it, in per cent (10 where not said). `measured`: what the
 * ohmmeter showed on it cold, one end lifted; it counts within 2 %, sound or not. 0 means that there is no such part: a cathode on chassis, a screen straight on HT. A part that is left out counts
 * as not known: a usual value stands in, with a wide tolerance.
 */
export type PartValue = number | { value: number; tolerance?: number; measured?: number };

/** A working point from a maker's sheet; volts against the cathode, currents in A. */
export interface WorkingPoint {
	anodeVolts: number;
	/** A, with `anodeVolts` on the anode. */
	anodeCurrent: number;
	/** Below zero. */
	gridVolts: number;
	screenVolts?: number;
	/** A. Left out where the sheet does not say: a usual share of the cathode current stands in. */
	screenCurrent?: number;
	/** Mutual conductance at this point, A/V. */
	slope?: number;
	/** Amplification factor; of a pentode from grid to screen. */
	mu?: number;
}

/** Mean values of an oscillator triode while it oscillates. */
export interface OscillatorPoint {
	/** Mean volts on its anode. */
	anodeVolts: number;
	anodeCurrent: number;
	/** Mean grid current, A. */
	gridCurrent: number;
	/** Grid leak with which the sheet gives that current, ohm. */
	gridLeak: number;
}

/** A rectifier with capacitor input, as the sheet gives it. */
export interface RectifierPoint {
	/** One anode only, as in sets for AC and DC mains. */
	halfWave?: true;
	/** RMS on each anode. */
	windingVolts: number;
	/** Direct current in A, and the volts on the reservoir with it. */
	current: number;
	volts: number;
	/** Resistance in series with each anode, ohm. */
	seriesResistance: number;
	/** F; 50 uF where not said. */
	reservoir?: number;
	/** No sheet gives its output: a usual one of its kind stands in, and is trusted little. */
	usual?: true;
}

export interface Meter {
	/** Input resistance on the range in use, ohm; 20 kohm/V on its 300 V range is 6 Mohm. */
	ohms: number;
	/** How far it may be off throughout, in per cent; 2 where not said. */
	accuracy?: number;
}

interface Question<Stage extends StageKind> {
	stage: Stage;
	parts?: Partial<Record<PartId, PartValue>>;
	/** Any number of them; those that were not taken are left out. */
	readings: Partial<Record<ReadingId, number>>;
	/** A usual digital meter, 10 Mohm and 2 %, where not said. `readingMeter` names another one for single points. */
	meter?: Meter;
	readingMeter?: Partial<Record<ReadingId, Meter>>;
	/** Names on the drawing, to be used in words: `R14`. */
	names?: Partial<Record<PartId, string>>;
	/** The valve was out of its socket while the readings were taken. */
	valveOut?: boolean;
}

export interface ValveQuestion extends Question<'triode-audio' | 'output-pentode' | 'if-pentode'> {
	valve: WorkingPoint;
	/** Current of other valves through the same cathode resistor, A. */
	sharedCathodeCurrent?: number;
}

export interface MixerQuestion extends Question<'triode-heptode'> {
	/** The heptode or hexode while the triode oscillates. */
	valve: WorkingPoint;
	oscillator: OscillatorPoint;
	/** Screen current of other valves through the same feed resistor, A. */
	sharedScreenCurrent?: number;
}

export interface RectifierQuestion extends Question<'rectifier'> {
	rectifier: RectifierPoint;
	/** RMS of one half of the HT winding by the sheet, or of the mains where there is none; without it a low winding cannot be told from low mains. */
	windingVolts?: number;
	/** Where `windingVolts` is not known: the volts that such a set usually has there. */
	usualWinding?: number;
	/** What the set should draw through the smoothing, A. */
	load: number;
	/** What it should draw straight from the reservoir, A; often the anode of the output valve. */
	direct?: number;
	/** Standard errors of what is no figure of this set, as shares. */
	unsure?: Partial<Record<'load' | 'direct' | 'winding', number>>;
	/** Hz; 50 where not said. */
	mains?: number;
}

export type StageQuestion = ValveQuestion | MixerQuestion | RectifierQuestion;

/** A value in base units with the range in which it lies by 19 to 1. */
export interface FoundValue {
	amount: number;
	low: number;
	high: number;
	/** The range is so wide that these readings do not tell the size; `words` then say so and name no figure. */
	hidden?: true;
	unit: Unit;
}

/** One fault that would bring these readings about. */
export interface Cause {
	/** Stable name: `coupling-leak`, `cathode-resistor-high`. */
	fault: string;
	/** `coupling capacitor`, in trade words. */
	part: string;
	/** How big the fault must be: the leak, the real value of the resistor, the emission left in per cent. */
	value?: FoundValue;
	/** One sentence: `The coupling capacitor leaks: 12 MΩ.` */
	words: string;
	/** Suspects of the library that it stands for, commonest first; empty where the library has none. */
	suspects: readonly string[];
}

export interface Explanation extends Cause {
	/** Chance against all other explanations and a sound stage together, 0 to 1. */
	score: number;
	/** How the readings sit with it: within the tolerances, at their edge, or beyond. */
	fit: 'good' | 'fair' | 'poor';
	/** Other faults with the same effect on DC volts: no reading parts them from this one. */
	same: readonly Cause[];
	/** What does part this one from `same`; empty where there is nothing to part. */
	partBy: string;
}

/** A current worked out from readings and part values. */
export interface StageCurrent {
	id: 'cathode' | 'anode' | 'screen' | 'grid' | 'oscillator-anode' | 'oscillator-grid' | 'smoothing';
	label: string;
	/** A, and the range that the tolerances of part and meter leave. */
	amps: number;
	low: number;
	high: number;
	/** `7.3 V across 135 Ω`. */
	from: string;
}

/**
 * - `sound`: all readings are within the tolerances of parts, valve and meter;
 * - `fault`: one explanation stands out, or a few are named;
 * - `doubtful`: neither sound nor clearly at fault;
 * - `unexplained`: no single fault gives these readings;
 * - `impossible`: the readings cannot all be true, fault or not;
 * - `too-little`: fewer readings than say anything.
 */
export type Verdict = 'sound' | 'fault' | 'doubtful' | 'unexplained' | 'impossible' | 'too-little';

export interface StageFinding {
	verdict: Verdict;
	/** One or two sentences. */
	statement: string;
	currents: readonly StageCurrent[];
	/** Whether anode and screen current make up the cathode current; left out where they cannot all be worked out. */
	addUp?: { ok: boolean; /** Cathode less anode and screen, A. */ difference: number; words: string };
	/** Most likely first, at most six. Given for a sound stage too, with low scores. */
	explanations: readonly Explanation[];
	/**
	 * What to do next: a reading that parts the first two, one that tells the size better, a part to be measured cold, or a check of
	 * the part itself.
	 */
	lookNext?: { reading?: ReadingId; part?: PartId; words: string };
}
