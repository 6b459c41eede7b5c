import { describe, expect, test } from 'vitest';
import { runCalculation } from '../../../src/lib/calculations/index.ts';

function answerOf(id: string, given: Record<string, unknown>) {
	const answer = runCalculation(id, given);
	if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join('; '));
	return answer;
}

function problemsOf(id: string, given: Record<string, unknown>) {
	const answer = runCalculation(id, given);
	if (answer.ok) throw new Error(`${id} took ${JSON.stringify(given)}`);
	return answer.problems;
}

describe('what goes in', () => {
	test('4k7 and +12 V are read as the trade writes them, and echoed', () => {
		const answer = answerOf('resistor-drop', { R_ohm: '4k7', V: '+12 V' });
		expect(answer.given).toEqual({ R_ohm: '4.7 kΩ', V: '12 V' });
		expect(answer.outputs['I_A']).toBeCloseTo(0.0025532, 6);
	});

	test.each([
		['2M2', '47n', '2.2 MΩ', '47 nF'],
		['470 K', '0,05', '470 kΩ', '50 nF'],
		['4k7 Ω', '4,7 µ', '4.7 kΩ', '4.7 µF'],
		['4R7', '4u7', '4.7 Ω', '4.7 µF'],
		['.5 meg', '.05 mfd', '500 kΩ', '50 nF']
	])('%s and %s are read as %s and %s', (R_ohm, C_uF, resistor, capacitor) => {
		expect(answerOf('time-constant', { R_ohm, C_uF }).given).toEqual({ R_ohm: resistor, C_uF: capacitor });
	});

	test('levels may come by name: an aerial and an IF grid', () => {
		const answer = answerOf('stage-gain', { level_uV: { aerial: 3, 'third IF grid': '60 mV' } });
		expect(answer.given).toEqual({ level_uV: 'aerial 3 µV; third IF grid 60 mV' });
		expect(answer.outputs['gain']).toBe(20000);
		const typed = answerOf('stage-gain', {
			level_uV: '2nd mixer grid 25 µV; IF input: 800; IF grid 850; 360 mV'
		});
		expect(typed.given).toEqual({
			level_uV: '2nd mixer grid 25 µV; IF input 0.8 mV; IF grid 0.85 mV; 0.36 V'
		});
		expect(typed.outputs).toMatchObject({
			gain_mixer: 32,
			stages: [{}, {}, { stage: 'IF grid to place 4' }]
		});
		expect(answerOf('stage-gain', { level_uV: '25 uV; 1 mV' }).outputs['gain']).toBe(40);
		expect(problemsOf('stage-gain', { level_uV: { aerial: 3, 'IF grid': -1 } })[0]?.message).toContain(
			'level_uV'
		);
		expect(problemsOf('heater-chain', { V: { a: 6.3 }, I_A: 0.3, V_mains: 20 })[0]?.key).toBe('V');
	});

	test('a large internal resistance is as good as none, and only where it may be', () => {
		const valve = { P_W: 0.05, R_a_ohm: 3500, gm_mA_V: 7 };
		const { outputs, given } = answerOf('stage-gain', { ...valve, r_a_ohm: 'large' });
		expect(outputs).toEqual(answerOf('stage-gain', valve).outputs);
		expect(given['r_a_ohm']).toBe('large');
		expect(problemsOf('resistor-drop', { R_ohm: 'large', V: 1 })[0]?.key).toBe('R_ohm');
	});

	test('plain digits in quotes are in the unit of their key', () => {
		const answer = answerOf('dial-frequencies', { f_signal_kHz: '1000', IF_kHz: '455 kc/s' });
		expect(answer.outputs).toMatchObject({ f_osc_kHz: 1455, f_image_kHz: 1910 });
	});

	test('megahertz in give megahertz out', () => {
		const { outputs } = answerOf('dial-frequencies', { f_signal_MHz: 98, IF_MHz: 10.7 });
		expect(outputs).toMatchObject({ f_osc_MHz: 108.7, f_image_MHz: 119.4 });
		expect(outputs).not.toHaveProperty('f_osc_kHz');
	});

	test.each([
		['a resistor of half an ohm', 'resistor-drop', { R_ohm: 0.5, V: 5 }, 'R_ohm', '1 Ω to 22 MΩ'],
		['2000 V', 'resistor-drop', { R_ohm: 1000, V: 2000 }, 'V', '0 V to 1,000 V'],
		[
			'milliamps where volts are wanted',
			'resistor-drop',
			{ R_ohm: 1000, V: '12 mA' },
			'V',
			'volts are wanted'
		],
		['two points', 'resistor-drop', { R_ohm: 1000, V: '12..5' }, 'V', '12.5'],
		['a list of lists', 'resistor-drop', { R_ohm: 1000, V: [[1]] }, 'V', 'wants a number'],
		['a name slightly wrong', 'resistor-drop', { R_ohms: 1000, V: 1 }, 'R_ohms', 'Did you mean R_ohm'],
		['no resistor at all', 'resistor-drop', { V: 1 }, 'R_ohm', 'R_ohm, to go by volts across the part'],
		['no grid leak', 'grid-leakage', { V_grid: 1 }, 'R_grid_ohm', 'R_grid_ohm'],
		[
			'insulation and measured volts at once',
			'grid-leakage',
			{ V_feed: 90, R_leak_ohm: 1e7, V_grid: 1, R_grid_ohm: 1e6 },
			'V_grid',
			'Leave one of them out'
		],
		[
			'a grid above its feed',
			'grid-leakage',
			{ V_feed: 20, V_grid: 30, R_grid_ohm: 1e6 },
			'V_grid',
			'measure both points again'
		],
		[
			'a meter known twice',
			'meter-loading',
			{ V_read: 1, R_source_ohm: 1e5, R_meter_ohm: 1e6, range_V: 10, ohm_per_volt: 1000 },
			'R_meter_ohm',
			'Leave one of them out'
		],
		[
			'a divider and a source',
			'meter-loading',
			{ V_supply: 9, R_top_ohm: 1e5, R_bottom_ohm: 1e5, R_meter_ohm: 1e6, R_source_ohm: 5 },
			'R_source_ohm',
			'Leave one of them out'
		],
		[
			'an anode below its cathode',
			'valve-operating-point',
			{ V_k: 20, R_k_ohm: 1000, V_a: 10 },
			'V_a',
			'Measure V_a'
		],
		[
			'volts to chassis without the cathode',
			'valve-operating-point',
			{ I_a_A: 0.01, V_a: 200 },
			'V_k',
			'Give V_k'
		],
		[
			'anode volts twice',
			'valve-operating-point',
			{ V_k: 2, R_k_ohm: 100, V_a: 200, V_ak: 198 },
			'V_a',
			'Leave one out'
		],
		[
			'more screen than cathode current',
			'valve-operating-point',
			{ V_k: 2, R_k_ohm: 1000, I_g2_A: 0.01 },
			'I_g2_A',
			'more than the whole'
		],
		[
			'an oscillator below a low signal',
			'dial-frequencies',
			{ f_signal_kHz: 600, IF_kHz: 455, side: 'below' },
			'side',
			'above'
		],
		[
			'half a harmonic',
			'dial-frequencies',
			{ f_signal_kHz: 900, IF_kHz: 455, harmonics: 2.5 },
			'harmonics',
			'Give 2, 3 or 4'
		],
		[
			'a dial the wrong way round',
			'dial-frequencies',
			{ f_min_kHz: 1600, f_max_kHz: 500, IF_kHz: 455 },
			'f_max_kHz',
			'low end'
		],
		[
			'kilohertz and megahertz of one signal',
			'dial-frequencies',
			{ f_signal_kHz: 1000, f_signal_MHz: 1, IF_kHz: 455 },
			'f_signal_MHz',
			'Give one of them'
		],
		[
			'a band that nobody has',
			'alignment-order',
			{ band: 'AM', bands: ['UHF'] },
			'bands',
			'"MW" or "SW" or "LW"'
		],
		['one end of a dial', 'alignment-order', { band: 'AM', f_min_kHz: 530 }, 'f_max_kHz', 'or neither'],
		[
			'lists of different length',
			'resistor-drop',
			{ R_ohm: [1, 2], V: [1, 2, 3] },
			'V',
			'R_ohm has 2 entries and V has 3'
		],
		['an empty list', 'resistor-drop', { R_ohm: 100, V: [] }, 'V', 'empty list'],
		[
			'1e30 V',
			'resistor-drop',
			{ R_ohm: 100, V: '1e30' },
			'V',
			'V is nothing that a set has. This sum holds from'
		],
		['a resistor of 1e-30 ohm', 'resistor-drop', { R_ohm: 1e-30, V: 1 }, 'R_ohm', 'nothing that a set has'],
		['minus 4k7', 'resistor-drop', { R_ohm: '-4k7', V: 1 }, 'R_ohm', 'R_ohm is −4.7 kΩ'],
		['a small m on a resistor', 'resistor-drop', { R_ohm: '2m2', V: 1 }, 'R_ohm', 'Which is meant?'],
		['1,000', 'resistor-drop', { R_ohm: '1,000', V: 1 }, 'R_ohm', 'Which is meant?']
	])('%s is refused with the key and the cure', (_, id, given, key, part) => {
		const problem = problemsOf(id, given).find((one) => one.key === key);
		expect(problem?.message).toContain(part);
	});

	test('an unknown calculation is answered with the nearest', () => {
		expect(problemsOf('grid-leak', {})[0]?.message).toContain('Did you mean grid-leakage');
		expect(problemsOf('zzz', {})[0]?.message).toContain('resistor-drop, grid-leakage');
		expect(problemsOf('toString', {})[0]?.key).toBe('id');
	});

	test('several problems are told at once', () => {
		expect(problemsOf('resistor-drop', { R_ohm: 0, V: 5000 }).map(({ key }) => key)).toEqual(['R_ohm', 'V']);
	});
});

