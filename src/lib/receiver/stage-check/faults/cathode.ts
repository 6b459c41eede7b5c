import type { Circuit } from '../circuit.ts';
import type { PartId } from '../types.ts';
import { type Amplifier, type Row, AT, names, ohms, OPEN, own, set, WIRE } from './shared.ts';

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

/** Part of the volts at cut-off that the law may have wrong. */
const AT_CUT_OFF = 0.3;

/** Faults of what stands between cathode and chassis. */
export function cathodeRows(stage: Amplifier, { cathodeResistor: nominal }: Circuit): Row[] {
	if (nominal <= WIRE) return [];
	const pins = ['cathodeResistor'] as const;
	const accuses: PartId = 'cathode-resistor';
	const part = 'cathode resistor';
	const high = stage === 'output-pentode' ? 'occasional' : 'rare';
	const bypassLeak = ohms(({ size, sound }) => 1 / Math.max(1 / size - 1 / sound.cathodeResistor, 1e-9));
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
					value: own,
					says: (value) => `The cathode resistor has risen to ${value}.`
				}
			],
			partBy: ''
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
			id: 'cathode-low',
			sizes: { from: nominal / 30, to: nominal / 1.2 },
			set: set('cathodeResistor'),
			pins,
			causes: [
				{
					fault: 'cathode-bypass-leaky',
					part: 'cathode by-pass capacitor',
					common: stage === 'output-pentode' ? 'occasional' : 'rare',
					suspects: BYPASS_SHORT[stage],
					value: bypassLeak,
					says: (value) => `The cathode by-pass capacitor leaks: ${value} across the resistor.`
				},
				{
					fault: 'cathode-resistor-low',
					part,
					accuses,
					common: stage === 'output-pentode' ? 'occasional' : 'not listed',
					suspects: CATHODE_LOW[stage],
					value: own,
					says: (value) => `The cathode resistor is only ${value}.`
				},
				{
					fault: 'heater-cathode-leak',
					part: 'valve, heater to cathode',
					common: 'rare',
					suspects:
						stage === 'triode-audio'
							? ['af-hk']
							: ['if-pentode', 'triode-heptode'].includes(stage)
								? [`valve-leak@${AT[stage]}`]
								: [],
					value: bypassLeak,
					says: (value) => `The valve leaks from cathode to heater: ${value}.`
				}
			],
			partBy:
				'Unplugged and discharged: lift one end of the by-pass capacitor, measure the resistor, then the capacitor.'
		},
		{
			id: 'cathode-short',
			set: set('cathodeResistor', WIRE),
			pins,
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
