import { parseQuantity } from '../../quantity/index.ts';
import type { SetSheet } from '../set-data.ts';

/** What a line above or below the table says of how its volts were measured. */
export type Conditions = Omit<SetSheet, 'from'>;

const FIGURE = String.raw`(\d[\d.,]*(?: \d{3})*\s*[kM]?)`;
const PER_VOLT = new RegExp(String.raw`${FIGURE}\s*(?:Ω|ohms?)?\s*(?:/|per\s|p\.)\s*v(?:olt|\b|\.)`, 'i');
const WHOLE = new RegExp(String.raw`${FIGURE}\s*(?:Ω|ohms?)(?!\w)`, 'i');
const MAINS = [
	/mains\D{0,24}?(\d{2,3})(?:\s*v\b|\s*volts?\b|\s*$)/i,
	/(\d{2,3})\s*v(?:olts?)?\.?\s*(?:a\.?c\.?\s*)?(?:mains|tap)/i
];
const RANGE = [
	/(\d{1,4})\s*-?v(?:olts?)?\.?\s*(?:d\.?c\.?\s*)?(?:range|scale)/i,
	/(?:range|scale)\D{0,8}(\d{1,4})\s*v/i
];

/** Ohms as a sheet writes them: `20 kΩ`, `20,000`, `20 000`. */
function ohms(text: string | undefined): number | undefined {
	if (text === undefined) return undefined;
	const read = parseQuantity(text.trim().replace(/(\d)[ ,](?=\d{3})/g, '$1'), 'ohm');
	return read.ok && read.value > 0 ? read.value : undefined;
}

const first = (patterns: readonly RegExp[], line: string): number | undefined => {
	const found = patterns.map((pattern) => pattern.exec(line)?.[1]).find(Boolean);
	return found === undefined ? undefined : Number(found);
};

/** The meter, its range and the mains, where a line tells of them; nothing where it tells of neither. */
export function conditionsIn(line: string): Conditions | undefined {
	const perVolt = ohms(PER_VOLT.exec(line)?.[1]);
	const meter = perVolt === undefined && /meter/i.test(line) ? ohms(WHOLE.exec(line)?.[1]) : undefined;
	const [mains, range] = [first(MAINS, line), first(RANGE, line)];
	const told = Object.entries({ meter, ohmsPerVolt: perVolt, range, mains }).filter(
		([, value]) => value !== undefined
	);
	return told.length > 0 ? Object.fromEntries(told) : undefined;
}
