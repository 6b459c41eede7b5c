import {
	type AlignmentRow,
	amBandRows,
	amIfRows,
	DUMMY_ABOVE,
	DUMMY_BELOW,
	fmRows,
	type Marks
} from './alignment-rows.ts';
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
const LIVE = 'Live chassis: the set runs from an isolating transformer before any generator is clipped on.';

/** A mark that is on the dial: the usual one, or a tenth of the band in from its end. */
function mwMarks(from: number | undefined, to: number | undefined): Marks {
	if (from === undefined || to === undefined) return { band: 'MW', ...MW_MARKS };
	const inside = (mark: number, otherwise: number): number => (mark > from && mark < to ? mark : otherwise);
	const tenth = (to - from) / 10;
	return { band: 'MW', low: inside(MW_MARKS.low, from + tenth), high: inside(MW_MARKS.high, to - tenth) };
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
	inputs: {
		band: choice('band', 'what is to be aligned', ['AM', 'FM', 'AM and FM']),
		intermediate: optional(number('IF_kHz', 'AM IF of the set', 30e3, 2e6)),
		fmIntermediate: optional(number('FM_IF_MHz', 'FM IF of the set', 1e6, 30e6)),
		bands: optional(list('bands', 'AM bands present', ['MW', 'SW', 'LW'])),
		from: optional(number('f_min_kHz', 'low end of the medium-wave dial', 480e3, 700e3)),
		to: optional(number('f_max_kHz', 'high end of the medium-wave dial', 1200e3, 1800e3)),
		shortLow: optional(number('SW_low_MHz', 'low mark of the short waves', 1.5e6, 30e6)),
		shortHigh: optional(number('SW_high_MHz', 'high mark of the short waves', 1.5e6, 30e6)),
		detector: optional(choice('detector', 'kind of FM detector', ['ratio detector', 'discriminator'])),
		chassis: optional(choice('chassis', 'chassis', ['isolated', 'live']))
	},
	outputs: {
		rows: { key: 'rows', label: 'Adjustments in order' },
		warnings: { key: 'warnings', label: 'Before starting' },
		low: { key: 'low_kHz', label: 'Low mark of the medium waves' },
		high: { key: 'high_kHz', label: 'High mark of the medium waves' },
		coupling: { key: 'coupling_nF', label: 'Coupling to the mixer grid, from and to' },
		modulation: { key: 'modulation', label: 'Modulation' },
		dummy: { key: 'dummy_aerial', label: 'Dummy aerial below and above 1.7 MHz' },
		repeat: { key: 'repeat', label: 'Repeat until nothing moves' }
	},
	formulaText: [
		'AM: last IF can, first IF can, trap; then on each band oscillator low end, oscillator high end, aerial; repeat',
		'FM: detector, IF back to the mixer, front end; FM before AM where cans are shared'
	],
	refuse({ from, to, shortLow, shortHigh }) {
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
		...set
	}) {
		const mw = mwMarks(from, to);
		const marks: readonly Marks[] = [
			mw,
			{ band: 'SW', low: shortLow, high: shortHigh },
			{ band: 'LW', ...LW_MARKS }
		];
		const present = marks.filter((one) => bands.some((name) => name === one.band));
		const am = band !== 'FM';
		const rows: AlignmentRow[] = [
			...(band === 'AM' ? [] : fmRows(fmIntermediate, set.detector ?? 'ratio detector')),
			...(am ? [...amIfRows(intermediate), ...present.flatMap(amBandRows)] : [])
		];
		const shown = am && bands.includes('MW');
		return {
			rows: rows.map(numbered),
			warnings: set.chassis === 'isolated' ? WARNINGS : [LIVE, ...WARNINGS],
			low: shown ? mw.low : undefined,
			high: shown ? mw.high : undefined,
			// Lists are in the unit of their key.
			coupling: am ? [10, 50] : undefined,
			modulation: am ? '400 Hz, 30 %' : 'none',
			dummy: am ? [DUMMY_BELOW, DUMMY_ABOVE] : undefined,
			repeat: true
		};
	},
	summary: ['Go through the rows in order, and again until nothing moves.'],
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
	sources: [tunerManual, couplingManual, dummyAerial, fmFirst, marksRule],
	checks: [
		{
			id: 'alignment-order/1',
			given: { band: 'AM' },
			gives: {
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
			given: { band: 'AM', IF_kHz: 455 },
			gives: { coupling_nF: [10, 50], modulation: '400 Hz, 30 %' },
			withinPct: 0,
			basis: 'published',
			source: couplingManual
		},
		{
			id: 'alignment-order/3',
			given: { band: 'AM' },
			gives: { dummy_aerial: ['200 pF', '400 ohm'] },
			withinPct: 0,
			basis: 'published',
			source: dummyAerial
		},
		{
			id: 'alignment-order/a dial from 540 to 1300 kHz',
			given: { band: 'AM', f_min_kHz: 540, f_max_kHz: 1300, chassis: 'isolated' },
			gives: { low_kHz: 600, high_kHz: 1224 },
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
