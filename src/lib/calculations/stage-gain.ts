import { defineCalculation, type NamedValue, parallel } from './define.ts';
import { choice, namedNumbers, number, optional } from './inputs.ts';
import { arithmetic, commonPractice, FOSSEE, fromMemory, OWN_NUMBERS, published } from './sources.ts';

const valveLaw = published(
	'gain of a triode, mu × R / (r_a + R): standardowe.pl, parametry lamp elektronowych; of a pentode, g_m × (r_a ∥ R): bbs.hifidiy.net thread 309122'
);
const tunedLaw = arithmetic('gain of a tuned stage from the coupled circuits, confirmed with ngspice');
const typical = fromMemory(
	'levels for 50 mW of a five-valve mains superhet, within a factor of three; published ratios of other sets, 32 for a mixer and 424 between two IF grids, fall within it'
);
const levelBands = commonPractice('level needed against the usual: 3 and 10 times');
const stageBands = commonPractice('gain of a stage against what it should give: half');
const conditions = published(
	'30 % modulation at 400 c/s, dummy capacitor to the aerial, 10 mW into 600 ohm: US Army receiver manual p. 78, manualshelf.com; 50 mW into 3 ohm: communications-receiver maker’s test data, ijl.mbnet.fi'
);
const makersLevels = published(
	'communications-receiver maker’s representative test data, ijl.mbnet.fi/117man10.html'
);
const militaryLevels = published('AN 08-10-112 section V, yb0ah.tripod.com');
const birdDecibels = published(
	`J. Bird, Electrical Circuit Theory and Technology, problems 10.15 and 10.16; ${FOSSEE}`
);

/** Volts RMS needed for 50 mW, from and to. From memory. */
const LEVELS = {
	'output grid, pentode': { from: 0.2, to: 0.6 },
	'output grid, triode': { from: 1, to: 3 },
	'top of the volume control': { from: 5e-3, to: 20e-3 },
	'IF grid, at the IF': { from: 1e-3, to: 5e-3 },
	'mixer grid, at the IF': { from: 20e-6, to: 60e-6 },
	'mixer grid, at 1 MHz': { from: 30e-6, to: 100e-6 },
	'aerial through its dummy, at 1 MHz': { from: 10e-6, to: 100e-6 }
} as const;
type Place = keyof typeof LEVELS;
const PLACES = Object.keys(LEVELS) as [Place, ...Place[]];

const decibels = (ratio: number): number => 20 * Math.log10(ratio);

/** From which place to which, by their names where they have any. */
function stageName(levels: readonly NamedValue[], i: number): string {
	const [from, to] = [levels[i]?.name, levels[i + 1]?.name];
	if (from === undefined && to === undefined) return `place ${i + 1} to ${i + 2}`;
	return `${from ?? `place ${i + 1}`} to ${to ?? `place ${i + 2}`}`;
}

/** Gain from each place to the next, from the levels that give the same output. */
function stepsOf(levels: readonly NamedValue[]) {
	return levels.slice(1).map(({ value }, i) => {
		const gain = value / (levels[i]?.value ?? value);
		return { stage: stageName(levels, i), gain: Number(gain.toPrecision(4)), dB: decibels(gain) };
	});
}

/** The stage that begins at a place of such a name: its gain to the next place. */
function stageFrom(levels: readonly NamedValue[], place: RegExp): number | undefined {
	const at = levels.findIndex(({ name }, i) => i < levels.length - 1 && place.test(name ?? ''));
	const [here, next] = [levels[at]?.value, levels[at + 1]?.value];
	return here && next && next / here;
}

interface Stage {
	mu: number | undefined;
	slope: number | undefined;
	internal: number | undefined;
	load: number | undefined;
	next: number | undefined;
	impedance: number | undefined;
	kq: number | undefined;
}

