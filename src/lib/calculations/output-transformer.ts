import { defineCalculation } from './define.ts';
import { choice, number, optional } from './inputs.ts';
import { commonPractice, FOSSEE, fromMemory, OWN_NUMBERS, published } from './sources.ts';

const njunis = published('tubes.njunis.net p=398: impedance as the square of the ratio, two worked examples');
const el84Load = published(
	'EL84 data sheet, Philips, pages 1 to 6: 5.2 kohm, or 4.5 kohm with little less power'
);
const valveLoads = fromMemory('loads of the other output valves, from usual data sheets');
const loadBand = commonPractice('load within 30 % of the data sheet');
const windings = published(
	'primary resistances read on sets: about 100, 225, 190 + 170, 370 and 650 ohm (philcoradio.com threads 2923 and 6438; nostalgiaair.org t37253, t54842; diyaudio.com 287450)'
);
const windingBand = commonPractice(
	'primary 100 to 700 ohm, as on the sets read; less than half of that or ten times as much is taken for a fault'
);
const soldIn1955 = published(
	'replacement transformers sold in Britain in 1955: 5000, 7000 to 8000 and 10000 ohm to 3 ohm, multi-ratio 30, 45, 60, 90 to 1 (trade advertisement, scribd.com 312548255)'
);

/** Load that each valve wants, ohm: the middle where a range is known. EL84 from its sheet, the others from memory. */
const LOADS = {
	EL84: 5200,
	'EL41, 6AQ5, 6V6': 6000,
	UL84: 2400,
	ECL82: 5600,
	'50L6, 50C5': 2250,
	'3Q4, DL9x': 9000
} as const;
type Valve = keyof typeof LOADS;
const VALVES = Object.keys(LOADS) as [Valve, ...Valve[]];

/** Share of the power that the windings keep: their resistance seen at the primary, of the load. */
function copperLoss(primary: number | undefined, secondary: number | undefined, ratio: number, load: number) {
	if (primary === undefined || secondary === undefined) return undefined;
	const loss = (primary + ratio ** 2 * secondary) / load;
	// An open primary keeps everything: that is a verdict of its own, not a share.
	return loss < 1 ? 100 * loss : undefined;
}

/**
 * Ratio and load of an output transformer, what its windings keep, and whether they are plausible.
 *
 *     N = sqrt(Z_p / Z_s) = V_p / V_s
 *     Z_p = N^2 * Z_s                           ohm
 *     P = V_out^2 / Z_s                         W
 *     loss = (R_pri + N^2 * R_sec) / Z_p
 *
 * Holds in the middle of the audio range, with the loudspeaker connected.
 */
