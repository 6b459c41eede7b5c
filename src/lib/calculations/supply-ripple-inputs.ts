import type { Given, Inputs } from './define.ts';
import { choice, column, number, optional, rows } from './inputs.ts';

/** What may be known of a supply and its hum. */
export const inputs = {
	rectifier: optional(choice('rectifier', 'rectifier', ['half', 'full'])),
	mains: optional(number('f_mains', 'mains frequency', 15, 500)),
	frequency: optional({ ...number('f', 'ripple frequency', 15, 1000), alsoKeys: ['f_ripple'] }),
	current: optional({ ...number('I_dc_A', 'direct current drawn', 1e-4, 5), alsoKeys: ['I_A'] }),
	capacitance: optional(number('C_uF', 'capacitor', 0.01e-6, 0.02)),
	peak: optional(number('V_peak', 'peak volts of the winding, or of one half', 0.5, 2000)),
	load: optional(number('R_load_ohm', 'load as a resistance', 1, 10e6)),
	factor: optional(number('ripple_factor', 'ripple wanted, RMS over DC', 1e-5, 1)),
	dc: optional(number('V_dc', 'direct volts on the reservoir', 0.5, 2000)),
	ripple: optional(number('V_pp', 'ripple, peak to peak', 1e-4, 500)),
	measured: optional(number('V_pp_measured', 'ripple measured, peak to peak', 0, 500)),
	hum: optional(number('f_hum', 'frequency of the hum', 15, 500)),
	kind: optional(choice('rectifier_kind', 'kind of rectifier', ['valve', 'silicon'])),
	halfVolts: optional(number('V_rms_per_half', 'RMS volts of each half of the winding', 5, 1000)),
	sideOhms: optional(number('R_per_side_ohm', 'winding and rectifier, each side', 5, 2000)),
	sections: optional(
		rows(
			'sections',
			'smoothing sections after the reservoir',
			{
				resistance: optional(column('R_ohm', 'resistor', 1, 1e6)),
				inductance: optional(column('L_H', 'choke', 0.01, 200)),
				capacitance: column('C_uF', 'capacitor', 0.01e-6, 0.01)
			},
			{ most: 30 }
		)
	),
	section: optional(choice('section', 'kind of section', ['RC', 'LC'])),
	resistance: optional(number('R_ohm', 'resistor of the section', 1, 1e6)),
	inductance: optional(number('L_H', 'choke', 0.01, 200)),
	dcIn: optional(number('V_dc_in', 'direct volts into the section', 0.5, 2000)),
	rippleIn: optional(number('V_ripple_in_rms', 'ripple into the section, RMS', 1e-4, 500)),
	acIn: optional(number('V_in', 'AC volts into the section', 1e-4, 1000)),
	filter: optional(choice('filter', 'kind of filter', ['choke input'])),
	noLoad: optional(number('V_no_load', 'volts without load', 0.5, 2000)),
	fullLoad: optional(number('V_full_load', 'volts with full load', 0.5, 2000))
} satisfies Inputs;

export type SupplyGiven = Given<typeof inputs>;
