import type { Plan } from '../receiver/index.ts';
import { fitOf, stops } from '../valves/index.ts';
import type { Clash } from './set-clash.ts';
import type { SetData } from './set-data.ts';

/** Every valve that differs from the drawing, with what the difference is. */
export function differing(plan: Plan, data: SetData | undefined): Clash[] {
	const series = plan.traits.heaters === 'series';
	return (data?.valves ?? []).flatMap((valve) => {
		if (valve.fitted === undefined) return [];
		const fit = fitOf(valve.listed, valve.fitted, series);
		return fit.listed === fit.fitted ? [] : [{ valve, fit }];
	});
}

/** Of those the ones that must be settled before the set gets power. */
export const clashesIn = (plan: Plan, data: SetData | undefined): Clash[] =>
	differing(plan, data).filter(({ valve, fit }) => valve.kept === undefined && stops(fit));
