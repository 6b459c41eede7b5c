import { describe, expect, test } from 'vitest';
import { unitOfKey } from '../../../src/lib/quantity/index.ts';
import {
	bases,
	findValve,
	limitsOf,
	operatingPoints,
	pinOf,
	valves,
	valveSources
} from '../../../src/lib/valves/index.ts';

describe('finding a valve', () => {
	test('a 6BQ5 is an EL84, in small letters too', () => {
		expect(findValve('6bq5')).toMatchObject({ ok: true, valve: { type: 'EL84' }, asEquivalent: true });
		expect(findValve(' EL84 ')).toMatchObject({ ok: true, asEquivalent: false });
	});

	test.each([
		['EL48', 'EL84'],
		['ECH80', 'ECH81'],
		['50B5', '50C5'],
		['12AU6', '12AV6']
	])('the unknown type %s is answered with the near name %s', (name, near) => {
		const found = findValve(name);
		expect(found).toMatchObject({ ok: false, near: expect.arrayContaining([near]) });
		expect(!found.ok && found.hint).toContain(near);
	});

	test('a name like no other is answered with what to do', () => {
		expect(findValve('QQE06/40')).toMatchObject({
			ok: false,
			near: [],
			hint: expect.stringContaining('on the glass')
		});
		expect(findValve('')).toMatchObject({ ok: false, near: [] });
	});
});

describe('pins', () => {
	test('the grid of the EL84 is pin 2, by the maker sheet', () => {
		const finding = { named: true, pin: 2, base: 'noval (B9A)', evidence: 'maker_sheet' };
		expect(pinOf('EL84', 'g1')).toMatchObject(finding);
		expect(pinOf('EL84', 'grid')).toMatchObject(finding);
	});

	test('the 50C5, known from one source, has no pin named: the sheet comes first', () => {
		expect(pinOf('50C5', 'g1')).toEqual({
			named: false,
			advice: expect.stringContaining("find it on the maker's sheet first"),
			base: 'miniature 7-pin (B7G)'
		});
	});

	test.each(['50C5', '35W4', '12BA6'])('no pin of the %s is named', (type) => {
		expect(pinOf(type, 'a').named).toBe(false);
	});

	test.each([
		['ECH81', 'g1', 'heptode', 2],
		['ECH81', 'g', 'triode', 9],
		['ECH81', 'k', 'heptode', 3],
		['ECH81', 'screen', 'heptode', 1],
		['EABC80', 'k', 'diode2', 3],
		['EABC80', 'k', 'triode', 7],
		['ECC85', 'a', 'triode2', 1],
		['EF89', 'g1', undefined, 2],
		['EF89', 'k', undefined, 3],
		['EZ80', 'k', undefined, 3],
		['EM84', 'k', undefined, 3],
		['12BE6', 'g2g4', undefined, 6],
		['12BE6', 'g3', undefined, 7],
		['12AV6', 'g', 'triode', 1],
		['6AQ8', 'g', 'triode1', 7]
	])('%s: %s of %s is pin %i', (type, electrode, system, pin) => {
		expect(pinOf(type, electrode, system)).toMatchObject({ named: true, pin });
	});

	test('the heater of a noval valve is on pins 4 and 5', () => {
		expect(pinOf('EL84', 'heater')).toMatchObject({ pins: [4, 5] });
	});

	test('an anode of a double triode is one of two until the system is told', () => {
		expect(pinOf('ECC85', 'a')).toMatchObject({
			named: false,
			advice: expect.stringMatching(/pin [16] and pin [16]: take the one of this stage/)
		});
	});

	test('an electrode that a valve has not is not named', () => {
		expect(pinOf('EL84', 'target')).toMatchObject({ named: false });
		expect(pinOf('EL84', 'g1', 'triode')).toMatchObject({ named: false });
		expect(pinOf('XYZ1', 'a')).toMatchObject({ named: false, advice: expect.stringContaining('no data') });
	});
});

describe('figures', () => {
	test('the EL84 may lose 12 W at its anode and pass 65 mA', () => {
		const [limits] = limitsOf('EL84');
		expect(limits?.block).toMatchObject({
			figures: { pa_max_w: 12, ik_max_ma: 65, rg1_max_fixed_mohm: 0.3 },
			source: 'phil_el84'
		});
	});

	test('the limits of a heptode are not those of its triode', () => {
		expect(limitsOf('ECH81', 'triode').map(({ block }) => block.figures['pa_max_w'])).toEqual([0.8]);
		expect(limitsOf('XYZ1')).toEqual([]);
	});

	test('the EL84 at 250 V takes 48 mA and 5.5 mA with 135 ohm in its cathode, within its limits', () => {
		const [point] = operatingPoints('EL84');
		const { va_v = 0, ia_ma = 0, ig2_ma = 0, rk_ohm = 0, vg1_v = 0 } = point?.block.figures ?? {};
		expect([va_v, ia_ma, ig2_ma]).toEqual([250, 48, 5.5]);
		expect(((ia_ma + ig2_ma) / 1000) * rk_ohm).toBeCloseTo(-vg1_v, 0);
		expect((va_v * ia_ma) / 1000).toBeLessThanOrEqual(12);
	});

	test('figures from memory say so', () => {
		expect(operatingPoints('50C5').map(({ block }) => block.source)).toEqual(['mem']);
		expect(findValve('35W4')).toMatchObject({ ok: true, valve: { evidence: 'memory' } });
	});
});

describe.each(valves.map((valve) => [valve.type, valve] as const))('%s', (_, valve) => {
	const blocks = valve.systems.flatMap(({ limits, points = [] }) => [...(limits ? [limits] : []), ...points]);

	test('every pin is on the base, and without a gap unless the record says so', () => {
		const pins = Object.keys(valve.pins).map(Number);
		expect(pins.every((pin) => pin >= 1 && pin <= bases[valve.base].pins)).toBe(true);
		expect(pins.length === bases[valve.base].pins).toBe(!valve.pinsPartial);
		expect(valve.htPins.every((pin) => pins.includes(pin))).toBe(true);
	});

	test('every system has a pin, where all pins are known', () => {
		const onPins = [...Object.values(valve.pins), valve.topCap ?? ''].map((text) => text.split(':')[0]);
		if (!valve.pinsPartial)
			expect(valve.systems.map(({ name }) => name).filter((name) => !onPins.includes(name))).toEqual([]);
	});

	test('every block names a source of the table, and every figure a unit or a bare number', () => {
		for (const { figures, source } of blocks) {
			expect(valveSources).toHaveProperty(source);
			const bare = Object.keys(figures).filter((key) => unitOfKey(key).unit === '');
			expect(bare.filter((key) => !/^(mu|stage_gain)$/.test(key))).toEqual([]);
		}
	});

	test('no working point but a static one goes beyond the limit of its anode', () => {
		for (const { limits, points = [] } of valve.systems) {
			const limit = limits?.figures['pa_max_w'];
			const lost = points
				.filter(({ label }) => !label.startsWith('static'))
				.map(({ figures: { va_v = 0, va_calc_v = va_v, ia_ma = 0 } }) => (va_calc_v * ia_ma) / 1000);
			if (limit !== undefined) expect(lost.filter((watts) => watts > limit * 1.01)).toEqual([]);
		}
	});
});

test('no name stands for two valves', () => {
	const names = valves.flatMap(({ type, equivalents }) => [type, ...equivalents]);
	expect(new Set(names).size).toBe(names.length);
});

test('every source of the table is used', () => {
	const text = JSON.stringify(valves);
	expect(Object.keys(valveSources).filter((id) => !text.includes(`"${id}"`))).toEqual([]);
});
