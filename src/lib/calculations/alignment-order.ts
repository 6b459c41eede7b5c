import {
	type AlignmentRow,
	amBandRows,
	amIfRows,
	DUMMY_ABOVE,
	DUMMY_BELOW,
	fmFrontRows,
	fmIfRows,
	type Marks
} from './alignment-rows.ts';
import { bandByStation, fmFrontByStation, fmIfByStation, ifByStation } from './alignment-stations.ts';
import { defineCalculation } from './define.ts';
import { choice, list, number, optional } from './inputs.ts';
import { commonPractice, OWN_NUMBERS, published } from './sources.ts';

const tunerManual = published(
	'AM/FM tuner service manual, AM alignment chart (manualshive.com): IF, 600 kHz, 1400 kHz oscillator then aerial, repeat'
);
const couplingManual = published(
	'communications-receiver manual section VI (10 nF, manuals.online) and the AM chart of the tuner manual (0.05 uF)'
);
const dummyAerial = published(
	'radioexperimenter.us, Dummy Antenna; IRE standard 200 pF + 20 uH shunted by 400 pF and 400 ohm (radiobanter.com 490806)'
);
const fmFirst = commonPractice('in shared cans the FM windings are set first, the AM windings after');
const withoutGenerator = commonPractice(
	'without a generator stations take its place: cans are peaked by a little, dial and aerial circuits set on known stations'
);
const marksRule = commonPractice(
	'where 600 or 1400 kHz is off the dial, a tenth of the band in from the end'
);

/** Marks of the table, Hz. */
const MW_MARKS = { low: 600e3, high: 1400e3 } as const;
const LW_MARKS = { low: 160e3, high: 270e3 } as const;
const FM_IF = 10.7e6;

/** Cores come last in this list on purpose: it is the warning read just before the first adjustment. */
const WARNINGS = [
	'Mend faults first, and let the set warm up for 15 to 30 minutes.',
	'Feed the smallest signal that reads: the AVC line under 0.5 V, or clamped.',
	'Insulated tool, volume up, tone neutral.',
	'The service sheet wins over this list wherever they differ.',
	'Cores come last, when everything else is proved: mark each core before it is touched, and turn back what brings nothing.'
] as const;
const NO_GENERATOR =
	'Without a generator the IF cannot be checked: peak what is there, and leave a set that was moved until a generator or a second set is at hand.';
const LIVE = 'Live chassis: the set runs from an isolating transformer before any generator is clipped on.';

/** A mark that is on the dial: the usual one, or a tenth of the band in from its end. */
function mwMarks(from: number | undefined, to: number | undefined): Marks {
	if (from === undefined || to === undefined) return { band: 'MW', ...MW_MARKS };
	const inside = (mark: number, otherwise: number): number => (mark > from && mark < to ? mark : otherwise);
	const tenth = (to - from) / 10;
	return { band: 'MW', low: inside(MW_MARKS.low, from + tenth), high: inside(MW_MARKS.high, to - tenth) };
}

const TONE = '400 Hz, 30 %';
/** Capacitor between generator and mixer grid, from and to, F. */
const AT_GRID = [10e-9, 50e-9];

/** The third gives the IF alone: a marker, or an oscillator of fixed frequency. Stations then set the dial. */
const GENERATORS = ['AM and FM', 'AM, up to 30 MHz', 'IF into mixer grid', 'none'] as const;
const STEPS = ['IF', 'low end', 'high end'] as const;
const OF_THE_SET = [
	'intermediate',
	'fmIntermediate',
	'bands',
	'from',
	'to',
	'shortLow',
	'shortHigh',
	'detector',
	'chassis'
] as const;

/** Whether a circuit belongs to a step; the detector of an FM set is set with its IF, and the end of a band with both. */
function isOf(step: (typeof STEPS)[number], circuit: string): boolean {
	if (step !== 'IF') return circuit.endsWith(step) || circuit.endsWith('repeat');
	return !/ end$|repeat$/.test(circuit);
}

interface Bench {
	generator: (typeof GENERATORS)[number] | undefined;
	detector: 'ratio detector' | 'discriminator' | undefined;
}

/** FM rows: an AM generator reaches the FM IF, not the band. */
function fmRows(intermediate: number, { generator, detector = 'ratio detector' }: Bench): AlignmentRow[] {
	const first = fmIfRows(intermediate, detector);
	const front = fmFrontRows(detector);
	if (generator === undefined || generator === 'AM and FM') return [...first, ...front];
	const withoutIf = generator === 'none' || generator === 'IF into mixer grid';
	return [...(withoutIf ? first.map(fmIfByStation) : first), ...front.map(fmFrontByStation)];
}

