import type { Given, Inputs, Problem } from './define.ts';
import { ladderRatios } from './filter-ladder.ts';
import { choice, column, number, optional, rows } from './inputs.ts';
import type { Picture } from './picture.ts';
import { pulsesOf, runRectifier } from './rectifier.ts';

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
			{ most: 12 }
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

type SupplyGiven = Given<typeof inputs>;

const perCycle = ({ rectifier }: SupplyGiven): 1 | 2 => (rectifier === 'half' ? 1 : 2);
/** RMS of a saw-tooth, from its height. */
const ROOT_TWELVE = 2 * Math.sqrt(3);

function rippleFrequency(given: SupplyGiven): number | undefined {
	if (given.frequency !== undefined) return given.frequency;
	return given.mains !== undefined && given.rectifier ? given.mains * perCycle(given) : undefined;
}

/** Reservoir with a known direct current: the saw-tooth. */
function sawTooth(given: SupplyGiven) {
	const { current, capacitance, measured, peak, kind } = given;
	const frequency = rippleFrequency(given);
	if (current === undefined || capacitance === undefined || frequency === undefined) return {};
	const ripple = current / (frequency * capacitance);
	return {
		ripple,
		rippleRms: ripple / ROOT_TWELVE,
		dc: peak !== undefined && peak > ripple / 2 ? peak - ripple / 2 : undefined,
		measuredShare: measured === undefined ? undefined : (100 * measured) / ripple,
		capacitorCurrent: kind && current * (kind === 'valve' ? 1.7 : 3)
	};
}

/** Reservoir with a load that is a resistance. */
function resistiveLoad(given: SupplyGiven) {
	const { mains, load, capacitance, peak, factor } = given;
	if (mains === undefined || load === undefined) return {};
	const scale = (given.rectifier === 'half' ? 2 : 1) / (4 * Math.sqrt(3) * mains * load);
	if (factor !== undefined) return { capacitance: scale / factor };
	if (capacitance === undefined || peak === undefined) return {};
	const dc = peak / (1 + 1 / ((given.rectifier === 'half' ? 2 : 4) * mains * capacitance * load));
	return { factor: scale / capacitance, dc, current: dc / load };
}

/** Behind a measured ripple: the capacitor wanted, or the current drawn. */
function fromRipple(given: SupplyGiven) {
	const { mains, ripple, dc, current, capacitance } = given;
	if (mains === undefined || ripple === undefined || dc === undefined) return {};
	if (current !== undefined) {
		const pulses = pulsesOf(dc, ripple, current, mains, perCycle(given));
		return {
			conducting: pulses.conducting,
			capacitance: pulses.capacitance,
			sawToothCapacitance: pulses.sawTooth,
			pulse: pulses.pulse,
			capacitorCurrent: pulses.capacitorCurrent
		};
	}
	if (capacitance === undefined) return {};
	const drawn = ripple * perCycle(given) * mains * capacitance;
	return { loadCurrent: drawn, load: dc / drawn, factor: ripple / ROOT_TWELVE / dc };
}

function winding({ halfVolts, sideOhms, capacitance, current, mains }: SupplyGiven) {
	if (halfVolts === undefined || sideOhms === undefined) return {};
	if (capacitance === undefined || current === undefined || mains === undefined) return {};
	const peak = Math.SQRT2 * halfVolts;
	const { dc, ripple, capacitorCurrent } = runRectifier({
		peak,
		ohms: sideOhms,
		capacitance,
		current,
		mains
	});
	// A winding that cannot keep up with the current has no direct volts to speak of.
	return dc > 0 ? { dc, ripple, capacitorCurrent } : {};
}

/** One section by itself, without a load on its AC side. */
function oneSection(given: SupplyGiven) {
	const { section, frequency, capacitance, resistance, inductance, dcIn, load, rippleIn, acIn, current } =
		given;
	if (section === undefined || frequency === undefined || capacitance === undefined) return {};
	const part = section === 'RC' ? { resistance, capacitance } : { inductance, capacitance };
	const [ratio = NaN] = ladderRatios([part], frequency);
	const drop = section === 'RC' && resistance !== undefined ? resistance : 0;
	const byLoad = dcIn !== undefined && load !== undefined ? (dcIn * load) / (load + drop) : undefined;
	const dc = byLoad ?? (dcIn !== undefined && current !== undefined ? dcIn - current * drop : undefined);
	const left = rippleIn === undefined ? undefined : rippleIn * ratio;
	return {
		ratio,
		decibels: 20 * Math.log10(ratio),
		dc,
		leftRms: left,
		leftPct: left !== undefined && dc ? (100 * left) / dc : undefined,
		acOut: acIn === undefined ? undefined : acIn * ratio
	};
}

/** Ripple after each section, peak to peak where the reservoir's is known, else as a share. */
function alongFilter(given: SupplyGiven, ripple: number | undefined, dc: number | undefined) {
	const { sections, current = 0, load } = given;
	const frequency = rippleFrequency(given);
	if (sections === undefined || frequency === undefined) return {};
	const ratios = ladderRatios(sections, frequency, load);
	let volts = dc;
	const along = sections.map(({ resistance = 0 }, i) => {
		volts = volts === undefined ? undefined : volts - current * resistance;
		const ratio = ratios[i] ?? NaN;
		return {
			after: `section ${i + 1}`,
			ratio,
			V_pp: ripple === undefined ? null : ripple * ratio,
			V_dc: volts ?? null
		};
	});
	const ratio = ratios.at(-1) ?? NaN;
	return { along, ratio, decibels: 20 * Math.log10(ratio), leftPp: ripple && ripple * ratio };
}

