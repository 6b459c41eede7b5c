import type { Circuit } from '../circuit.ts';
import type { PartId } from '../types.ts';
import { type Amplifier, AT, cold, leaking, names, OHMS, OPEN, read, type Row, set, WIRE } from './shared.ts';

const CATHODE_HIGH = names({
	'triode-audio': ['af-rk'],
	'output-pentode': ['rk-high'],
	'if-pentode': ['if-rk'],
	'triode-heptode': ['mix-rk']
});
const CATHODE_LOW = names({
	'output-pentode': ['rk-low'],
	'if-pentode': ['if-rk-low'],
	'triode-heptode': ['mix-rk-low']
});
const BYPASS_SHORT = names({
	'output-pentode': ['ck-short'],
	'if-pentode': ['if-ck-short'],
	'triode-heptode': ['mix-ck-short']
});
const HEATER_LEAK = names({
	'triode-audio': ['af-hk'],
	'if-pentode': [`valve-leak@${AT['if-pentode']}`],
	'triode-heptode': [`valve-leak@${AT['triode-heptode']}`]
});

/** Part of the volts at cut-off that the law may have wrong. */
const AT_CUT_OFF = 0.3;

/** Faults of what stands between cathode and chassis. */
export function cathodeRows(stage: Amplifier, { cathodeResistor: nominal }: Circuit): Row[] {
	if (nominal <= WIRE) return [];
	const pins = ['cathodeResistor'] as const;
	const accuses: PartId = 'cathode-resistor';
	const part = 'cathode resistor';
	const high = stage === 'output-pentode' ? 'occasional' : 'rare';
	const low = {
		family: 'cathode-low',
		parted: [...cold(accuses), ...read('lifted-cathode')],
		partBy:
			'Unplugged and discharged: lift one end of the by-pass capacitor, measure the resistor, then the capacitor.'
	};
	return [
		{
			id: 'cathode-high',
			sizes: { from: 1.2 * nominal, to: 30 * nominal },
			set: set('cathodeResistor'),
			pins,
			causes: [
				{
					fault: 'cathode-resistor-high',
					part,
					accuses,
					common: high,
					suspects: CATHODE_HIGH[stage],
					value: OHMS,
					says: (value) => `The cathode resistor has risen to ${value}.`
				}
			],
			partBy: '',
			proofs: cold(accuses)
		},
		{
			id: 'cathode-open',
			set: set('cathodeResistor', OPEN),
			lawError: AT_CUT_OFF,
			pins,
			causes: [
				{
					fault: 'cathode-resistor-open',
					part,
					accuses,
					common: high,
					suspects: CATHODE_HIGH[stage],
					says: () => 'The cathode resistor is open: the volts are those that just cut the valve off.'
				}
			],
			partBy: ''
		},
		{
			...low,
			id: 'cathode-leak',
			sizes: { from: nominal / 30, to: 10 * nominal },
			set: leaking('cathodeLeak'),
			pins: ['cathodeLeak'],
			causes: [
				{
					fault: 'cathode-bypass-leaky',
					part: 'cathode by-pass capacitor',
					common: stage === 'output-pentode' ? 'occasional' : 'rare',
					suspects: BYPASS_SHORT[stage],
					value: OHMS,
					says: (value) => `The cathode by-pass capacitor leaks, across its resistor: ${value}.`
				},
				{
					fault: 'heater-cathode-leak',
					part: 'valve, heater to cathode',
					common: 'rare',
					suspects: HEATER_LEAK[stage],
					value: OHMS,
					says: (value) => `The valve leaks from cathode to heater: ${value}.`
				}
			],
			proofs: [...cold(accuses), ...read('lifted-cathode')]
		},
		{
			...low,
			id: 'cathode-resistor-low',
			sizes: { from: nominal / 30, to: nominal / 1.2 },
			set: set('cathodeResistor'),
			pins,
			causes: [
				{
					fault: 'cathode-resistor-low',
					part,
					accuses,
					common: stage === 'output-pentode' ? 'occasional' : 'not listed',
					suspects: CATHODE_LOW[stage],
					value: OHMS,
					says: (value) => `The cathode resistor has fallen to ${value}.`
				}
			],
			proofs: cold(accuses)
		},
		{
			id: 'cathode-short',
			set: (sound) => ({ ...sound, cathodeLeak: 1 / WIRE }),
			pins: ['cathodeLeak'],
			causes: [
				{
					fault: 'cathode-bypass-short',
					part: 'cathode by-pass capacitor',
					common: stage === 'output-pentode' ? 'occasional' : 'rare',
					suspects: BYPASS_SHORT[stage],
					says: () => 'The cathode by-pass capacitor is shorted, or the cathode touches chassis.'
				}
			],
			partBy: ''
		}
	];
}