/** AM rows; the trap is left alone where nothing tells its frequency. */
function amRows(
	intermediate: number | undefined,
	bands: readonly Marks[],
	{ generator }: Bench
): AlignmentRow[] {
	const cans = amIfRows(intermediate);
	const dial = bands.flatMap(amBandRows);
	if (generator === 'IF into mixer grid') return [...cans, ...dial.map(bandByStation)];
	if (generator !== 'none') return [...cans, ...dial];
	const withoutTrap = cans.filter(({ circuit }) => circuit !== 'IF trap');
	return [...withoutTrap.map(ifByStation), ...dial.map(bandByStation)];
}

/** Numbers a row and puts its columns in the order of reading. */
const numbered = (
	{ circuit, generator, frequency, at, coupling, adjust, indicator }: AlignmentRow,
	i: number
) => ({
	step: i + 1,
	circuit,
	generator,
	frequency,
	at,
	coupling,
	adjust,
	indicator
});

/**
 * What to adjust in which order, with the generator where and the meter where. A list, without a verdict.
 *
 * AM: IF from the last can forward, trap, then on each band oscillator low, oscillator high, aerial, and again; medium waves
 * first, short waves next, long waves last. FM: detector, IF, front end. Frequencies not given are taken from the table of
 * usual marks, or left to the service sheet; the IF of an AM set is never guessed.
 */