describe('what comes out', () => {
	test('of several judgements the worst is the verdict, and it speaks first', () => {
		const answer = answerOf('resistor-drop', { R_ohm: 1200, V: 87, V_service: 60, P_rated_W: 4 });
		expect(answer.judgements.map(({ verdict }) => verdict)).toEqual(['overloaded', 'watch']);
		expect(answer.verdict).toBe('overloaded');
		expect(answer.sentence).toMatch(
			/^The part carries 158 % of its rating: it is overloaded\. The current is 45 % above/
		);
	});

	test('without a rating or a sheet there is no verdict', () => {
		expect(answerOf('resistor-drop', { R_ohm: 1000, V: 10 })).not.toHaveProperty('verdict');
	});

	test('current beyond a dropper well above the sheet leads to the coupling capacitor', () => {
		const { next } = answerOf('resistor-drop', { R_ohm: 1200, V: 95, V_service: 60 });
		expect(next[0]).toContain('coupling capacitor');
	});

	test('a reading on the edge belongs to the worse band: 0.1 V on a grid is watched, 0.5 V still', () => {
		const verdictAt = (V_grid: number) => answerOf('grid-leakage', { V_grid, R_grid_ohm: 470e3 }).verdict;
		expect([0, 0.099, 0.1, 0.5, 0.51, 2, 2.01].map(verdictAt)).toEqual([
			'ok',
			'ok',
			'watch',
			'watch',
			'bad',
			'bad',
			'switch-off'
		]);
	});

	test('of a list of ranges the worst reading speaks', () => {
		const answer = answerOf('meter-loading', {
			V_read: 85,
			range_V: [250, 300],
			ohm_per_volt: [1000, 20000],
			R_source_ohm: 220e3
		});
		expect(answer.verdict).toBe('correct');
		expect(answer.outputs).toMatchObject({ R_source_ohm: 220e3, R_meter_ohm: [250e3, 6e6] });
	});

	test('where one row of a list has no figure its place stays open', () => {
		const { outputs } = answerOf('grid-leakage', { V_feed: 90, V_grid: [-1, 1], R_grid_ohm: 1e6 });
		expect(outputs['R_leak_ohm']).toEqual([null, 89e6]);
	});
});

