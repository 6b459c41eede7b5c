import { bandsOf, COLOURS, DIGITS, fromBands, fromBody, fromMicaDots, type Marked } from './colour-code.ts';
import { defineCalculation } from './define.ts';
import { choice, list, number, optional, text } from './inputs.ts';
import { LETTERS, type PrintedCode, readPrinted, type ToleranceLetter } from './printed-code.ts';
import { FOSSEE, fromMemory, OWN_NUMBERS, published } from './sources.ts';

const rkm = published('IEC 60062 examples (Wikipedia, RKM code)');
const leads = published('rfcafe.com, transformer lead colour code');
const letters = published('servfire.net component values; endprod.com');
const vcomp = published('vcomp.co.uk capacitor codes (3 dots: 500 V, 20 % implied)');
const bodyEndDot = published('awasa.org.za article 44 (body-end-dot)');
const sixDots = published(
	'US Army ordnance course OD1647, six-dot mica capacitors (armyordnance.tpub.com/OD1647/OD16470111.htm): type and digits above, tolerance and multiplier below'
);
const blackDot = published('mica dots with black for 20 %: technifest.com, mica capacitor codes');
const voltCodes = published('EIA volt codes: oriedza.blogspot.com, capacitor code table; jestineyong.com');
const rmaDots = published(
	'six mica dots, the upper left neither black, white nor silver: three figures above, and volts and tolerance besides (vcomp.co.uk; mailman.qth.net arc5, August 2013)'
);
const rmaPlaces = fromMemory('of those six the lower left tells the volts');

const TRANSFORMER_LEADS = {
	black: 'primary',
	'black/yellow': 'primary tap',
	'black/red': 'primary end',
	red: 'HT',
	'red/yellow': 'HT centre tap',
	yellow: 'rectifier heater',
	'yellow/blue': 'rectifier heater tap',
	green: 'heater 1',
	'green/yellow': 'heater 1 tap',
	brown: 'heater 2',
	'brown/yellow': 'heater 2 tap',
	slate: 'heater 3',
	'slate/yellow': 'heater 3 tap'
} as const;
const STAGE_LEADS = {
	blue: 'anode',
	red: 'HT',
	green: 'grid or diode',
	black: 'return / AVC / chassis',
	brown: 'second anode of a push-pull pair',
	'green/black': 'secondary of the output transformer'
} as const;

const keys = <T extends object>(table: T) =>
	Object.keys(table) as [keyof T & string, ...(keyof T & string)[]];
const BODY = [...DIGITS] as const;
const DOT = [...DIGITS, 'gold', 'silver'] as const;
const FOURTH = ['gold', 'silver', 'none'] as const;
const BAND_PLACES = ['first band', 'second band', 'third band', 'fourth band', 'fifth band'];
const DOT_PLACES = [
	'first, or top left',
	'second, or top middle',
	'third, or top right',
	'fourth, or bottom left',
	'fifth, or bottom middle',
	'bottom right'
];

const resistor = (found: Marked | undefined) => ({ ohms: found?.value, tolerance: found?.tolerance });

function letterOf(letter: ToleranceLetter | undefined) {
	const { tolerance, margin, words } = letter ? LETTERS[letter] : {};
	return { tolerance, margin, uneven: words };
}

function printed({ kind, value, letter, volts }: PrintedCode) {
	return { ...(kind === 'resistor' ? { ohms: value } : { capacitance: value }), ...letterOf(letter), volts };
}

/** The reading of a code that the kind of part, where it is told, allows; all readings where it is not. */
const readings = (code: string, kind: PrintedCode['kind'] | undefined): PrintedCode[] =>
	readPrinted(code).filter((one) => kind === undefined || one.kind === kind);

/**
 * What is printed or painted on a part. No verdict: a list of what the marks mean.
 *
 * Colours 0 to 9: black, brown, red, orange, yellow, green, blue, violet, grey, white. Old resistors: body, end, dot. Letters
 * stand for the point (IEC 60062). Three figures on a capacitor are picofarads, the third counting noughts.
 */
