import type { Picture } from './picture.ts';
import type { SupplyGiven } from './supply-ripple-inputs.ts';

function picture(
	along: readonly { V_pp: number | null; ratio: number }[],
	ripple: number | undefined
): Picture {
	const values = [ripple ?? 1, ...along.map(({ V_pp, ratio }) => V_pp ?? ratio)];
	return {
		title: 'Ripple along the filter',
		x: {
			label: 'After',
			unit: 'number',
			ticks: values.map((_, at) => ({ at, label: at === 0 ? 'reservoir' : `section ${at}` }))
		},
		y:
			ripple === undefined
				? { label: 'Ripple, share of the reservoir’s', unit: 'number', scale: 'log' }
				: { label: 'Ripple, peak to peak', unit: 'V', scale: 'log' },
		curves: [{ label: 'ripple', style: 'solid', points: values.map((value, at) => [at, value] as const) }]
	};
}

/** Ripple from the reservoir to the last section. */
export function ripplePictures(
	{ ripple: given }: SupplyGiven,
	{ along, ripple }: { along?: unknown; ripple?: unknown }
): Picture[] {
	if (!Array.isArray(along)) return [];
	const known = typeof ripple === 'number' ? ripple : given;
	return [picture(along as never, known)];
}
