import { type Figures, operatingPoints } from '../../valves/index.ts';
import type { OscillatorPoint, RectifierPoint, StageKind, WorkingPoint } from './types.ts';

/** What the valve data give for a stage. */
export type PublishedPoint =
	| { valve: WorkingPoint; oscillator?: OscillatorPoint; label: string }
	| { rectifier: RectifierPoint; label: string };

/** The published point of a valve for a stage, by type or another of its names; undefined where its data do not reach. */
export function pointOf(_type: string, _stage: StageKind): PublishedPoint | undefined {
	throw new Error('to come');
}
void (0 as unknown as Figures);
void operatingPoints;
