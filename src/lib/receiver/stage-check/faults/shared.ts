import type { Circuit } from '../circuit.ts';
import type { StageKind } from '../types.ts';
import type { CauseRow, FaultRow, Seen } from './types.ts';

/** A fault of an amplifying stage. */
export type Row = FaultRow<Circuit>;
export type Cause = CauseRow<Circuit>;
export type Amplifier = Exclude<StageKind, 'rectifier'>;
type Names = Readonly<Record<Amplifier, readonly string[]>>;

/** Ohm: as good as nothing connected, and as good as a wire. */
export const OPEN = 1e10;
export const WIRE = 0.5;

export const ohms = (amount: (seen: Seen<Circuit>) => number) => ({ unit: 'ohm' as const, amount });
/** The size itself is what the part really has. */
export const own = ohms(({ size }) => size);

/** The leak to chassis that lowers a point as much as its feed resistor would if it had risen to `size`. */
export const leakBehind = (key: 'anodeFeed' | 'screenFeed', point: 'anode' | 'screen') =>
	ohms(({ size, sound, resting }) => {
		const drop = resting('ht') - resting(point);
		return resting(point) / Math.max(drop * (1 / sound[key] - 1 / size), 1e-9);
	});

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
