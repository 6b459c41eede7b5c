import type { BaseWhere, Where } from '$lib/flow/where.ts';
import type { Plan } from '$lib/receiver/index.ts';
import type { SurveyPoint, SurveyRow } from '$lib/receiver/survey.ts';

/** A base to draw on paper, with all its pins of the survey. */
export interface PaperBase extends BaseWhere {
	/** What the valve is in the set. */
	title: string;
}

/** Each base whose pins may be named once, in the order of the survey. */
export function basesOf(
	plan: Plan,
	rows: readonly SurveyRow[],
	placeOf: (point: SurveyPoint) => Where | undefined
): PaperBase[] {
	const found = new Map<string, PaperBase>();
	for (const { point } of rows) {
		const { base } = placeOf(point) ?? {};
		if (!base || point.valve === undefined) continue;
		const own = found.get(point.valve);
		const pins = [...new Set([...(own?.pins ?? []), ...base.pins])];
		found.set(point.valve, { ...base, title: plan.valves[point.valve]?.title ?? base.valve, pins });
	}
	return [...found.values()];
}