export const outputTransformer = defineCalculation({
	id: 'output-transformer',
	title: 'Output transformer',
	question: 'What ratio has this output transformer, and does it suit valve and loudspeaker?',
	group: 'Signal and audio',
	words: [
		'loudspeaker',
		'turns',
		'impedance',
		'matching',
		'primary',
		'secondary',
		'shorted turns',
		'speaker impedance',
		'loudspeaker transformer',
		'transformer ratio',
		'ohms'
	],
	inputs: {
		primary: optional(number('Z_p_ohm', 'load wanted by the valve', 10, 100e3)),
		speaker: optional(number('Z_s_ohm', 'impedance of the loudspeaker', 0.5, 2000)),
		ratio: optional(number('ratio', 'ratio, to 1', 0.5, 500)),
		primaryTest: optional(number('V_primary_test', 'AC on the primary in the test', 0.01, 300)),
		secondaryTest: optional(number('V_secondary', 'AC then on the secondary', 1e-3, 300)),
		valve: optional(choice('valve', 'output valve', VALVES)),
		dataLoad: optional(number('Z_data_ohm', 'load by the data sheet', 100, 50e3)),
		primaryResistance: optional(number('R_pri_ohm', 'primary, DC resistance', 0, 100e6)),
		secondaryResistance: optional(number('R_sec_ohm', 'secondary, DC resistance', 0, 1000)),
		outputVolts: optional(number('V_out', 'AC on the loudspeaker', 0, 200))
	},
	ways: [
		{
			title: 'the ratio wanted',
			needs: ['primary', 'speaker'],
			also: ['primaryResistance', 'valve', 'dataLoad', 'secondaryResistance', 'outputVolts']
		},
		{
			title: 'a known ratio',
			needs: ['ratio', 'speaker'],
			also: ['primaryResistance', 'valve', 'dataLoad', 'secondaryResistance', 'outputVolts']
		},
		{
			title: 'a test with low AC volts',
			needs: ['primaryTest', 'secondaryTest'],
			also: ['speaker', 'primaryResistance', 'valve', 'dataLoad', 'secondaryResistance', 'outputVolts']
		},
		{ title: 'the primary with an ohmmeter', needs: ['primaryResistance'] }
	],
	outputs: {
		ratio: { key: 'ratio', label: 'Ratio, to 1', digits: 4 },
		load: { key: 'Z_p_ohm', label: 'Load on the valve' },
		ofData: { key: 'load_of_data_pct', label: 'Load, share of the data sheet' },
		power: { key: 'P_W', label: 'Power in the loudspeaker' },
		loss: { key: 'loss_pct', label: 'Kept by the windings' },
		primaryResistance: { key: 'R_primary_ohm', label: 'Primary, DC resistance' }
	},
	formulaText: [
		'N = √(Z_p / Z_s) = V_p / V_s',
		'Z_p = N² × Z_s',
		'P = V_out² / Z_s',
		'loss = (R_pri + N² × R_sec) / Z_p'
	],
	refuse({ valve, dataLoad, outputVolts, speaker, secondaryResistance, primaryTest, secondaryTest }) {
		if (speaker !== undefined && (secondaryResistance ?? 0) >= speaker)
			return {
				key: 'R_sec_ohm',
				message:
					'R_sec_ohm is not below Z_s_ohm: the secondary is open, or it was another winding. Measure it again with the loudspeaker taken off.'
			};
		if (valve !== undefined && dataLoad !== undefined)
			return { key: 'Z_data_ohm', message: 'The load is given twice. Leave out Z_data_ohm or the valve.' };
		if (outputVolts !== undefined && speaker === undefined)
			return { key: 'Z_s_ohm', message: 'Z_s_ohm is missing: the power of V_out needs it. Give it.' };
		if (primaryTest === undefined || secondaryTest === undefined || secondaryTest <= 2 * primaryTest)
			return undefined;
		return {
			key: 'V_secondary',
			message: 'V_secondary is well above V_primary_test. Give the side of many turns as V_primary_test.'
		};
	},
	formula(given) {
		const { speaker, primaryResistance: resistance } = given;
		const measured =
			given.primaryTest && given.secondaryTest ? given.primaryTest / given.secondaryTest : undefined;
		const wanted = given.primary && speaker ? Math.sqrt(given.primary / speaker) : undefined;
		const ratio = given.ratio ?? measured ?? wanted;
		const load = given.primary ?? (ratio && speaker ? ratio ** 2 * speaker : undefined);
		const data = given.dataLoad ?? (given.valve && LOADS[given.valve]);
		return {
			ratio,
			load,
			ofData: load && data && (100 * load) / data,
			power: given.outputVolts && speaker && given.outputVolts ** 2 / speaker,
			loss: ratio && load ? copperLoss(resistance, given.secondaryResistance, ratio, load) : undefined,
			primaryResistance: resistance
		};
	},
	summary: [
		'The ratio is {ratio} to 1.',
		'The valve sees {load}.',
		'The loudspeaker takes {power}.',
		'The windings keep {loss} of the power.'
	],
	judge: [
		{
			by: 'ofData',
			bands: [
				{
					below: 70,
					verdict: 'low-load',
					says: 'The load is only {ofData} of the data sheet: distortion and loss, no danger.',
					source: loadBand
				},
				{ upTo: 130, verdict: 'ok', says: 'The load suits the valve.', source: loadBand },
				{
					verdict: 'high-load',
					says: 'The load is {ofData} of the data sheet: distortion and loss, no danger.',
					source: loadBand
				}
			]
		},
		{
			by: 'primaryResistance',
			bands: [
				{
					below: 50,
					verdict: 'shorted-turns',
					says: 'The primary has only {primaryResistance}: shorted turns are possible.',
					source: windingBand
				},
				{
					below: 100,
					verdict: 'watch',
					says: 'The primary has little resistance; compare it with the service sheet.',
					source: windingBand
				},
				{ upTo: 700, verdict: 'ok', says: 'The primary is within what sets have.', source: windingBand },
				{
					below: 7000,
					verdict: 'watch',
					says: 'The primary has more resistance than most; compare it with the service sheet.',
					source: windingBand
				},
				{ verdict: 'open', says: 'The primary is open, or nearly so.', source: windingBand }
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: [] },
		{ verdict: 'watch', next: ['the winding resistances on the service sheet'] },
		{
			verdict: 'high-load',
			title: 'Load too high',
			next: ['the impedance of the loudspeaker in use', 'the tap of the secondary in use']
		},
		{
			verdict: 'low-load',
			title: 'Load too low',
			next: ['the impedance of the loudspeaker in use', 'a second loudspeaker across the first']
		},
		{
			verdict: 'shorted-turns',
			title: 'Shorted turns possible',
			next: ['the ratio with low AC volts', 'the inductance, by a ring test', 'the heat after ten minutes']
		},
		{
			verdict: 'open',
			title: 'Open winding',
			next: [
				'the ends of the winding, for a broken lead',
				'the screen grid: it glows when the anode gets no volts'
			]
		}
	],
	cautions: [
		'Unplug, and prove the reservoir dead, before a winding is measured.',
		'A test from the secondary puts the ratio times as many volts on the primary: 6.3 V become 280 V at 45 to 1.'
	],
	pitfalls: [
		'Never run the set without its load.',
		'A loudspeaker of another impedance moves the load by the same factor.',
		'Hum-bucking and feedback windings count with the secondary.',
		'A loudspeaker has about 0.8 of its impedance as DC resistance (from memory).',
		'Primary open: the anode has no volts and the screen glows.'
	],
	sources: [njunis, el84Load, valveLoads, loadBand, windings, windingBand, soldIn1955],
	checks: [
		{
			id: 'output-transformer/1',
			given: { Z_p_ohm: 8000, Z_s_ohm: 8 },
			gives: { ratio: 31.62 },
			withinPct: 0.1,
			basis: 'published',
			source: njunis
		},
		{
			id: 'output-transformer/2',
			given: { ratio: 31.62, Z_s_ohm: 4 },
			gives: { Z_p_ohm: 3999 },
			withinPct: 0.1,
			basis: 'published',
			source: njunis
		},
		{
			id: 'output-transformer/3',
			given: { ratio: 20, Z_s_ohm: [8, 50] },
			gives: { Z_p_ohm: [3200, 20000] },
			withinPct: 0.1,
			basis: 'published',
			source: published('diyaudio.com thread 172659')
		},
		{
			id: 'output-transformer/4',
			given: { V_primary_test: 230, V_secondary: 5.5, Z_s_ohm: 3 },
			gives: { ratio: 41.8, Z_p_ohm: 5246 },
			withinPct: 0.3,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'output-transformer/5',
			given: { Z_p_ohm: 5000, Z_s_ohm: 8 },
			gives: { ratio: 25 },
			withinPct: 0.1,
			basis: 'published',
			source: published(`Kulshreshtha, electronics textbook (title not checked), ex. E1, p. 328; ${FOSSEE}`)
		},
		{
			id: 'output-transformer/6',
			given: { Z_p_ohm: 648, Z_s_ohm: 8 },
			gives: { ratio: 9 },
			withinPct: 0.1,
			basis: 'published',
			source: published(`Bakshi and Godse, electronics textbook (title not checked), ex. 6.3; ${FOSSEE}`)
		},
		{
			id: 'output-transformer/7',
			given: { Z_p_ohm: 325, Z_s_ohm: 13 },
			gives: { ratio: 5 },
			withinPct: 0.1,
			basis: 'published',
			source: published(`Mehta and Mehta, Principles of Electronics, ex. 12.14; ${FOSSEE}`)
		},
		{
			id: 'output-transformer/EL84 into 5 ohm through 32 to 1',
			given: { ratio: 32, Z_s_ohm: 5, valve: 'EL84', R_pri_ohm: 370, R_sec_ohm: 0.4, V_out: 3 },
			gives: { Z_p_ohm: 5120, load_of_data_pct: 98.46, P_W: 1.8, loss_pct: 15.23 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'output-transformer/two loudspeakers side by side',
			given: { ratio: 32, Z_s_ohm: 2.5, valve: 'EL84' },
			gives: { Z_p_ohm: 2560, load_of_data_pct: 49.23 },
			verdict: 'low-load',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'output-transformer/8 ohm loudspeaker in the place of 3',
			given: { ratio: 45, Z_s_ohm: 8, Z_data_ohm: 6000 },
			gives: { Z_p_ohm: 16200, load_of_data_pct: 270 },
			verdict: 'high-load',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'output-transformer/primary of 30 ohm',
			given: { R_pri_ohm: 30 },
			gives: { R_primary_ohm: 30 },
			verdict: 'shorted-turns',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'output-transformer/primary of 80 ohm',
			given: { R_pri_ohm: 80 },
			gives: { R_primary_ohm: 80 },
			verdict: 'watch',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'output-transformer/primary open',
			given: { R_pri_ohm: '2M' },
			gives: { R_primary_ohm: 2e6 },
			verdict: 'open',
			withinPct: 0,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