function chokeInputResults({ filter, inductance, capacitance, mains, load }: SupplyGiven) {
	if (filter === undefined || inductance === undefined || capacitance === undefined || mains === undefined)
		return {};
	const w = 4 * Math.PI * mains;
	const critical = load && load / (6 * Math.PI * mains);
	return { factor: Math.SQRT2 / 3 / (w * capacitance * w * inductance), criticalChoke: critical };
}

/** Where the hum comes from, by its frequency. */
function humWord({ hum, mains, rectifier }: SupplyGiven): string | undefined {
	if (hum === undefined || mains === undefined || rectifier === undefined) return undefined;
	const atMains = hum < 1.5 * mains;
	if (rectifier === 'half') return atMains ? 'smoothing, heaters or pick-up' : 'not the reservoir alone';
	return atMains ? 'not the smoothing' : 'the smoothing';
}

const near = (one: number, other: number): boolean => Math.abs(one / other - 1) < 0.1;

function picture(
	along: readonly { V_pp: number | null; ratio: number }[],
	ripple: number | undefined
): Picture {
	const values = [ripple ?? 1, ...along.map(({ V_pp, ratio }) => V_pp ?? ratio)];
	return {
		title: 'Ripple along the filter',
		x: {
			label: 'After',
			unit: 'number',
			ticks: values.map((_, at) => ({ at, label: at === 0 ? 'reservoir' : `section ${at}` }))
		},
		y:
			ripple === undefined
				? { label: 'Ripple, share of the reservoir’s', unit: 'number', scale: 'log' }
				: { label: 'Ripple, peak to peak', unit: 'V', scale: 'log' },
		curves: [{ label: 'ripple', style: 'solid', points: values.map((value, at) => [at, value] as const) }]
	};
}

/** Figures that cannot all be true, with the cure. */
export function rippleContradiction(given: SupplyGiven): Problem | undefined {
	const { noLoad, fullLoad, dc, ripple, sections, section, inductance, capacitance, frequency, hum, mains } =
		given;
	if (noLoad !== undefined && fullLoad !== undefined && fullLoad > noLoad)
		return { key: 'V_full_load', message: 'V_full_load is above V_no_load. Read both again, set warm.' };
	if (dc !== undefined && ripple !== undefined && ripple >= 2 * dc)
		return {
			key: 'V_pp',
			message: 'V_pp is more than V_dc can carry. Check that the meter blocks DC, and its range.'
		};
	if (sections?.some(({ resistance, inductance: choke }) => resistance === undefined && choke === undefined))
		return {
			key: 'sections',
			message: 'sections: each needs R_ohm or L_H before its capacitor. Fill one of them in.'
		};
	if (section === 'LC' && inductance && capacitance && frequency) {
		const product = (2 * Math.PI * frequency) ** 2 * inductance * capacitance;
		if (product <= 3)
			return {
				key: 'L_H',
				message:
					'L_H with C_uF is near resonance at the ripple: it may raise it. Take a larger choke or capacitor.'
			};
	}
	if (hum === undefined || mains === undefined || near(hum, mains) || near(hum, 2 * mains)) return undefined;
	return {
		key: 'f_hum',
		message:
			'f_hum is neither f_mains nor twice it: no mains hum. Measure it again, or look for motor-boating.'
	};
}

/** All that follows from what was given; base units. */
export function ripplesOf(given: SupplyGiven) {
	const { frequency, capacitance, inductance, mains, peak, noLoad, fullLoad } = given;
	const reservoir = given.halfVolts === undefined ? sawTooth(given) : winding(given);
	const known = { ...(given.section === undefined && given.filter === undefined ? reservoir : {}) };
	const reactances = frequency !== undefined && given.current === undefined && given.section !== 'RC';
	const w = 2 * Math.PI * (frequency ?? NaN);
	const regulation =
		noLoad !== undefined && fullLoad !== undefined ? (100 * (noLoad - fullLoad)) / fullLoad : undefined;
	return {
		...known,
		...resistiveLoad(given),
		...fromRipple(given),
		...oneSection(given),
		...alongFilter(given, known.ripple ?? given.ripple, known.dc ?? given.dc),
		...chokeInputResults(given),
		reactanceC: reactances && capacitance !== undefined ? 1 / (w * capacitance) : undefined,
		reactanceL: reactances && inductance !== undefined ? w * inductance : undefined,
		averageHalf: peak === undefined ? undefined : peak / Math.PI,
		averageFull: peak === undefined ? undefined : (2 * peak) / Math.PI,
		regulation,
		halfFrequency: mains,
		fullFrequency: mains && 2 * mains,
		points: humWord(given)
	};
}

/** Ripple from the reservoir to the last section. */
export function ripplePictures(
	{ ripple: given }: SupplyGiven,
	{ along, ripple }: { along?: unknown; ripple?: unknown }
): Picture[] {
	if (!Array.isArray(along)) return [];
	const known = typeof ripple === 'number' ? ripple : given;
	return [picture(along as never, known)];
}
