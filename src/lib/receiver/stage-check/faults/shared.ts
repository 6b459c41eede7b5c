import type { Circuit } from '../circuit.ts';
import type { PartId, ReadingId, StageKind } from '../types.ts';
import type { CauseRow, FaultRow, Proof, Told } from './types.ts';

/** A fault of an amplifying stage. */
export type Row = FaultRow<Circuit>;
export type Cause = CauseRow;
export type Amplifier = Exclude<StageKind, 'rectifier'>;
type Names = Readonly<Record<Amplifier, readonly string[]>>;

/** Ohm: as good as nothing connected, and as good as a wire. */
export const OPEN = 1e10;
export const WIRE = 0.5;

export const OHMS: Told = { unit: 'ohm' };

/** A leak of so many ohm. */
export const leaking =
	(key: 'anodeLeak' | 'screenLeak' | 'cathodeLeak' | 'oscillatorLeakage' | 'couplingLeak') =>
	(sound: Circuit, size: number): Circuit => ({ ...sound, [key]: 1 / size });

export const read = (...readings: ReadingId[]): Proof[] => readings.map((reading) => ({ reading }));
export const cold = (...parts: PartId[]): Proof[] => parts.map((part) => ({ part }));

/** Sets one figure of the circuit, to the size of the fault where no value is said. */
export const set =
	<Key extends keyof Circuit>(key: Key, value?: number) =>
	(sound: Circuit, size: number): Circuit => ({ ...sound, [key]: value ?? size });

const NONE: Names = { 'triode-audio': [], 'output-pentode': [], 'if-pentode': [], 'triode-heptode': [] };
/** Suspects by stage; the other stages have none. */
export const names = (some: Partial<Names>): Names => ({ ...NONE, ...some });

/** Where the suspects of a stage stand in the plans. */
export const AT: Readonly<Record<Amplifier, string>> = {
	'triode-audio': 'af',
	'output-pentode': 'output',
	'if-pentode': 'if-valve',
	'triode-heptode': 'mixer'
};