/** Gain by slope and load; `slope` is the conversion slope where the stage is a mixer. */
function gainOf({ mu, slope, internal, load, next, impedance, kq = 1 }: Stage): number | undefined {
	if (slope && impedance) return (slope * impedance * kq) / (1 + kq ** 2);
	if (!load) return undefined;
	const whole = parallel(load, next);
	if (mu && internal) return (mu * whole) / (whole + internal);
	return slope && slope * parallel(whole, internal);
}

/** Grid volts that an output valve needs for `power` into its load. */
function driveFor(power: number, load: number, slope: number, internal: number | undefined): number {
	return (Math.sqrt(power / load) * (1 + load / (internal ?? Infinity))) / slope;
}

/**
 * Gain of a stage by moving the generator, by volts, or by slope and load; and whether the level needed is plausible.
 *
 *     gain = V_out / V_in,  dB = 20 log10(gain)
 *     triode: mu R / (R + r_a),  pentode: g_m (R || r_a),  tuned: g_m Z y / (1 + y^2)
 *     V_in = sqrt(P / R_a) (1 + R_a / r_a) / g_m         V RMS at an output grid
 *     by moving the generator: gain = level at the later grid / level at the earlier, for the same output
 *
 * All RMS, the same frequency and modulation (400 Hz, 30 %), AVC clamped.
 */
