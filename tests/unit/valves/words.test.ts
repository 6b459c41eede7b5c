import { describe, expect, test } from 'vitest';
import { figureLines, findValve, pinLines, sistersOf, valves } from '../../../src/lib/valves/index.ts';

const valveOf = (type: string) => {
	const found = findValve(type);
	if (!found.ok) throw new Error(found.hint);
	return found.valve;
};

describe('pins in words', () => {
	test('pin 6 of the ECH81 is the anode of the heptode and carries HT', () => {
		const line = pinLines(valveOf('ECH81')).find(({ pin }) => pin === 6);
		expect(line).toEqual({ pin: 6, what: 'anode of the heptode', ht: true, heater: false });
	});

	test('a shared cathode says so, and a top cap comes last', () => {
		expect(pinLines(valveOf('EM84')).find(({ pin }) => pin === 3)?.what).toBe('cathode (shared)');
		expect(pinLines(valveOf('EF39')).at(-1)).toMatchObject({ pin: undefined, what: 'control grid, g1' });
	});

	test('the ends of a filament are told apart', () => {
		const words = pinLines(valveOf('DL94')).map(({ what }) => what);
		expect(words).toContain('filament, positive end');
		expect(words).toContain('filament centre and suppressor grid, g3');
	});

	test.each(valves)('no code is left unread on the $type', (valve) => {
		const codes = pinLines(valve).map(({ what }) => what.split(' ')[0] ?? '');
		expect(codes.filter((word) => /^[a-z]{0,2}\d?$/.test(word) && word !== 'no')).toEqual([]);
	});
});

describe('figures in words', () => {
	test('the EL84 takes 48 mA at 250 V', () => {
		const figures = valveOf('EL84').systems[0]?.points?.[0]?.figures ?? {};
		expect(figureLines(figures)).toEqual(
			expect.arrayContaining([
				{ key: 'va_v', label: 'Anode volts', value: '250 V' },
				{ key: 'ia_ma', label: 'Anode current', value: '48 mA' }
			])
		);
	});

	test.each(valves)('every figure of the $type has words', (valve) => {
		const blocks = valve.systems.flatMap(({ limits, points = [] }) => [
			...(limits ? [limits] : []),
			...points
		]);
		const lines = blocks.flatMap(({ figures }) => figureLines(figures));
		expect(lines.filter(({ key, label }) => key === label && key !== 'mu')).toEqual([]);
	});
});

test('the UCH81 is a sister of the ECH81, the ECC85 is not', () => {
	const sisters = sistersOf(valveOf('ECH81')).map(({ type }) => type);
	expect(sisters).toContain('UCH81');
	expect(sisters).not.toContain('ECC85');
});