describe('the order of alignment', () => {
	type Row = { circuit: string; adjust: string; coupling: string; frequency: string };
	const rowsOf = (given: Record<string, unknown>) =>
		answerOf('alignment-order', given).outputs['rows'] as Row[];
	const places = (given: Record<string, unknown>) => rowsOf(given).map(({ circuit }) => circuit);

	test('on short waves the trimmer at the high end comes before the core', () => {
		const circuits = places({ band: 'AM', bands: ['SW'] });
		expect(circuits.indexOf('SW oscillator, high end')).toBeLessThan(
			circuits.indexOf('SW oscillator, low end')
		);
	});

	test('long waves come last, whatever the order given', () => {
		expect(places({ band: 'AM', bands: ['LW', 'MW', 'SW'] }).at(-1)).toBe('LW, repeat');
	});

	test('FM windings come before AM windings in shared cans', () => {
		const circuits = places({ band: 'AM and FM' });
		expect(circuits.indexOf('FM IF back to the mixer')).toBeLessThan(circuits.indexOf('last IF can'));
	});

	test('the secondary of a ratio detector is set to zero, not to maximum', () => {
		const row = rowsOf({ band: 'FM' }).find(({ circuit }) => circuit === 'ratio detector secondary');
		expect(row?.adjust).toContain('zero');
		expect(row?.frequency).toBe('10.7 MHz');
	});

	test('the dummy aerial is 200 pF on medium waves and 400 ohm on short waves', () => {
		const rows = rowsOf({ band: 'AM', bands: ['MW', 'SW'], SW_low_MHz: 6, SW_high_MHz: 17 });
		const at = (name: string) => rows.find(({ circuit }) => circuit === name)?.coupling;
		expect(at('MW aerial, high end')).toContain('200 pF');
		expect(at('SW aerial, low end')).toContain('400 ohm');
	});

	test('an IF that was not given is left to the service sheet', () => {
		expect(rowsOf({ band: 'AM' })[0]?.frequency).toContain('service sheet');
		expect(rowsOf({ band: 'AM', IF_kHz: 470 })[0]?.frequency).toBe('470 kHz');
	});

	test('the last warning is to mark each core first, and a chassis not known to be isolated counts as live', () => {
		const warnings = answerOf('alignment-order', { band: 'AM' }).outputs['warnings'] as string[];
		expect(warnings.at(-1)).toContain('mark each core before it is touched');
		expect(warnings[0]).toContain('isolating transformer');
		const isolated = answerOf('alignment-order', { band: 'AM', chassis: 'isolated' }).outputs[
			'warnings'
		] as string[];
		expect(isolated.join()).not.toContain('isolating transformer');
	});
});
