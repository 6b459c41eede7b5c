import { printQuantity, unitOfKey } from '../quantity/index.ts';
import type { Figures } from './types.ts';

/** Words for the keyed figures of limits and working points, in the order in which a sheet gives them. */
const WORDS = {
	va_max_v: 'Anode, at most',
	va_v: 'Anode volts',
	va_calc_v: 'Anode volts, worked out',
	vb_v: 'Supply volts',
	vg2_max_v: 'Screen, at most',
	vg2_low_current_max_v: 'Screen at low current, at most',
	vg2_supply_max_v: 'Screen supply, at most',
	vg2_v: 'Screen volts',
	vg2_calc_v: 'Screen volts, worked out',
	vg3g5_v: 'Grids 3 and 5',
	vg3_v: 'Grid 3',
	vg3_neg_max_v: 'Grid 3 negative, at most',
	vg4_v: 'Grid 4',
	vg1_v: 'Control grid to cathode',
	vg_neg_max_v: 'Grid negative, at most',
	vg_bars_apart_v: 'Grid with the bars apart',
	vg_bars_meet_v: 'Grid where the bars meet',
	vg_shadow_wide_v: 'Grid at the widest shadow',
	vg_shadow_90deg_v: 'Grid at 90 degrees of shadow',
	vg_shadow_closed_v: 'Grid where the shadow closes',
	vg_sensitive_sector_closed_v: 'Grid where the sensitive sector closes',
	vg_other_sector_closed_v: 'Grid where the other sector closes',
	target_v: 'Target volts',
	target_ma: 'Target current',
	osc_rms_v: 'Oscillator volts, RMS',
	osc_anode_supply_v: 'Oscillator anode supply',
	osc_anode_resistor_kohm: 'Oscillator anode resistor',
	vg1_osc_rms_v: 'Oscillation at g1, RMS',
	drive_rms_v: 'Drive, RMS',
	ia_ma: 'Anode current',
	ig2_ma: 'Screen current',
	ig2_osc_anode_ma: 'Oscillator anode current',
	ig3g5_ma: 'Current of grids 3 and 5',
	screen_resistor_ma: 'Current in the shared screen resistor',
	ik_ma: 'Cathode current',
	ik_max_ma: 'Cathode current, at most',
	ig_ma: 'Grid current',
	ig1_ma: 'Current of g1',
	ig3_gt_ma: 'Current of g3 and triode grid',
	i_max_ma: 'Current, at most',
	i_peak_max_ma: 'Peak current, at most',
	pa_max_w: 'Anode dissipation, at most',
	pa_max_both_w: 'Both anodes together, at most',
	pg2_max_w: 'Screen dissipation, at most',
	pg2_peak_max_w: 'Screen dissipation at full drive, at most',
	gm_ma_v: 'Slope',
	gm_effective_ma_v: 'Effective slope',
	gc_ma_v: 'Conversion slope',
	mu: 'Amplification factor',
	ra_kohm: 'Internal resistance',
	ra_calc_kohm: 'Internal resistance, worked out',
	stage_gain: 'Stage gain',
	anode_load_kohm: 'Anode load',
	load_ohm: 'Load',
	power_w: 'Output power',
	distortion_pct: 'Distortion',
	rk_ohm: 'Cathode resistor',
	rg2_kohm: 'Screen resistor',
	rg_kohm: 'Grid resistor',
	rg_mohm: 'Grid resistor',
	rg1_kohm: 'Resistor at g1',
	rg1_mohm: 'Resistor at g1',
	rg3_gt_kohm: 'Resistor at g3 and triode grid',
	rg_max_mohm: 'Grid resistor, at most',
	rg_max_auto_mohm: 'Grid resistor with cathode bias, at most',
	rg_max_grid_current_bias_mohm: 'Grid resistor with grid-current bias, at most',
	rg1_max_mohm: 'Resistor at g1, at most',
	rg1_max_auto_mohm: 'Resistor at g1 with cathode bias, at most',
	rg1_max_fixed_mohm: 'Resistor at g1 with fixed bias, at most',
	rg1_max_grid_current_bias_mohm: 'Resistor at g1 with grid-current bias, at most',
	rg1_max_when_pa_below_0_2w_mohm: 'Resistor at g1 below 0.2 W, at most',
	rg3_max_kohm: 'Resistor at g3, at most',
	rg3_max_mohm: 'Resistor at g3, at most',
	v_rms_v: 'AC in, RMS',
	v_rms_max_v: 'AC in, RMS, at most',
	v_rms_per_anode_v: 'AC at each anode, RMS',
	v_rms_per_anode_max_v: 'AC at each anode, RMS, at most',
	v_inverse_peak_max_v: 'Inverse peak, at most',
	piv_max_v: 'Inverse peak, at most',
	dc_ma: 'DC drawn',
	dc_max_ma: 'DC drawn, at most',
	dc_out_v: 'DC at the reservoir',
	drop_v: 'Drop in the valve',
	at_per_anode_ma: 'at, for each anode',
	i_peak_per_anode_max_ma: 'Peak at each anode, at most',
	ia_peak_per_anode_max_ma: 'Peak at each anode, at most',
	c_uf: 'Reservoir',
	c_reservoir_max_uf: 'Reservoir, at most',
	r_limit_min_ohm: 'Limiting resistance, at least',
	r_limit_min_per_anode_ohm: 'Limiting resistance in each anode, at least',
	winding_per_anode_ohm: 'Winding resistance for each anode',
	vhk_max_v: 'Heater to cathode, at most',
	vhk_peak_max_v: 'Heater to cathode, peak, at most',
	vhk_max_heater_positive_v: 'Heater positive to cathode, at most',
	vhk_heater_pos_dc_max_v: 'Heater positive to cathode, DC, at most',
	vhk_heater_pos_peak_max_v: 'Heater positive to cathode, peak, at most',
	vhk_heater_neg_peak_max_v: 'Heater negative to cathode, peak, at most'
} as const satisfies Record<string, string>;

const ORDER = Object.keys(WORDS);

export interface FigureLine {
	key: string;
	label: string;
	/** "48 mA". */
	value: string;
}

/** The figures of a block as lines of a sheet; a key without words shows as it is. */
export function figureLines(figures: Figures): FigureLine[] {
	const place = (key: string) => (ORDER.includes(key) ? ORDER.indexOf(key) : ORDER.length);
	return Object.entries(figures)
		.sort(([one], [other]) => place(one) - place(other))
		.map(([key, value]) => {
			const { unit, scale } = unitOfKey(key);
			return {
				key,
				label: (WORDS as Record<string, string>)[key] ?? key,
				value: printQuantity(value * scale, unit)
			};
		});
}