export const alignmentOrder = defineCalculation({
	id: 'alignment-order',
	title: 'Order of alignment',
	question: 'What do I adjust next, with the generator where and the indicator where?',
	group: 'Tuning and alignment',
	words: [
		'align',
		'alignment',
		'trimming',
		'peak',
		'which core first',
		'IF can',
		'screws',
		'sequence',
		'generator',
		'procedure'
	],
	inputs: {
		band: optional(choice('band', 'what is to be aligned', ['AM', 'FM', 'AM and FM'])),
		intermediate: optional(number('IF_kHz', 'AM IF of the set', 30e3, 2e6)),
		fmIntermediate: optional(number('FM_IF_MHz', 'FM IF of the set', 1e6, 30e6)),
		bands: optional(list('bands', 'AM bands present', ['MW', 'SW', 'LW'])),
		from: optional(number('f_min_kHz', 'low end of the medium-wave dial', 480e3, 700e3)),
		to: optional(number('f_max_kHz', 'high end of the medium-wave dial', 1200e3, 1800e3)),
		shortLow: optional(number('SW_low_MHz', 'low mark of the short waves', 1.5e6, 30e6)),
		shortHigh: optional(number('SW_high_MHz', 'high mark of the short waves', 1.5e6, 30e6)),
		detector: optional(choice('detector', 'kind of FM detector', ['ratio detector', 'discriminator'])),
		generator: optional(choice('generator', 'signal generator at hand', GENERATORS)),
		chassis: optional(choice('chassis', 'chassis', ['isolated', 'live'])),
		steps: optional(list('steps', 'steps wanted (all where none is chosen)', STEPS)),
		dummy: optional(choice('dummy_aerial', 'dummy aerial', ['below 1.7 MHz', 'above 1.7 MHz']))
	},
	ways: [
		{
			title: 'the whole order',
			needs: ['band'],
			also: [...OF_THE_SET, 'generator', 'steps']
		},
		{ title: 'a dummy aerial', needs: ['dummy'] },
		{ title: 'how the generator is coupled', needs: ['generator'] }
	],
	outputs: {
		rows: { key: 'rows', label: 'Adjustments in order' },
		warnings: { key: 'warnings', label: 'Before starting' },
		low: { key: 'low_kHz', label: 'Low mark of the medium waves' },
		high: { key: 'high_kHz', label: 'High mark of the medium waves' },
		coupling: { key: 'coupling_nF', label: 'Coupling to the mixer grid, from and to' },
		modulation: { key: 'modulation', label: 'Modulation' },
		count: { key: 'rows_in_all', label: 'Rows', digits: 4 },
		gang: { key: 'IF', label: 'Gang and generator for the IF' },
		value: { key: 'value', label: 'Dummy aerial' },
		dummy: { key: 'dummy_aerial', label: 'Dummy aerial below and above 1.7 MHz' },
		repeat: { key: 'repeat', label: 'Repeat until nothing moves' }
	},
	formulaText: [
		'AM: last IF can, first IF can, trap; then on each band oscillator low end, oscillator high end, aerial; repeat',
		'FM: detector, IF back to the mixer, front end; FM before AM where cans are shared'
	],
	refuse(given) {
		const { band, bands, detector, fmIntermediate, intermediate, from, to, shortLow, shortHigh } = given;
		if (band === undefined && given.generator === 'none')
			return {
				key: 'band',
				message:
					'band is missing: with nothing to feed in there is only the order itself. Choose AM, FM or both.'
			};
		const stranger =
			band === 'AM'
				? Object.entries({ detector, FM_IF_MHz: fmIntermediate })
				: band === 'FM'
					? Object.entries({ bands, IF_kHz: intermediate })
					: [];
		const [key] = stranger.flatMap(([name, value]) => (value === undefined ? [] : [name]));
		if (key !== undefined) {
			const other = band === 'AM' ? 'FM' : 'AM';
			return { key, message: `${key} belongs to ${other}. Leave it out, or choose "AM and FM".` };
		}
		if ((from === undefined) !== (to === undefined)) {
			const message = 'One end of the dial is missing. Give both f_min_kHz and f_max_kHz, or neither.';
			return { key: from === undefined ? 'f_min_kHz' : 'f_max_kHz', message };
		}
		if (shortLow === undefined || shortHigh === undefined || shortLow < shortHigh) return undefined;
		return {
			key: 'SW_high_MHz',
			message: 'SW_high_MHz is not above SW_low_MHz. Give the lower mark as SW_low_MHz.'
		};
	},
	formula({
		band,
		intermediate,
		fmIntermediate = FM_IF,
		bands = ['MW'],
		from,
		to,
		shortLow,
		shortHigh,
		steps,
		dummy,
		...set
	}) {
		if (dummy) return { value: dummy === 'below 1.7 MHz' ? DUMMY_BELOW : DUMMY_ABOVE };
		if (band === undefined) return { coupling: AT_GRID, modulation: TONE };
		const mw = mwMarks(from, to);
		const marks: readonly Marks[] = [
			mw,
			{ band: 'SW', low: shortLow, high: shortHigh },
			{ band: 'LW', ...LW_MARKS }
		];
		const present = marks.filter((one) => bands.some((name) => name === one.band));
		const am = band !== 'FM';
		const every: AlignmentRow[] = [
			...(band === 'AM' ? [] : fmRows(fmIntermediate, set)),
			...(am ? amRows(intermediate, present, set) : [])
		];
		const rows = steps ? every.filter(({ circuit }) => steps.some((step) => isOf(step, circuit))) : every;
		const fed = am && set.generator !== 'none';
		const warnings = set.generator === 'none' ? [NO_GENERATOR, ...WARNINGS] : WARNINGS;
		const shown = am && bands.includes('MW');
		return {
			rows: rows.map(numbered),
			count: rows.length,
			warnings: set.chassis === 'isolated' ? warnings : [LIVE, ...warnings],
			low: shown ? mw.low : undefined,
			high: shown ? mw.high : undefined,
			gang: fed ? 'at dial end, generator at mixer' : undefined,
			coupling: fed ? AT_GRID : undefined,
			modulation: fed ? TONE : am ? 'that of the station' : 'none',
			dummy: fed ? [DUMMY_BELOW, DUMMY_ABOVE] : undefined,
			repeat: true
		};
	},
	summary: [
		'{count} rows: go through them in order, and again until nothing moves.',
		'The dummy aerial is {value} there.',
		'Couple it to the grid through {coupling}, modulated {modulation}.'
	],
	cautions: [
		LIVE,
		'Alignment is done with the set live: one hand, insulated tool, cabinet parts clear of the chassis.'
	],
	pitfalls: [
		'If a core gives no peak inside its travel, stop: a part is wrong.',
		'Maximum noise is not alignment.',
		'Shared AM and FM cans: FM windings first, AM after.',
		'Long waves come last where they share the padder.'
	],
	sources: [tunerManual, couplingManual, dummyAerial, fmFirst, withoutGenerator, marksRule],
	checks: [
		{
			id: 'alignment-order/1',
			given: { band: 'AM', steps: ['IF', 'low end', 'high end'] },
			gives: {
				IF: 'at dial end, generator at mixer',
				low_kHz: 600,
				high_kHz: 1400,
				repeat: true,
				rows: [
					{
						circuit: 'last IF can',
						at: 'mixer grid, gang at a quiet place (last IF grid if nothing passes)'
					},
					{ circuit: 'first IF can', at: 'mixer grid' },
					{ circuit: 'IF trap', at: 'aerial' },
					{ circuit: 'MW oscillator, low end', frequency: '600 kHz' },
					{ circuit: 'MW oscillator, high end', frequency: '1,400 kHz' },
					{ circuit: 'MW aerial, low end', frequency: '600 kHz' },
					{ circuit: 'MW aerial, high end', frequency: '1,400 kHz' },
					{ circuit: 'MW, repeat' }
				]
			},
			withinPct: 0,
			basis: 'published',
			source: tunerManual
		},
		{
			id: 'alignment-order/2',
			given: { generator: 'IF into mixer grid' },
			gives: { coupling_nF: [10, 50], modulation: '400 Hz, 30 %' },
			withinPct: 0,
			basis: 'published',
			source: couplingManual
		},
		{
			id: 'alignment-order/3',
			given: { dummy_aerial: ['below 1.7 MHz', 'above 1.7 MHz'] },
			gives: { value: ['200 pF', '400 ohm'] },
			withinPct: 0,
			basis: 'published',
			source: dummyAerial
		},
		{
			id: 'alignment-order/the low end alone, with a marker for the IF',
			given: { band: 'AM', steps: ['low end'], generator: 'IF into mixer grid' },
			gives: {
				rows: [
					{ circuit: 'MW oscillator, low end', generator: 'a station whose frequency is known' },
					{ circuit: 'MW aerial, low end' },
					{ circuit: 'MW, repeat' }
				]
			},
			withinPct: 0,
			basis: 'common practice, no source',
			source: withoutGenerator
		},
		{
			id: 'alignment-order/a dial from 540 to 1300 kHz',
			given: { band: 'AM', f_min_kHz: 540, f_max_kHz: 1300, chassis: 'isolated' },
			gives: { low_kHz: 600, high_kHz: 1224 },
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'alignment-order/AM and FM with ratio detector',
			given: { band: 'AM and FM', detector: 'ratio detector', IF_kHz: 468 },
			gives: {
				rows: [
					{ circuit: 'ratio detector primary', frequency: '10.7 MHz', at: 'last IF grid' },
					{
						circuit: 'ratio detector secondary',
						adjust: 'for zero, at the steepest point between plus and minus'
					},
					{ circuit: 'FM IF back to the mixer', indicator: 'DC across the stabilising electrolytic' },
					{ circuit: 'FM front end, low end', frequency: '88 MHz' },
					{ circuit: 'FM front end, high end', frequency: '106 MHz' },
					{ circuit: 'FM, repeat' },
					{ circuit: 'last IF can', frequency: '468 kHz' },
					{ circuit: 'first IF can' },
					{ circuit: 'IF trap' },
					{ circuit: 'MW oscillator, low end' },
					{ circuit: 'MW oscillator, high end' },
					{ circuit: 'MW aerial, low end' },
					{ circuit: 'MW aerial, high end' },
					{ circuit: 'MW, repeat' }
				]
			},
			withinPct: 0,
			basis: 'common practice, no source',
			source: fmFirst
		},
		{
			id: 'alignment-order/FM with discriminator, an AM generator at hand',
			given: { band: 'FM', detector: 'discriminator', generator: 'AM, up to 30 MHz' },
			gives: {
				modulation: 'none',
				rows: [
					{ circuit: 'discriminator primary', at: 'limiter grid', frequency: '10.7 MHz' },
					{ circuit: 'discriminator secondary' },
					{ circuit: 'FM IF back to the mixer', indicator: 'limiter grid return, through 1 Mohm' },
					{ circuit: 'FM front end, low end', generator: 'a station whose frequency is known' },
					{ circuit: 'FM front end, high end', frequency: 'near 106 MHz' },
					{ circuit: 'FM, repeat' }
				]
			},
			withinPct: 0,
			basis: 'common practice, no source',
			source: withoutGenerator
		},
		{
			id: 'alignment-order/AM without a generator',
			given: { band: 'AM', generator: 'none', bands: ['MW', 'LW'] },
			gives: {
				modulation: 'that of the station',
				rows: [
					{ circuit: 'last IF can', generator: 'a weak station that fades little', at: 'aerial terminal' },
					{ circuit: 'first IF can' },
					{ circuit: 'MW oscillator, low end', frequency: 'near 600 kHz' },
					{ circuit: 'MW oscillator, high end' },
					{ circuit: 'MW aerial, low end' },
					{ circuit: 'MW aerial, high end' },
					{ circuit: 'MW, repeat' },
					{ circuit: 'LW oscillator, low end', frequency: 'near 160 kHz' },
					{ circuit: 'LW oscillator, high end' },
					{ circuit: 'LW aerial, low end' },
					{ circuit: 'LW aerial, high end' },
					{ circuit: 'LW, repeat' }
				]
			},
			withinPct: 0,
			basis: 'common practice, no source',
			source: withoutGenerator
		}
	]
});
