import { describe, expect, test } from 'vitest';
import { fitOf, stops, substitutesFor, adviceFor, trusted, valves } from '../../../src/lib/valves/index.ts';

const told = (listed: string, fitted: string, series = false) =>
	fitOf(listed, fitted, series).differences.map(({ of }) => of);

describe('a valve in the place of another', () => {
	test('an EF86 has base and heater of the EF89, and neither its duty nor its pins: it is stopped', () => {
		const fit = fitOf('EF89', 'EF86', false);
		expect(told('EF89', 'EF86')).toEqual(expect.arrayContaining(['duty', 'pins', 'ratings']));
		expect(told('EF89', 'EF86')).not.toContain('base');
		expect(told('EF89', 'EF86')).not.toContain('heater');
		expect(stops(fit)).toBe(true);
		const pins = fit.differences.find(({ of }) => of === 'pins')?.says;
		expect(pins).toContain('pin 7 is anode on the EF89, internal screen on the EF86');
	});

	test('the same valve under its American name is no difference', () => {
		expect(told('EL84', '6BQ5')).toEqual([]);
		expect(told('el84', 'EL84')).toEqual([]);
	});

	test('another base stops it whatever else agrees', () => {
		expect(told('EZ80', 'EZ40')).toContain('base');
		expect(stops(fitOf('EZ80', 'EZ40', false))).toBe(true);
	});

	test('in parallel heaters the volts have to agree, in a chain the amps', () => {
		const heater = (listed: string, fitted: string, series: boolean) =>
			fitOf(listed, fitted, series).differences.find(({ of }) => of === 'heater');
		expect(heater('ECH81', 'UCH81', false)?.stops).toBe(true);
		expect(heater('UCH81', 'ECH81', true)?.stops).toBe(true);
		// The same chain current, other volts: the dropper has to be reckoned again.
		expect(heater('UF89', 'UBF89', true)?.says).toContain('dropper');
		// More amps from the winding are told, and stop nothing.
		expect(heater('EBF80', 'EBF89', false)).toBeUndefined();
		expect(heater('EZ80', 'EZ81', false)).toMatchObject({ stops: false });
	});

	test('no pin is named of a valve whose pins rest on memory or one source', () => {
		const weak = valves.filter(({ evidence }) => !trusted(evidence));
		expect(weak.length).toBeGreaterThan(40);
		for (const { type: listed } of weak)
			for (const { type: fitted } of valves)
				for (const [one, other] of [
					[listed, fitted],
					[fitted, listed]
				] as const)
					for (const { says } of fitOf(one, other, false).differences)
						expect(says, `${one} ${other}`).not.toMatch(/\bpin \d/);
	});

	test('a type without data is not let through', () => {
		const fit = fitOf('EF89', 'XX99', false);
		expect(fit.differences).toMatchObject([{ of: 'unknown', stops: true }]);
	});

	test('a sharp cut-off pentode for a variable-mu one is told', () => {
		expect(told('EF85', 'EF80')).toContain('duty');
	});
});

describe('stand-ins', () => {
	test('a 12AT6 may stand in for a 12AV6, with less gain', () => {
		const [first] = substitutesFor('12AV6', true);
		expect(first).toMatchObject({ type: '12AT6', certain: true });
		expect(first?.differences.map(({ says }) => says).join()).toContain(
			'amplification factor 70 in place of 100'
		);
	});

	test('nobody is put forward whose base, pins or heater forbid it', () => {
		for (const { type, heater } of valves)
			for (const other of substitutesFor(type, heater.seriesChain)) {
				const own = fitOf(type, other.type, heater.seriesChain).differences;
				expect(
					own.filter(({ of }) => of === 'pins' || of === 'base'),
					`${type} ${other.type}`
				).toEqual([]);
				expect(
					own.some(({ of, stops: no }) => of === 'heater' && no),
					`${type} ${other.type}`
				).toBe(false);
			}
	});

	test('what a source advises against is told with the source', () => {
		expect(adviceFor('EL95')).toContainEqual(
			expect.objectContaining({ type: '6AQ5', advised: false, source: 'rm_el95' })
		);
	});
});
