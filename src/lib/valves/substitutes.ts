import { valves } from './data.ts';
import { findValve } from './find.ts';
import { fitOf, stops, type FitDifference } from './fit.ts';
import type { SourceId } from './sources.ts';
import { trusted } from './pins.ts';

/** Which valve may stand in for another, and what has to be changed with it. */
export interface Substitute {
	type: string;
	/** `as-is`: nothing to change; `with-changes`: what `differences` tells comes with it. */
	how: 'as-is' | 'with-changes';
	differences: readonly FitDifference[];
	/** Both pin-outs rest on a maker's sheet or two sources. */
	certain: boolean;
}

/** What a source says for or against a type in the place of another, beyond what the figures tell. */
export interface Advice {
	type: string;
	for: string;
	advised: boolean;
	says: string;
	source: SourceId;
}

const SUBSTITUTE_ADVICE: readonly Advice[] = [
	{
		for: 'EL95',
		type: '6BM5',
		advised: true,
		says: 'The same pins; its heater takes 0.45 A in place of 0.2 A, and the cathode resistor becomes 270 ohm in place of 330 ohm.',
		source: 'rm_el95'
	},
	{
		for: 'EL95',
		type: '6AQ5',
		advised: false,
		says: 'It draws 45 mA where the EL95 draws 24 mA.',
		source: 'rm_el95'
	},
	{ for: 'EL95', type: '6AK6', advised: false, says: 'The source advises against it.', source: 'rm_el95' }
];

/** Types that may stand in: the same base and pins and a shared duty, with heater and ratings told where they differ. */
export function substitutesFor(type: string, series: boolean): Substitute[] {
	const found = findValve(type);
	if (!found.ok) return [];
	const { valve } = found;
	const known = Object.keys(valve.pins).length >= 4;
	if (!known) return [];
	return valves
		.filter((other) => other !== valve && Object.keys(other.pins).length >= 4 && other.base === valve.base)
		.filter((other) => other.roles.some((role) => valve.roles.includes(role)))
		.flatMap((other): Substitute[] => {
			const fit = fitOf(valve.type, other.type, series);
			const apart = fit.differences.some(({ of }) => of === 'pins' || of === 'base' || of === 'unknown');
			const cold = fit.differences.some((one) => one.of === 'heater' && one.stops && !series);
			const otherCurrent = series && stops(fit);
			if (apart || cold || otherCurrent) return [];
			return [
				{
					type: other.type,
					how: fit.differences.length === 0 ? 'as-is' : 'with-changes',
					differences: fit.differences,
					certain: trusted(valve.evidence) && trusted(other.evidence)
				}
			];
		})
		.sort((a, b) => a.differences.length - b.differences.length || a.type.localeCompare(b.type));
}

/** What sources say of stand-ins for a type. */
export const adviceFor = (type: string): Advice[] =>
	SUBSTITUTE_ADVICE.filter((advice) => advice.for === type.toUpperCase());
