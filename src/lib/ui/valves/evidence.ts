import type { PinEvidence, Valve } from '$lib/valves/index.ts';

/** How the pins are known, as a sentence. */
const EVIDENCE: Readonly<Record<PinEvidence, string>> = {
	maker_sheet: "The maker's sheet of this type was read for the pins.",
	maker_sheet_sister: "The maker's sheet of a sister type was read for the pins.",
	two_sources: 'Two independent sources agree on the pins.',
	two_sources_sister: 'Two independent sources agree on the pins, one or both for a sister type.',
	one_source_and_sister: 'One source gives these pins, and a type that shares the base connections agrees.',
	one_source: 'Only one source gives these pins.',
	one_source_sister: 'Only one source gives these pins, and for a sister type.',
	memory: 'These pins are from memory.',
	none: 'No pins are given: no source could be read.'
};

export const evidenceOf = ({ evidence }: Valve): string => EVIDENCE[evidence];

/** "frequency changer, AM mixer". */
export const rolesOf = ({ roles }: Valve): string =>
	roles
		.map((role) => role.replace(/_/g, ' ').replace(/\b(am|fm|rf|if|af|avc)\b/g, (word) => word.toUpperCase()))
		.join(', ');

export const heaterOf = ({ heater: { volts, amps, directlyHeated, seriesChain } }: Valve): string =>
	[
		`${volts} V, ${amps} A`,
		...(directlyHeated ? ['directly heated'] : []),
		...(seriesChain ? ['made for a series chain'] : [])
	].join(', ');
