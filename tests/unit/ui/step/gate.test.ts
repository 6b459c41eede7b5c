import { describe, expect, test } from 'vitest';
import { powerGate } from '../../../../src/lib/flow/compile.ts';
import type { Power } from '../../../../src/lib/flow/machine-types.ts';
import {
	cautionsAt,
	gateStage,
	gateStages,
	proveDead,
	type GateSituation
} from '../../../../src/lib/ui/step/gate.ts';
import { gateWords } from '../../../../src/lib/ui/step/gate-words.ts';
import type { Refuse } from '../../../../src/lib/ui/step/types.ts';

const set = (change: Partial<GateSituation>): GateSituation => ({
	power: 'off',
	to: 'live',
	toConnect: false,
	limiterPassed: false,
	hasMeter: true,
	handsOff: false,
	...change
});

describe('the way from one power state to another', () => {
	test.each<[string, Partial<GateSituation>, string[]]>([
		[
			'a live set is switched off, then proved dead',
			{ power: 'live', to: 'unplugged' },
			['switch-off', 'prove-dead']
		],
		['a set that is off is still to be proved dead', { to: 'unplugged' }, ['prove-dead']],
		['first power is on the limiter', {}, ['limiter', 'live']],
		['full mains come after the limiter only', { power: 'limiter' }, ['live']],
		['after the limiter a set goes straight back to full mains', { limiterPassed: true }, ['live']],
		[
			'a live set whose part was changed goes through the limiter',
			{ power: 'live' },
			['switch-off', 'limiter', 'live']
		],
		[
			'the limiter goes into the lead with the plug out',
			{ power: 'live', to: 'limiter' },
			['switch-off', 'limiter']
		],
		[
			'a connection is made on the dead set, then power comes back',
			{ power: 'live', limiterPassed: true, toConnect: true },
			['switch-off', 'prove-dead', 'connect', 'live']
		],
		[
			'a look at a set that is off needs no proof',
			{ power: 'live', to: 'unplugged', handsOff: true },
			['switch-off']
		],
		[
			'without a meter no chassis is opened',
			{ power: 'live', to: 'unplugged', hasMeter: false },
			['no-meter']
		],
		[
			'without a meter nothing is connected, hands off or not',
			{ toConnect: true, hasMeter: false, handsOff: true },
			['no-meter']
		],
		[
			'without a meter a look from outside stays possible',
			{ power: 'live', to: 'unplugged', hasMeter: false, handsOff: true },
			['switch-off']
		]
	])('%s', (_, change, stages) => expect(gateStages(set(change))).toEqual(stages));

	const powers: Power[] = ['off', 'unplugged', 'limiter', 'live'];
	const flags = [true, false];
	const all = powers.flatMap((power) =>
		(['unplugged', 'limiter', 'live'] as const).flatMap((to) =>
			flags.flatMap((toConnect) => flags.map((limiterPassed) => set({ power, to, toConnect, limiterPassed })))
		)
	);

	test('with a meter every gate ends in the wanted state, over the limiter and with the dead set proved', () => {
		for (const situation of all) {
			const stages = gateStages(situation);
			expect(stages).not.toContain('no-meter');
			const passed = situation.limiterPassed || situation.power === 'limiter' || stages.includes('limiter');
			if (situation.to === 'live') expect(passed).toBe(true);
			if (stages.includes('connect') && situation.power !== 'unplugged')
				expect(stages.indexOf('prove-dead')).toBe(stages.indexOf('connect') - 1);
		}
	});

	test('what a gate asks for is never refused by the machine', () => {
		for (const situation of all) {
			const stage = gateStage(situation);
			const to = ({ 'switch-off': 'off', limiter: 'limiter', live: 'live' } as const)[stage as 'live'];
			if (to) expect(powerGate(situation, to)).toBeUndefined();
		}
	});
});

describe('two readings prove a set dead', () => {
	const refuse: Refuse = (to, volts) => powerGate({ power: 'off', limiterPassed: false }, to, volts);

	test('0.4 V and 2 V are dead', () =>
		expect(proveDead(['0.4', '2 V'], refuse)).toEqual({ ok: true, volts: [0.4, 2] }));

	test('40 V at the reservoir says discharge again, beside that field alone', () => {
		const proof = proveDead(['40', '2'], refuse);
		expect(proof.ok || proof.errors).toEqual([expect.stringContaining('discharge again'), undefined]);
	});

	test('40 V after the smoothing says so beside the other field', () => {
		const proof = proveDead(['2', '40 V'], refuse);
		expect(proof.ok || proof.errors).toEqual([undefined, expect.stringContaining('discharge again')]);
	});

	test('a meter the wrong way round shows the charge too', () =>
		expect(proveDead(['-40', '0'], refuse).ok).toBe(false));

	test('0.04 kV is 40 V', () => expect(proveDead(['0.04 kV', '0'], refuse).ok).toBe(false));

	test('one reading is no proof', () => {
		const proof = proveDead(['0', ' '], refuse);
		expect(proof.ok || proof.errors).toEqual([
			undefined,
			expect.stringContaining('type what the meter shows')
		]);
	});

	test('a reading that cannot be read is named', () => {
		const proof = proveDead(['12..5', '3'], refuse);
		expect(proof.ok || proof.errors).toEqual([expect.stringContaining('12.5'), undefined]);
	});
});

describe('cautions stand where the state is that they cover', () => {
	const caution = (title: string, covers?: ('unplugged' | 'limiter' | 'live')[]) => ({
		title,
		text: '',
		source: [],
		...(covers && { covers })
	});
	const cautions = [
		caution('discharge', ['unplugged']),
		caution('lamp', ['limiter']),
		caution('live chassis', ['limiter', 'live']),
		caution('hot parts'),
		caution('lamp', ['limiter'])
	];
	const at = (stage: Parameters<typeof cautionsAt>[0]) =>
		cautionsAt(stage, cautions).map(({ title }) => title);

	test('discharging is told before the chassis is touched', () =>
		expect(at('prove-dead')).toEqual(['discharge', 'hot parts']));
	test('the lamp is told at the limiter, once', () =>
		expect(at('limiter')).toEqual(['lamp', 'live chassis', 'hot parts']));
	test('a live chassis is told at full mains', () =>
		expect(at('live')).toEqual(['live chassis', 'hot parts']));
	test('connecting on the dead set needs none', () => expect(at('connect')).toEqual([]));
});

test('every stage with charged or live parts is marked so', () =>
	expect(Object.entries(gateWords(false)).flatMap(([stage, { danger }]) => (danger ? [] : [stage]))).toEqual([
		'connect'
	]));
