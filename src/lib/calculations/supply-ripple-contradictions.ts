import type { Problem } from './define.ts';
import type { SupplyGiven } from './supply-ripple-inputs.ts';
import { ripplesOf } from './supply-ripple-results.ts';

type Check = (given: SupplyGiven) => Problem | undefined;
/** A look at what would come out. */
type LaterCheck = (given: SupplyGiven, results: ReturnType<typeof ripplesOf>) => Problem | undefined;

const near = (one: number, other: number): boolean => Math.abs(one / other - 1) < 0.1;
/** Two figures that ought to be one may differ by so much. Our own choice. */
const SAME = 1.1;

const regulation: Check = ({ noLoad, fullLoad }) =>
	noLoad !== undefined && fullLoad !== undefined && fullLoad > noLoad
		? { key: 'V_full_load', message: 'V_full_load is above V_no_load. Read both again, set warm.' }
		: undefined;

const rippleAboveDc: Check = ({ dc, ripple }) =>
	dc !== undefined && ripple !== undefined && ripple >= 2 * dc
		? {
				key: 'V_pp',
				message: 'V_pp is more than V_dc can carry. Check that the meter blocks DC, and its range.'
			}
		: undefined;

/** A saw-tooth as high as the wave itself: the capacitor runs empty in between, and the formula says nothing. */
const emptyReservoir: LaterCheck = ({ peak }, { ripple }) => {
	if (peak === undefined || ripple === undefined || ripple < peak) return undefined;
	return {
		key: 'C_uF',
		message:
			'C_uF runs empty between the peaks at that current: this sum does not hold. Check C_uF and I_dc_A, with their units.'
	};
};

const overload: Check = ({ factor, peak, load, current }) =>
	factor !== undefined && peak && load && current && (current * load) / peak > SAME
		? {
				key: 'I_dc_A',
				message: 'I_dc_A through R_load_ohm makes more than V_peak. Leave one of the three out, or check it.'
			}
		: undefined;

/** Only a winding whose rectifier reaches its volts at all is reckoned. */
const exhausted: LaterCheck = ({ halfVolts, sideOhms }, { dc }) => {
	if (halfVolts === undefined || sideOhms === undefined || dc !== undefined) return undefined;
	return {
		key: 'I_dc_A',
		message:
			'I_dc_A is more than the winding gives through R_per_side_ohm: no direct volts are left. Check both.'
	};
};

const sectionParts: Check = ({ sections, section, resistance, inductance }) => {
	if (sections?.some(({ resistance: ohms, inductance: choke }) => ohms === undefined && choke === undefined))
		return {
			key: 'sections',
			message: 'sections: each needs R_ohm or L_H before its capacitor. Fill one of them in.'
		};
	if (section === 'RC' && (resistance === undefined || inductance !== undefined))
		return {
			key: 'section',
			message: 'RC wants R_ohm, and no L_H. Choose LC, or give R_ohm alone.'
		};
	if (section !== 'LC' || (inductance !== undefined && resistance === undefined)) return undefined;
	return { key: 'section', message: 'LC wants L_H, and no R_ohm. Choose RC, or give L_H alone.' };
};

const nearResonance: Check = ({ section, inductance, capacitance, frequency }) => {
	if (section !== 'LC' || !inductance || !capacitance || !frequency) return undefined;
	if ((2 * Math.PI * frequency) ** 2 * inductance * capacitance > 3) return undefined;
	return {
		key: 'L_H',
		message:
			'L_H with C_uF is near resonance at the ripple: it may raise it. Take a larger choke or capacitor.'
	};
};

const sectionDrop: Check = ({ section, dcIn, load, current, resistance }) => {
	if (section === undefined || dcIn === undefined || current === undefined) return undefined;
	if (load !== undefined)
		return {
			key: 'I_dc_A',
			message: 'R_load_ohm tells the current already. Leave I_dc_A or R_load_ohm out.'
		};
	if (resistance === undefined || current * resistance < dcIn) return undefined;
	return {
		key: 'I_dc_A',
		message: 'I_dc_A through R_ohm drops more than V_dc_in. Check the three, with their units.'
	};
};

const filterDrop: LaterCheck = (_, { along }) => {
	const sunk = along?.find(({ V_dc }) => V_dc !== null && V_dc <= 0);
	if (!sunk) return undefined;
	return {
		key: 'sections',
		message: `sections: no direct volts are left behind ${sunk.after.replace('section', 'number')} at that current. Check R_ohm and I_dc_A, with their units.`
	};
};

const noMainsHum: Check = ({ hum, mains }) =>
	hum === undefined || mains === undefined || near(hum, mains) || near(hum, 2 * mains)
		? undefined
		: {
				key: 'f_hum',
				message:
					'f_hum is neither f_mains nor twice it: no mains hum. Measure it again, or look for motor-boating.'
			};

/** Figures that cannot all be true, with the cure. */
export function rippleContradiction(given: SupplyGiven): Problem | undefined {
	const checks = [regulation, rippleAboveDc, overload, sectionParts, nearResonance, sectionDrop, noMainsHum];
	for (const check of checks) {
		const problem = check(given);
		if (problem) return problem;
	}
	const results = ripplesOf(given);
	return emptyReservoir(given, results) ?? exhausted(given, results) ?? filterDrop(given, results);
}
