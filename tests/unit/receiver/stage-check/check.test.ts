import { describe, expect, test } from 'vitest';
import { checkStage, type StageQuestion } from '../../../../src/lib/receiver/stage-check/index.ts';
import { acDc, ifStage, mixer, output, supply, triode } from './stages.ts';

const firstOf = (question: StageQuestion) => checkStage(question).explanations[0];
const faultsOf = (question: StageQuestion) =>
	checkStage(question).explanations.map(({ fault, same }) => [fault, ...same.map((one) => one.fault)]);

describe('a sound stage', () => {
	test.each<[string, StageQuestion]>([
		['output', output({ ht: 262, anode: 239, screen: 256.5, cathode: 7.2, grid: 0 })],
		['audio triode', triode({ ht: 250, anode: 163, cathode: 1.2, grid: 0 })],
		['IF', ifStage({ ht: 250, anode: 231, screen: 99, cathode: 1.9, grid: -0.2 })]
	])('%s is called sound, and its currents add up', (_, question) => {
		const { verdict, addUp, lookNext } = checkStage(question);
		expect(verdict).toBe('sound');
		expect(addUp?.ok).toBe(true);
		expect(lookNext).toBeUndefined();
	});

	test('a meter of 1 Mohm that pulls a grid-leak bias down is no fault', () => {
		const stage = (readings: StageQuestion['readings'], ohms: number): StageQuestion => ({
			...triode(readings),
			parts: { 'anode-load': 220e3, 'cathode-resistor': 0, 'grid-leak': 10e6 },
			meter: { ohms }
		});
		// The same stage: 0.7 V of bias behind 10 Mohm, read by 10 Mohm and by 1 Mohm.
		expect(checkStage(stage({ ht: 250, anode: 100, grid: -0.6 }, 10e6)).verdict).toBe('sound');
		expect(checkStage(stage({ ht: 250, anode: 82, grid: -0.15 }, 1e6)).verdict).toBe('sound');
	});
});

describe('an output stage', () => {
	test('9.5 V on 135 ohm while the anode loses only 14 V: the cathode resistor has risen to twice its value', () => {
		const finding = checkStage(output({ ht: 270, anode: 256, screen: 266, cathode: 9.5, grid: 0 }));
		const [first] = finding.explanations;
		expect(finding.verdict).toBe('fault');
		expect(finding.addUp?.ok).toBe(false);
		expect(first).toMatchObject({ fault: 'cathode-resistor-high', suspects: ['rk-high'], same: [] });
		expect(first?.value?.amount).toBeGreaterThan(220);
		expect(first?.value?.amount).toBeLessThan(340);
		expect(first?.value?.low).toBeLessThanOrEqual(first?.value?.amount ?? 0);
		expect(finding.statement).toContain('cathode resistor has risen');
	});

	test('grid 3.5 V up with the current that goes with it: the coupling capacitor leaks, or the valve is gassy', () => {
		const first = firstOf(output({ ht: 255, anode: 223, screen: 247, cathode: 10.4, grid: 3.5, before: 80 }));
		expect(first?.fault).toBe('coupling-leak');
		expect(first?.suspects).toContain('cc-leak');
		// 76.5 V across the leak push 7.4 uA through 470 kohm.
		expect(first?.value?.amount).toBeGreaterThan(8e6);
		expect(first?.value?.amount).toBeLessThan(13e6);
		expect(first?.same.map(({ fault }) => fault)).toEqual(['grid-current']);
		expect(first?.partBy).toContain('lift the grid end');
	});

	test('half the volts on the cathode and half the drops everywhere: the valve is worn', () => {
		expect(firstOf(output({ ht: 275, anode: 265, screen: 272, cathode: 3.6, grid: 0 }))).toMatchObject({
			fault: 'valve-worn',
			value: { unit: '%' }
		});
	});

	test('no anode volts while the screen pulls: the primary is open', () => {
		expect(firstOf(output({ ht: 270, anode: 0, screen: 235, cathode: 4.9, grid: 0 }))?.fault).toBe(
			'anode-feed-open'
		);
	});

	test('a cathode resistor that was measured is not accused', () => {
		const question = output({ ht: 262, anode: 232, screen: 255, cathode: 4.2, grid: 0 });
		const parts = { ...question.parts, 'cathode-resistor': { value: 135, tolerance: 1 } };
		const { explanations } = checkStage({ ...question, parts });
		expect(explanations[0]?.fault).toBe('cathode-bypass-leaky');
	});
});

