import { BASIS_WORDS } from '$lib/flow/reading.ts';
import { capital } from '$lib/ui/capital.ts';
import { printQuantity } from '$lib/quantity/index.ts';
import type { Expectation, SurveyRow, Worked } from '$lib/receiver/survey.ts';

const volts = (value: number) => printQuantity(value, 'V', { digits: 3 });

/** No line ends between a figure and its unit. */
export const unbroken = (text: string): string =>
	text.replace(/(\d) (?=(?:[nµmkMG]?(?:V|A|W|Ω|F)|%)(?![\w]))/g, '$1\u00a0');

/** "Expected about 97 V, sound from 63.1 V to 131 V (from valve data)". */
export function expectedWords(expected: Expectation | undefined): string {
	if (!expected) return 'No figure is known for this place: its sheet has one.';
	const { value, from, to, basis } = expected;
	return unbroken(
		`Expected about ${volts(value)}, sound from ${volts(from)} to ${volts(to)} (${BASIS_WORDS[basis]})`
	);
}

/** How the figure came about: "scaled to 230 V mains". */
export const howWords = (expected: Expectation | undefined): string =>
	unbroken(capital((expected?.steps ?? []).join('; ')));

export const readingWords = ({ reading, point }: SurveyRow): string =>
	reading === undefined ? '' : printQuantity(reading, point.unit ?? 'V', { digits: 3 });

/** "Cathode current 53.5 mA (7.22 V over 135 ohm), of 65 mA for the EL84". */
export function workedWords({ what, value, unit, from, limit, limitOf, over }: Worked): string {
	const print = (figure: number) => printQuantity(figure, unit, { digits: 3 });
	const of = limitOf === 'the part' ? 'the part' : `the ${limitOf ?? 'valve'}`;
	const most = limit === undefined ? '' : `; ${over ? 'over the limit of' : 'limit'} ${print(limit)} (${of})`;
	return unbroken(`${what} ${print(value)}, ${from}${most}`);
}