export const stageGain = defineCalculation({
	id: 'stage-gain',
	title: 'Gain of a stage',
	question: 'With the generator here I need so much for the same output: is that stage weak?',
	group: 'Signal and audio',
	words: [
		'sensitivity',
		'microvolts',
		'50 mW',
		'decibel',
		'injection',
		'generator',
		'weak',
		'amplification',
		'weak stations',
		'weak stage',
		'gain low',
		'signal injection',
		'aerial volts'
	],
	inputs: {
		input: optional({
			...number('V_in', 'signal at the input', 1e-8, 100),
			alsoKeys: ['V_in_mV', 'V_in_uV']
		}),
		output: optional(number('V_out', 'signal at the output', 1e-8, 1000)),
		power: optional(number('P_W', 'output power (standard 50 mW)', 1e-6, 100)),
		resistance: optional(number('R_ohm', 'load of that power', 0.5, 100e3)),
		anodeLoad: optional(number('R_a_ohm', 'load of the output valve', 100, 100e3)),
		slope: optional(number('gm_mA_V', 'slope, of a mixer the conversion slope', 10e-6, 50e-3)),
		internal: optional({ ...number('r_a_ohm', 'internal resistance', 100, 20e6), large: true }),
		mu: optional(number('mu', 'amplification factor of the triode', 1, 200)),
		load: optional(number('R_load_ohm', 'anode load', 100, 10e6)),
		next: optional(number('R_next_ohm', 'grid leak of the next stage', 1e3, 50e6)),
		impedance: optional(number('Z_ohm', 'impedance of the tuned circuits', 100, 5e6)),
		kq: optional(number('kQ', 'coupling, times the critical one', 0.05, 10)),
		levels: optional(
			namedNumbers('level_uV', 'levels for the same output, in the order of the signal', 1e-8, 100, {
				least: 2
			})
		),
		place: optional(choice('at', 'where the generator sits', PLACES)),
		needed: optional({
			...number('needed_mV', 'level needed there for 50 mW', 1e-8, 100),
			alsoKeys: ['needed_uV']
		}),
		expected: optional(number('gain_expected', 'gain that it should have', 0.01, 1e6)),
		decibelsPower: optional(number('dB_power', 'power gain', -200, 200)),
		powerIn: optional(number('P_in_W', 'power that goes in', 1e-15, 1000)),
		decibelsVoltage: optional(number('dB_voltage', 'voltage gain', -200, 200))
	},
	ways: [
		{ title: 'the level needed at a place', needs: ['place', 'needed'] },
		{ title: 'levels at several places, for the same output', needs: ['levels'], also: ['expected'] },
		{ title: 'volts in and out', needs: ['input', 'output'], also: ['expected'] },
		{ title: 'an output valve', needs: ['power', 'anodeLoad', 'slope'], also: ['internal'] },
		{ title: 'watts into a load', needs: ['power', 'resistance'] },
		{ title: 'a triode with its load', needs: ['mu', 'internal', 'load'], also: ['next', 'expected'] },
		{ title: 'a pentode with its load', needs: ['slope', 'load'], also: ['internal', 'next', 'expected'] },
		{ title: 'a tuned stage', needs: ['slope', 'impedance'], also: ['kq', 'expected'] },
		{ title: 'decibels of power', needs: ['decibelsPower', 'powerIn'], also: ['decibelsVoltage', 'output'] },
		{ title: 'decibels of volts', needs: ['decibelsVoltage', 'output'] }
	],
	outputs: {
		gain: { key: 'gain', label: 'Gain' },
		decibels: { key: 'dB', label: 'Gain in decibels' },
		steps: {
			key: 'stages',
			label: 'From place to place',
			columns: { stage: 'Stage', gain: 'Gain', dB: 'In decibels' }
		},
		ofMixer: { key: 'gain_mixer', label: 'Gain of the mixer' },
		ofIf: { key: 'gain_IF', label: 'Gain of the IF stage' },
		ofIfDb: { key: 'gain_IF_dB', label: 'Gain of the IF stage in decibels' },
		outputVolts: { key: 'V_rms', label: 'Volts for that power', digits: 4 },
		drive: { key: 'V_in_rms', label: 'Grid volts for that power' },
		powerOut: { key: 'P_out_W', label: 'Power that comes out' },
		inputVolts: { key: 'V_in', label: 'Volts that go in', digits: 4 },
		usual: { key: 'usual_mV', label: 'Usual there, from and to' },
		times: { key: 'times_usual', label: 'Level needed, times the most that is usual' },
		share: { key: 'share_pct', label: 'Gain, share of what it should be' }
	},
	formulaText: [
		'gain = V_out / V_in,  dB = 20 × log10(gain),  dB of power = 10 × log10(P_out / P_in)',
		'V_rms = √(P × R)',
		'triode: mu × R / (R + r_a);  pentode: g_m × (R ∥ r_a);  R = R_load ∥ R_next',
		'tuned: g_m × Z × y / (1 + y²), y the coupling against the critical one',
		'output grid: V_in = √(P / R_a) × (1 + R_a / r_a) / g_m',
		'by moving the generator: gain = level at the later place / level at the earlier one'
	],
	refuse({ levels }) {
		if (!levels) return undefined;
		const falls = levels.findIndex(({ value }, i) => i > 0 && value < (levels[i - 1]?.value ?? 0) / 10);
		if (falls < 0) return undefined;
		return {
			key: 'level_uV',
			message: `level_uV falls to less than a tenth with entry ${falls + 1}. Write the levels from the aerial on: the later the place, the more is needed.`
		};
	},
	formula(given) {
		const { place, needed, levels, input, output, power, expected } = given;
		if (place && needed) {
			const { from, to } = LEVELS[place];
			return { usual: [from, to], times: needed / to };
		}
		const judged = (gain: number | undefined) => ({
			gain,
			decibels: gain && decibels(gain),
			share: gain && expected && (100 * gain) / expected
		});
		if (levels) {
			const [first = 1, last = 1] = [levels[0]?.value, levels.at(-1)?.value];
			const ofIf = stageFrom(levels, /^IF grid/i);
			return {
				...judged(last / first),
				steps: levels.length > 2 ? stepsOf(levels) : undefined,
				ofMixer: stageFrom(levels, /mixer/i),
				ofIf,
				ofIfDb: ofIf && decibels(ofIf)
			};
		}
		if (input && output) return judged(output / input);
		if (power && given.anodeLoad && given.slope)
			return { drive: driveFor(power, given.anodeLoad, given.slope, given.internal) };
		if (power && given.resistance) return { outputVolts: Math.sqrt(power * given.resistance) };
		const { decibelsPower, powerIn, decibelsVoltage } = given;
		if (decibelsPower === undefined && decibelsVoltage === undefined) return judged(gainOf(given));
		return {
			powerOut: decibelsPower !== undefined && powerIn ? powerIn * 10 ** (decibelsPower / 10) : undefined,
			inputVolts: decibelsVoltage !== undefined && output ? output / 10 ** (decibelsVoltage / 20) : undefined
		};
	},
	summary: [
		'The gain is {gain}, {decibels}.',
		'That power stands as {outputVolts} across its load.',
		'The grid needs {drive}.',
		'{powerOut} comes out.',
		'{inputVolts} has to go in.'
	],
	judge: [
		{
			by: 'times',
			bands: [
				{
					upTo: 3,
					verdict: 'plausible',
					says: 'The level is plausible there: what follows has its gain. Figures from memory, within a factor of three.',
					source: levelBands
				},
				{
					upTo: 10,
					verdict: 'look-there',
					says: 'The level is {times} times the most that is usual there: look between here and the last good place.',
					source: levelBands
				},
				{
					verdict: 'fault',
					says: 'The level is {times} times the most that is usual there: the fault lies between here and the last good place.',
					source: levelBands
				}
			]
		},
		{
			by: 'share',
			bands: [
				{
					below: 50,
					verdict: 'weak-stage',
					says: 'The stage gives {share} of its gain: it is weak.',
					source: stageBands
				},
				{ verdict: 'plausible', says: 'The stage gives its gain.', source: stageBands }
			]
		}
	],
	verdicts: [
		{ verdict: 'plausible', next: ['one place further towards the aerial'] },
		{
			verdict: 'look-there',
			title: 'Look there',
			next: ['AVC clamped? the same levels again', 'the volts of that stage']
		},
		{
			verdict: 'weak-stage',
			title: 'A weak stage',
			next: ['the valve, against a good one', 'its screen and cathode volts', 'its tuning']
		},
		{
			verdict: 'fault',
			title: 'A fault from here on',
			next: ['the volts of the stage that follows this place', 'its coupling parts and windings, unplugged']
		}
	],
	cautions: [
		'A generator is clipped to a live chassis only through an isolating transformer.',
		'Grids and anodes are reached with the set live: one hand, insulated probe.'
	],
	pitfalls: [
		'Attenuators of cheap generators lie by 10 dB: use ratios at one setting.',
		'AVC falsifies every level above about 100 µV: clamp it.',
		'Inject through 10 nF, and keep the DC path of the grid.',
		'A generator of 50 Ω damps the grid circuit: the gain of the tuned circuit before it is lost, and that is wanted.',
		'A mixer takes 2 to 4 times more at the signal frequency than at the IF (from memory).',
		'Grid to grid, AVC low, RF stages were built for about 75, 25 or 10, the more gangs the less (radioexperimenter.us).'
	],
	sources: [valveLaw, tunedLaw, typical, levelBands, stageBands, conditions, makersLevels, militaryLevels],
	checks: [
		{
			id: 'stage-gain/1',
			given: { V_in: 0.1, V_out: [1, 10] },
			gives: { dB: [20, 40] },
			withinPct: 0,
			basis: 'published',
			source: published('US Army TM 11-6625-353-35 (gain switch check), amplifiermanuals.tpub.com')
		},
		{
			id: 'stage-gain/2',
			given: { P_W: 0.05, R_ohm: [3, 15, 5000] },
			gives: { V_rms: [0.3873, 0.866, 15.81] },
			withinPct: 0.1,
			basis: 'arithmetic (50 mW standard output)',
			source: OWN_NUMBERS
		},
		{
			id: 'stage-gain/3',
			given: { P_W: 0.05, R_a_ohm: 3500, gm_mA_V: 7, r_a_ohm: 'large' },
			gives: { V_in_rms: 0.54 },
			withinPct: 0.5,
			basis: 'published (7 mA/V; 0.5 V for 50 mW, 10 %); load 3.5 kohm from memory, r_a taken as large',
			source: published('tubeofile.com EL5 record (Philips sheet)')
		},
		{
			id: 'stage-gain/4',
			given: { P_W: 0.05, R_a_ohm: 5200, gm_mA_V: 11.3, r_a_ohm: 38000 },
			gives: { V_in_rms: 0.312 },
			withinPct: 1,
			basis: 'published valve constants and load, arithmetic drive',
			source: published('EL84 data sheet, Philips, pages 1 to 6: 11.3 mA/V, 38 kohm, 5.2 kohm')
		},
		{
			id: 'stage-gain/5',
			given: { mu: 100, r_a_ohm: 62500, R_load_ohm: 220e3, R_next_ohm: 1e6 },
			gives: { gain: 74.3 },
			withinPct: 0.5,
			basis: 'published valve constants, arithmetic gain',
			source: published('12AX7 mu 100, 62.5 kohm at ampbooks.com citing Radiotron Designer’s Handbook p. 484')
		},
		{
			id: 'stage-gain/6',
			given: { gm_mA_V: 2, Z_ohm: 200e3, kQ: 1 },
			gives: { gain: 200 },
			withinPct: 0.1,
			basis: 'formula gm*Z/2 at critical coupling, equal circuits',
			source: arithmetic('formula at critical coupling')
		},
		{
			id: 'stage-gain/7',
			given: {
				level_uV: { '2nd mixer grid': 25, 'IF input': 800, 'IF grid': 850, 'last IF grid': 360e3 }
			},
			gives: {
				gain_mixer: 32,
				gain_IF: 423.5,
				gain_IF_dB: 52.5,
				gain: 14400,
				stages: [
					{ stage: '2nd mixer grid to IF input', gain: 32 },
					{ stage: 'IF input to IF grid', gain: 1.0625 },
					{ stage: 'IF grid to last IF grid', gain: 423.5 }
				]
			},
			withinPct: 0.5,
			basis: 'published levels, arithmetic ratios',
			source: makersLevels
		},
		{
			id: 'stage-gain/the same levels without names',
			given: { level_uV: [25, 800, 850, 360e3] },
			gives: { gain: 14400, stages: [{ stage: 'place 1 to 2' }, {}, { stage: 'place 3 to 4', gain: 423.5 }] },
			withinPct: 0.5,
			basis: 'published levels, arithmetic ratios',
			source: makersLevels
		},
		{
			id: 'stage-gain/8',
			given: { level_uV: { aerial: 3, 'third IF grid': 60000 } },
			gives: { gain: 20000, dB: 86 },
			withinPct: 0.5,
			basis: 'published levels, arithmetic ratio (the aerial figure is an upper limit, so at least this)',
			source: militaryLevels
		},
		{
			id: 'stage-gain/9',
			given: { P_W: [0.001, 0.01], R_ohm: 600 },
			gives: { V_rms: [0.7746, 2.449] },
			withinPct: 0.1,
			basis: 'published (the manual rounds to 0.8 and 2.5 V, 4 %)',
			source: published('US Army receiver technical manual p. 78, manualshelf.com')
		},
		{
			id: 'stage-gain/10',
			given: { dB_power: 14, P_in_W: 0.008, dB_voltage: 27, V_out: 4 },
			gives: { P_out_W: 0.201, V_in: 0.1787 },
			withinPct: 0.3,
			basis: 'published (0.201 W, 0.179 V)',
			source: birdDecibels
		},
		{
			id: 'stage-gain/2 mV at the IF grid',
			given: { at: 'IF grid, at the IF', needed_mV: 2 },
			gives: { usual_mV: [1, 5], times_usual: 0.4 },
			verdict: 'plausible',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'stage-gain/400 µV at the mixer grid',
			given: { at: 'mixer grid, at the IF', needed_uV: 400 },
			gives: { times_usual: 6.667 },
			verdict: 'look-there',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'stage-gain/5 mV at the aerial',
			given: { at: 'aerial through its dummy, at 1 MHz', needed_mV: 5 },
			gives: { times_usual: 50 },
			verdict: 'fault',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'stage-gain/an audio triode that has lost its gain',
			given: { V_in: 0.02, V_out: 0.4, gain_expected: 50 },
			gives: { gain: 20, share_pct: 40 },
			verdict: 'weak-stage',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
