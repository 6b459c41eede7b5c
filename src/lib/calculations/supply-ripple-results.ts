import { ladderRatios } from './filter-ladder.ts';
import { pulsesOf, runRectifier } from './rectifier.ts';
import type { SupplyGiven } from './supply-ripple-inputs.ts';

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

/** All that follows from what was given; base units. */
export function ripplesOf(given: SupplyGiven) {
	const { frequency, capacitance, inductance, mains, peak, noLoad, fullLoad } = given;
	const reservoir = given.halfVolts === undefined ? sawTooth(given) : winding(given);
	const known = { ...(given.section === undefined && given.filter === undefined ? reservoir : {}) };
	const reactances = frequency !== undefined && given.current === undefined && given.section !== 'RC';
	// The unsmoothed wave and the ripple frequencies are told where nothing else is asked.
	const alone =
		[capacitance, given.current, given.load, given.hum, given.ripple].every((one) => !one) || undefined;
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
		averageHalf: alone && peak && peak / Math.PI,
		averageFull: alone && peak && (2 * peak) / Math.PI,
		regulation,
		halfFrequency: alone && mains,
		fullFrequency: alone && mains && 2 * mains,
		points: humWord(given)
	};
}
