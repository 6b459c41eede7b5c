import type { Place, Plan } from './plan.ts';
import type { PartKind } from './plan.ts';

const isPoint = (entry: string) => entry.includes('.');

/** Stage or line of that name, if the plan has it. */
export const placeOf = (plan: Plan, id: string): Place | undefined => plan.stages[id] ?? plan.lines[id];

/** Every stage and line that holds a part of this kind. */
export function placesWith(plan: Plan, kind: PartKind): string[] {
	return [...Object.entries(plan.stages), ...Object.entries(plan.lines)]
		.filter(([, place]) => place.parts.includes(kind))
		.map(([id]) => id);
}

/** Stages of a band in signal order. */
export const stagesOn = (plan: Plan, band: string): string[] =>
	(plan.paths[band] ?? []).filter((entry) => !isPoint(entry));

/** Test points of a band in signal order. */
export const pointsOn = (plan: Plan, band: string): string[] => (plan.paths[band] ?? []).filter(isPoint);

/** Stages between a point and the loudspeaker; empty where the point is not on the band's path. */
export function downstream(plan: Plan, band: string, point: string): string[] {
	const path = plan.paths[band] ?? [];
	const start = path.indexOf(point);
	return start < 0 ? [] : path.slice(start + 1).filter((entry) => !isPoint(entry));
}

/** Stages between the aerial and a point. */
export function upstream(plan: Plan, band: string, point: string): string[] {
	const path = plan.paths[band] ?? [];
	const end = path.indexOf(point);
	return end < 0 ? [] : path.slice(0, end).filter((entry) => !isPoint(entry));
}

/**
 * Whether a fault at this place can be felt in any of these stages on this band: the stage itself, or a
 * supply, control line or drive that feeds one of them.
 */
export function reaches(plan: Plan, place: string, band: string, stages: readonly string[]): boolean {
	if (stages.includes(place)) return true;
	const line = plan.lines[place];
	if (!line || (line.bands && !line.bands.includes(band))) return false;
	return line.feeds.some((stage) => stages.includes(stage));
}
