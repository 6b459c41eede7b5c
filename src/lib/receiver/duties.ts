import type { Plan } from './plan.ts';

/** What a valve does on some of the bands. */
export interface Duty {
	/** Bands by title. */
	bands: string[];
	/** Stages by title, in signal order. */
	stages: string[];
}

/** What a valve of the plan does, band by band; bands on which it does the same stand together, one on which it rests is left out. */
export function dutiesOf(plan: Plan, valve: string): Duty[] {
	const duties: Duty[] = [];
	for (const [band, { title }] of Object.entries(plan.bands)) {
		const stages = (plan.paths[band] ?? []).flatMap((entry) => {
			const stage = plan.stages[entry];
			return stage?.valve === valve ? [stage.title] : [];
		});
		const same = duties.find((duty) => duty.stages.join() === stages.join());
		if (same) same.bands.push(title);
		else if (stages.length > 0) duties.push({ bands: [title], stages });
	}
	return duties;
}