describe('other stages', () => {
	test('screen volts gone and hardly any current: the screen feed is open or its capacitor shorted', () => {
		expect(
			faultsOf(ifStage({ ht: 250, anode: 250, screen: 0.4, cathode: 0, grid: -0.3 }))[0]?.sort()
		).toEqual(['screen-feed-open', 'screen-short']);
	});

	test('no volts on the oscillator grid and its anode pulled down: the oscillator stands still', () => {
		const finding = checkStage(
			mixer({
				ht: 250,
				anode: 238,
				screen: 98,
				cathode: 2,
				grid: -0.3,
				'oscillator-anode': 62,
				'oscillator-grid': 1.6
			})
		);
		expect(finding.explanations[0]?.fault).toBe('oscillator-stopped');
		expect(finding.explanations[0]?.suspects).toContain('lo-stop');
	});

	test('more drop across the smoothing and more volts before it: the smoothing resistor has risen', () => {
		const first = firstOf(supply({ 'winding-1': 262, 'winding-2': 261, reservoir: 295, smoothed: 205 }));
		expect(first?.fault).toBe('smoothing-high');
	});

	test('a weak source is one explanation until the ripple is read; then a dry reservoir stands alone', () => {
		const volts = { 'winding-1': 262, 'winding-2': 262, reservoir: 262, smoothed: 230 };
		const weak = firstOf(supply(volts));
		expect(weak?.same.length).toBe(3);
		expect(weak?.partBy).toContain('AC volts on the reservoir');
		expect(firstOf(supply({ ...volts, ripple: 52 }))).toMatchObject({ fault: 'reservoir-dry', same: [] });
	});
});

describe('a grid on an AVC line', () => {
	const volts = { ht: 250, anode: 227, screen: 90, cathode: 2.1 };

	test('usual volts show no fault, and how much grid current they would not show is told', () => {
		const { verdict, statement, lookNext } = checkStage(
			ifStage({ ht: 250, anode: 230, screen: 95, cathode: 1.9 })
		);
		expect(verdict).toBe('sound');
		expect(statement).toMatch(/would not show grid current of less than \d+ µA/);
		expect(lookNext).toBeUndefined();
	});

	test('0.3 V positive with the AVC unknown asks for the line to be put on chassis', () => {
		const { lookNext } = checkStage(ifStage({ ...volts, grid: 0.3 }));
		expect(lookNext?.reading).toBe('grid-no-avc');
		expect(lookNext?.words).toContain('clip the detector end of the AVC line to chassis');
	});

	test('0.45 V across 1.5 Mohm to chassis are 0.3 uA of grid current or a leak', () => {
		const first = firstOf(ifStage({ ...volts, grid: 0.3, 'grid-no-avc': 0.45 }));
		expect([first?.fault, ...(first?.same.map(({ fault }) => fault) ?? [])].sort()).toEqual([
			'coupling-leak',
			'grid-current'
		]);
		const gas = [first, ...(first?.same ?? [])].find((cause) => cause?.fault === 'grid-current')?.value;
		expect(gas?.amount).toBeGreaterThan(0.25e-6);
		expect(gas?.amount).toBeLessThan(0.45e-6);
	});

	test('20 mV with the line on chassis clear the valve to some tens of nanoamperes', () => {
		const { statement } = checkStage(ifStage({ ...volts, grid: -0.3, 'grid-no-avc': 0.02 }));
		expect(statement).toMatch(/would not show grid current of less than \d\d nA/);
	});
});

describe('few readings', () => {
	test('HT alone is too little', () => {
		expect(checkStage(output({ ht: 270 })).verdict).toBe('too-little');
	});

	test('a low cathode and a high anode could be two things: the screen is named as what parts them', () => {
		const { lookNext } = checkStage(output({ ht: 270, anode: 262, cathode: 4.1 }));
		expect(lookNext?.reading).toBe('screen');
		expect(lookNext?.words).toMatch(/about \d+ V speaks for/i);
	});

	test('parts that nobody knows do not stop the check', () => {
		const { verdict, explanations } = checkStage({
			...output({ ht: 270, anode: 0, screen: 235, cathode: 4.9, grid: 0 }),
			parts: {}
		});
		expect(verdict).toBe('fault');
		expect(explanations[0]?.fault).toBe('anode-feed-open');
	});

	test('a leak is not given a size before the volts behind it are known: they are asked for', () => {
		const { lookNext } = checkStage(output({ ht: 255, anode: 223, screen: 247, cathode: 10.4, grid: 3.5 }));
		expect(lookNext?.reading).toBe('before');
	});
});