export const partCodes = defineCalculation({
	id: 'part-codes',
	title: 'Codes on parts',
	question: 'What do the colours, dots or letters on this part mean?',
	group: 'Parts and values',
	words: [
		'colour code',
		'bands',
		'dogbone',
		'mica',
		'RKM',
		'leads',
		'transformer',
		'wire',
		'resistor',
		'marking',
		'which colour',
		'color code',
		'dots',
		'body end dot',
		'wire colours',
		'letters',
		'what value is this',
		'capacitor code'
	],
	inputs: {
		colours: optional(list('colours', 'bands of a resistor', COLOURS, { places: BAND_PLACES })),
		body: optional(choice('body', 'body of an old resistor', BODY)),
		end: optional(choice('end', 'its end', BODY)),
		dot: optional(choice('dot', 'its dot or middle band', DOT)),
		fourth: optional(choice('fourth', 'its other end', FOURTH)),
		dots: optional(list('mica_dots', 'dots of a mica capacitor', COLOURS, { places: DOT_PLACES })),
		code: optional(text('code', 'code printed on the part', '4K7')),
		kind: optional(choice('kind', 'kind of part', ['resistor', 'capacitor'])),
		letter: optional(choice('letters', 'letter of tolerance', keys(LETTERS))),
		transformer: optional(choice('transformer_lead', 'lead of a mains transformer', keys(TRANSFORMER_LEADS))),
		stage: optional(
			choice('if_or_output_lead', 'lead of an IF can or output transformer', keys(STAGE_LEADS))
		),
		ohms: optional(number('R_ohm', 'resistor whose bands are wanted', 0.1, 99e9)),
		tolerance: optional(choice('tolerance', 'its tolerance', ['1 %', '2 %', '5 %', '10 %', '20 %']))
	},
	ways: [
		{ title: 'colour bands', needs: ['colours'] },
		{ title: 'body, end and dot', needs: ['body', 'end'], also: ['dot', 'fourth'] },
		{ title: 'mica dots', needs: ['dots'] },
		{ title: 'letters and figures', needs: ['code'], also: ['kind'] },
		{ title: 'a letter of tolerance', needs: ['letter'] },
		{ title: 'a lead of the mains transformer', needs: ['transformer'] },
		{ title: 'a lead of an IF can or output transformer', needs: ['stage'] },
		{ title: 'the bands of a value', needs: ['ohms'], also: ['tolerance'] }
	],
	outputs: {
		ohms: { key: 'ohm', label: 'Resistance', digits: 4 },
		capacitance: { key: 'pF', label: 'Capacitance', digits: 4 },
		tolerance: { key: 'tol_pct', label: 'Tolerance, either way' },
		margin: { key: 'tol_pF', label: 'Tolerance, either way' },
		uneven: { key: 'tol_uneven', label: 'Tolerance' },
		volts: { key: 'V', label: 'Working volts' },
		make: { key: 'make', label: 'Make' },
		winding: { key: 'winding', label: 'Winding' },
		goesTo: { key: 'goes_to', label: 'Goes to' },
		bands: { key: 'bands', label: 'Bands' }
	},
	formulaText: [
		'0 black, 1 brown, 2 red, 3 orange, 4 yellow, 5 green, 6 blue, 7 violet, 8 grey, 9 white',
		'multiplier: as many noughts as the digit; gold × 0.1, silver × 0.01',
		'tolerance: brown 1 %, red 2 %, gold 5 %, silver 10 %, none 20 %',
		'body first digit, end second digit, dot multiplier, other end tolerance',
		'three figures on a capacitor: two digits and the number of noughts, in pF'
	],
	refuse({ colours, dots, code, kind, ohms, tolerance }) {
		if (colours && !fromBands(colours))
			return {
				key: 'colours',
				message:
					'These colours make no value. Give two or three digits, a multiplier, then how exact it is; begin on the other side if gold or silver comes first.'
			};
		if (dots && !fromMicaDots(dots))
			return {
				key: 'mica_dots',
				message: 'Mica has three dots, five or six, with no gold or silver among the digits.'
			};
		if (ohms !== undefined && !bandsOf(ohms, Number.parseInt(tolerance ?? '20', 10)))
			return {
				key: 'R_ohm',
				message: 'R_ohm has more than two figures: four bands do not tell it. Round it.'
			};
		if (code === undefined) return undefined;
		const found = readings(code, kind);
		if (found.length === 1) return undefined;
		const message =
			found.length === 0
				? 'The code is not known. Type it as printed: 4K7, R47, 4n7, 104K, 2A104J.'
				: 'The code can be a resistor or a capacitor. Choose the kind of part.';
		return { key: found.length === 0 ? 'code' : 'kind', message };
	},
	formula(given) {
		const { colours, body, end, dots, code, letter, transformer, stage, ohms } = given;
		if (colours) return resistor(fromBands(colours));
		if (body && end) return resistor(fromBody(body, end, given.dot, given.fourth));
		if (dots) {
			const found = fromMicaDots(dots);
			return {
				capacitance: found?.value,
				tolerance: found?.tolerance,
				volts: found?.volts,
				make: found?.make
			};
		}
		const [read] = code === undefined ? [] : readings(code, given.kind);
		if (read) return printed(read);
		if (letter) return letterOf(letter);
		return {
			winding: transformer && TRANSFORMER_LEADS[transformer],
			goesTo: stage && STAGE_LEADS[stage],
			bands: ohms ? bandsOf(ohms, Number.parseInt(given.tolerance ?? '20', 10)) : undefined
		};
	},
	summary: [
		'It is {ohms}.',
		'It is {capacitance}.',
		'Within {tolerance} either way.',
		'Within {margin} either way.',
		'Within {uneven}.',
		'It is for {volts}.',
		'That is {make}.',
		'That lead is the {winding}.',
		'That lead goes to: {goesTo}.',
		'Its bands are {bands}.'
	],
	cautions: ['A colour says what a part was: measure before it is trusted, unplugged and proved dead.'],
	pitfalls: [
		'European makers did not follow these lead colours: ring the windings out.',
		'Violet and grey fade; brown, red and orange darken: prefer a measurement.',
		'A dogbone resistor of 1930 reads body, end, dot, even if the eye sees bands.',
		'A dot that cannot be seen has the colour of the body.',
		'Six mica dots: white or black first is mica, silver is paper.'
	],
	sources: [rkm, leads, letters, vcomp, bodyEndDot, sixDots, blackDot, voltCodes, rmaDots, rmaPlaces],
	checks: [
		{
			id: 'part-codes/1',
			given: { code: ['R47', '4R7', '4K7', '47K3'] },
			gives: { ohm: [0.47, 4.7, 4700, 47300] },
			withinPct: 0,
			basis: 'published',
			source: rkm
		},
		{
			id: 'part-codes/2',
			given: { code: ['102', '224'] },
			gives: { pF: [1000, 220000] },
			withinPct: 0,
			basis: 'published',
			source: published('protelpcbs6.com 2015')
		},
		{
			id: 'part-codes/3',
			given: { body: 'green', end: 'grey', dot: 'red', fourth: null },
			gives: { ohm: 5800, tol_pct: 20 },
			withinPct: 0,
			basis: 'published',
			source: bodyEndDot
		},
		{
			id: 'part-codes/4',
			given: { mica_dots: ['red', 'green', 'black'] },
			gives: { pF: 25, V: 500, tol_pct: 20 },
			withinPct: 0,
			basis: 'published',
			source: vcomp
		},
		{
			id: 'part-codes/5',
			given: { letters: ['J', 'K', 'M'] },
			gives: { tol_pct: [5, 10, 20] },
			withinPct: 0,
			basis: 'published',
			source: letters
		},
		{
			id: 'part-codes/6',
			given: { transformer_lead: ['black', 'red', 'red/yellow', 'yellow', 'green'] },
			gives: { winding: ['primary', 'HT', 'HT centre tap', 'rectifier heater', 'heater 1'] },
			withinPct: 0,
			basis: 'published',
			source: leads
		},
		{
			id: 'part-codes/7',
			given: { if_or_output_lead: ['blue', 'red', 'green', 'black'] },
			gives: { goes_to: ['anode', 'HT', 'grid or diode', 'return / AVC / chassis'] },
			withinPct: 0,
			basis: 'published',
			source: leads
		},
		{
			id: 'part-codes/8',
			given: { colours: ['grey', 'blue', 'gold', 'silver'] },
			gives: { ohm: 8.6, tol_pct: 10 },
			withinPct: 0,
			basis: 'published',
			source: published(`Kakani, electronics textbook (title not checked), ex. E3, p. 44; ${FOSSEE}`)
		},
		{
			id: 'part-codes/six mica dots',
			given: { mica_dots: ['white', 'green', 'brown', 'red', 'green', 'brown'] },
			gives: { pF: 510, tol_pct: 5, make: 'mica (EIA)' },
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'part-codes/six mica dots of an ordnance course',
			given: { mica_dots: ['white', 'brown', 'red', 'red', 'red', 'red'] },
			gives: { pF: 1200, tol_pct: 2 },
			withinPct: 0,
			basis: 'published (1200 pF; the lower left dot is ours, and the 2 % of the text goes with red)',
			source: sixDots
		},
		{
			id: 'part-codes/five mica dots',
			given: { mica_dots: ['red', 'green', 'brown', 'gold', 'silver'] },
			gives: { pF: 250, V: 1000, tol_pct: 10 },
			withinPct: 0,
			basis: 'published table, our own colours',
			source: vcomp
		},
		{
			id: 'part-codes/a film capacitor with its volts',
			given: { code: '2A474J' },
			gives: { pF: 470000, tol_pct: 5, V: 100 },
			withinPct: 0,
			basis: 'published',
			source: voltCodes
		},
		{
			id: 'part-codes/bands of 47 kΩ',
			given: { R_ohm: '47k', tolerance: '10 %' },
			gives: { bands: ['yellow', 'violet', 'orange', 'silver'] },
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