describe('a second round', () => {
	const low = output({ ht: 262, anode: 232, screen: 255, cathode: 4.2, grid: 0 });
	const withCathode = (measured: number): StageQuestion => ({
		...low,
		parts: { ...low.parts, 'cathode-resistor': { value: 135, measured } }
	});

	test('too few cathode volts: resistor or by-pass, and the resistor is asked for by its name', () => {
		const { explanations, lookNext } = checkStage({ ...low, names: { 'cathode-resistor': 'R14' } });
		expect(explanations[0]?.same.length).toBeGreaterThan(0);
		expect(lookNext?.part).toBe('cathode-resistor');
		expect(lookNext?.words).toContain('lift one end of R14');
	});

	test('a cathode resistor of 62 ohm on the ohmmeter is the fault, and its size is what was measured', () => {
		const [first] = checkStage(withCathode(62)).explanations;
		expect(first).toMatchObject({ fault: 'cathode-resistor-low', same: [] });
		expect(first?.value?.low).toBeGreaterThan(60);
		expect(first?.value?.high).toBeLessThan(64);
	});

	test('a cathode resistor of 137 ohm on the ohmmeter leaves the by-pass capacitor', () => {
		expect(firstOf(withCathode(137))?.fault).toBe('cathode-bypass-leaky');
	});

	test('the free end of a lifted coupling capacitor tells its leak: 5 V of 100 V through 10 Mohm are 190 Mohm', () => {
		const stage = triode({ ht: 230, anode: 90, grid: -0.8, before: 100, 'coupling-end': 5 });
		const first = firstOf({
			...stage,
			parts: { 'anode-load': 220e3, 'cathode-resistor': 0, 'grid-leak': 10e6 }
		});
		expect(first).toMatchObject({ fault: 'coupling-leak', same: [] });
		expect(Math.abs((first?.value?.amount ?? 0) / 190e6 - 1)).toBeLessThan(0.05);
	});

	test('no volts on its free end and volts that stay on the grid: the valve, not the capacitor', () => {
		const readings = { ht: 255, anode: 223, screen: 247, cathode: 10.4, grid: 3.5, before: 80 };
		expect(firstOf(output({ ...readings, 'coupling-end': 0, 'lifted-grid': 3.5 }))).toMatchObject({
			fault: 'grid-current',
			same: []
		});
	});

	test('volts across the primary itself tell how worn the valve is, closer than two large readings do', () => {
		const worn = output({ ht: 275, anode: 265, screen: 272, cathode: 3.6, grid: 0 });
		const parts = { ...worn.parts, primary: { value: 450, measured: 452 } };
		const width = (readings: StageQuestion['readings']): number => {
			const { value } = firstOf({ ...worn, parts, readings }) ?? {};
			return (value?.high ?? Infinity) / (value?.low ?? 1);
		};
		expect(width({ ...worn.readings, 'anode-drop': 10.2 })).toBeLessThan(width(worn.readings));
	});

	test('a grid that is held near its cathode hides the size of a leak: the check says so and names no figure', () => {
		const first = firstOf(
			output({ ht: 258, anode: 213, screen: 250, cathode: 17.3, grid: 16.8, before: 112 })
		);
		expect(first?.fault).toBe('coupling-leak');
		expect(first?.value?.hidden).toBe(true);
		expect(first?.words).toBe('The coupling capacitor leaks: a size that these volts do not show.');
	});
});

describe('a half-wave supply', () => {
	test('usual volts are sound', () => {
		expect(checkStage(acDc({ 'winding-1': 213, reservoir: 228, smoothed: 201 })).verdict).toBe('sound');
	});

	test('more drop across the smoothing and more volts before it: the smoothing resistor has risen', () => {
		expect(firstOf(acDc({ 'winding-1': 214, reservoir: 234, smoothed: 168 }))?.fault).toBe('smoothing-high');
	});

	test('no second half is accused', () => {
		const faults = faultsOf(acDc({ 'winding-1': 214, reservoir: 180, smoothed: 158, ripple: 40 })).flat();
		expect(faults).not.toContain('rectifier-half-dead');
		expect(faults).not.toContain('winding-half-open');
	});
});

describe('readings that cannot be', () => {
	test.each<[string, StageQuestion, string]>([
		[
			'a screen above HT',
			output({ ht: 250, anode: 240, screen: 290, cathode: 7 }),
			'Screen reads 290 V, more than'
		],
		['a lost decimal', output({ ht: 25, anode: 240, screen: 250, cathode: 7 }), 'lost decimal'],
		['an anode below chassis', triode({ ht: 250, anode: -120 }), 'below chassis'],
		[
			'a cathode above anode and screen',
			output({ ht: 250, anode: 100, screen: 100, cathode: 180 }),
			'more than anode and screen'
		],
		[
			'cathode volts without a valve',
			{ ...output({ ht: 250, cathode: 7 }), valveOut: true },
			'with the valve out'
		]
	])('%s gets a sentence and no explanation', (_, question, words) => {
		const { verdict, statement, explanations } = checkStage(question);
		expect(verdict).toBe('impossible');
		expect(statement).toContain(words);
		expect(explanations).toEqual([]);
	});

	test('readings that no single fault gives are called unexplained', () => {
		const { verdict, statement } = checkStage(
			output({ ht: 270, anode: 150, screen: 60, cathode: 20, grid: -6 })
		);
		expect(verdict).toBe('unexplained');
		expect(statement).toContain('No single fault');
	});
});
