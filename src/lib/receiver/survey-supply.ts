import { parseAnyQuantity, printQuantity } from '../quantity/index.ts';
import { findValve, limitsOf, sistersOf } from '../valves/index.ts';
import type { PartValue } from './currents.ts';
import { directMains } from './expected.ts';
import type { Plan } from './plan.ts';
import {
	pointOf,
	type RectifierPoint,
	type RectifierQuestion,
	type StageKind,
	type WorkingPoint,
	windingFor
} from './stage-check/index.ts';
import { surveyPoints } from './survey-points.ts';
import { readAt, type SurveyRow } from './survey-row.ts';

/** The supply of a set as a question for its check: what its sheet does not say comes from the valves that it feeds. */

/** What is known of the supply at hand. */
export interface SupplyFacts {
	/** AC volts RMS on each anode of the rectifier, to the centre tap, at today's mains. */
	winding?: number;
	/** F. */
	reservoir?: number;
	/** HT current of the whole set by its sheet, A. */
	current?: number;
	/** Mains of today, V. */
	mains?: number;
}

/** A question, and in words what it rests on. */
export interface SupplyAsked {
	question: RectifierQuestion;
	basis: string;
}

/**
 * Rectifiers of the usual size where a type has no published output: that of the EZ80, 250 V RMS and 90 mA; of half a wave two of
 * our own, of the size of a UY85 or UY41, and of a 35W4 for 117 V (both from memory).
 */
const USUAL_FULL_WAVE = 'EZ80';
const halfWave = (windingVolts: number, current: number, volts: number, seriesResistance: number) =>
	({ halfWave: true, windingVolts, current, volts, seriesResistance, usual: true }) as const;
const USUAL_HALF_WAVE: RectifierPoint = halfWave(220, 0.11, 210, 100);
const USUAL_FOR_117: RectifierPoint = halfWave(117, 0.1, 120, 15);
/** V RMS at most: such a rectifier is made for mains of 110 to 120 V. */
const LOW_MAINS = 130;

function rectifierOf(type: string): RectifierPoint | undefined {
	const found = findValve(type);
	if (!found.ok || !found.valve.roles.includes('rectifier')) return undefined;
	if (found.valve.kind.startsWith('half-wave')) {
		const most = limitsOf(type).map(({ block }) => block.figures['v_rms_max_v'])[0] ?? Infinity;
		return most <= LOW_MAINS ? USUAL_FOR_117 : USUAL_HALF_WAVE;
	}
	const own = pointOf(type, 'rectifier');
	if (own && 'rectifier' in own) return own.rectifier;
	const usual = pointOf(USUAL_FULL_WAVE, 'rectifier');
	return usual && 'rectifier' in usual ? { ...usual.rectifier, usual: true } : undefined;
}

/** A valve draws by about this power of its volts, where the HT is not that of its sheet. Our own choice, from the law of three halves. */
const POWER = 1.3;

/** Currents of an electrode system at this HT, A: anode alone, and with its screen. */
interface Draw {
	anode: number;
	whole: number;
}

function drawOf(type: string, kind: StageKind, ht: number): (Draw & { oscillator: number }) | undefined {
	const found = findValve(type);
	const types = found.ok ? [type, ...sistersOf(found.valve).map((sister) => sister.type)] : [];
	const point = types.map((one) => pointOf(one, kind)).find((one) => one !== undefined);
	if (!point || !('valve' in point)) return undefined;
	const { anodeVolts, anodeCurrent, screenCurrent = 0 }: WorkingPoint = point.valve;
	// An audio triode stands behind its load: its point is one at low volts already.
	const less = kind === 'triode-audio' ? 1 : Math.min(1, ht / anodeVolts) ** POWER;
	return {
		anode: less * anodeCurrent,
		whole: less * (anodeCurrent + screenCurrent),
		oscillator: less * (point.oscillator?.anodeCurrent ?? 0)
	};
}

const KINDS: Readonly<Record<string, StageKind>> = {
	output: 'output-pentode',
	audio: 'triode-audio',
	if: 'if-pentode',
	mixer: 'triode-heptode'
};

/** What the valves of a set draw by their published points, A. */
interface Drawn {
	/** Anode of the output valve, which may hang on the reservoir. */
	outputAnode: number;
	whole: number;
}

/** The tuner is left out: on AM it has no HT, and on FM the oscillator of the mixer has none. Nothing where the output valve has no data. */
export function typicalCurrent(plan: Plan, ht: number): Drawn | undefined {
	const anodes = surveyPoints(plan).filter(({ electrode, id }) => electrode === 'a' && id.endsWith('.anode'));
	const draws = anodes.flatMap(({ stage, valve }) => {
		const { section = '' } = plan.stages[stage] ?? {};
		const kind = KINDS[section];
		const type = plan.valves[valve ?? '']?.type;
		const draw = kind && type !== undefined ? drawOf(type, kind, ht) : undefined;
		return draw ? [{ section, ...draw }] : [];
	});
	const output = draws.find(({ section }) => section === 'output');
	return (
		output && {
			outputAnode: output.anode,
			whole: draws.reduce((sum, { whole, oscillator }) => sum + whole + oscillator, 0)
		}
	);
}

/** Less than this is no drop that a current could be reckoned from, V. */
const LEAST_DROP = 3;
/** As marked, and what follows from usual volts and currents alone; per cent. Our own choice. */
const MARKED = 20;
const USUAL = 60;

/** Of currents that are typical, that a drop of the sheet gives, and of a winding that the sheet's volts give; as shares. Our own choice. */
const UNSURE = { typical: 0.3, bySheet: 0.12, winding: 0.05 };

interface Loads {
	load: number;
	direct: number;
	unsure: NonNullable<RectifierQuestion['unsure']>;
	words: string;
}

const amps = (value: number) => printQuantity(value, 'A', { digits: 2 });

/** What is known of the loads beforehand. */
interface LoadFacts {
	drawn: Drawn;
	/** Of the whole set, by its sheet, A. */
	given: number | undefined;
	/** Through the smoothing: expected drop over resistance, A; `sure` where both are of this set. */
	through: { amps: number; sure: boolean } | undefined;
	/** The output anode is expected above the smoothed line. */
	above: boolean;
}

/**
 * Whether the output anode hangs on the reservoir or behind the smoothing: whichever comes nearer to the current that the drop across
 * a known smoothing resistor gives.
 */
function loadsOf({ drawn, given, through, above }: LoadFacts): Loads {
	const whole = given ?? drawn.whole;
	const behind = Math.max(whole - drawn.outputAnode, 0.1 * whole);
	const off = (amperes: number) => Math.abs(Math.log((through?.amps ?? amperes) / amperes));
	const split = through === undefined ? above : off(behind) < off(whole);
	const load = through?.sure ? through.amps : split ? behind : whole;
	const direct = split ? whole - behind : 0;
	const told = given === undefined ? 'typical, from valve data' : 'by its sheet';
	const typical = given === undefined ? { load: UNSURE.typical, direct: UNSURE.typical } : {};
	const drop = through?.sure ? ' (by the drop of the sheet)' : '';
	return {
		load,
		direct,
		unsure: { ...typical, ...(through?.sure && { load: UNSURE.bySheet }) },
		words: split
			? `${amps(load)} through the smoothing${drop} and ${amps(direct)} straight from the reservoir (${told})`
			: `${amps(load)} in all, through the smoothing${drop || ` (${told})`}`
	};
}

function usualSmoothing({ values }: Plan): number | undefined {
	const usual = values['ht.smoothing-resistor'];
	const read = usual && parseAnyQuantity(usual.value);
	return read?.ok ? read.value : undefined;
}

/** Volts that the set should have at both ends of its smoothing. */
interface Expected {
	reservoir: number;
	drop: number;
	/** Both by the sheet of the set. */
	bySheet: boolean;
}

function expectedOf(rows: readonly SurveyRow[]): Expected | undefined {
	const at = (id: string) => rows.find(({ point }) => point.id === id)?.expected;
	const [full, line] = [at('ht.reservoir'), at('ht.smoothed')];
	return (
		full &&
		line && {
			reservoir: full.value,
			drop: full.value - line.value,
			bySheet: full.basis === 'sheet' && line.basis === 'sheet'
		}
	);
}

/** As marked or as measured; of one that was only measured, and of one that nobody knows, what volts and load ask for. */
function smoothingOf(part: PartValue | undefined, { drop }: Expected, load: number) {
	const meant = drop >= LEAST_DROP ? { value: drop / load, tolerance: USUAL } : undefined;
	if (!part) return meant;
	const { value, measured, marked } = part;
	if (measured === undefined) return { value, tolerance: MARKED };
	return marked === false ? { ...(meant ?? { value }), measured } : { value, measured };
}

/** Current through the smoothing: the expected drop over the resistance that should be there. */
function throughOf(
	plan: Plan,
	part: PartValue | undefined,
	{ drop, bySheet }: Expected
): LoadFacts['through'] {
	const marked = part?.marked === false ? undefined : part?.value;
	const ohms = marked ?? usualSmoothing(plan);
	return ohms && drop >= LEAST_DROP
		? { amps: drop / ohms, sure: bySheet && marked !== undefined }
		: undefined;
}

/** Both volts as read; nothing where one is missing, or where the gram switch had taken the radio stages off the line. */
function voltsRead(rows: readonly SurveyRow[]): { reservoir: number; smoothed: number } | undefined {
	const [reservoir, smoothed] = [readAt(rows, 'ht.reservoir'), readAt(rows, 'ht.smoothed')];
	const gram = rows.some(({ point, tuned }) => point.supply && tuned === 'gram');
	return reservoir === undefined || smoothed === undefined || gram ? undefined : { reservoir, smoothed };
}

/**
 * The question for the check of a supply with a valve rectifier; nothing where its volts were not read or its valves have no data.
 *
 * @param rows of the survey
 * @param parts by key, as the set has them
 */
export function supplyAsked(
	plan: Plan,
	rows: readonly SurveyRow[],
	parts: Readonly<Record<string, PartValue>>,
	facts: SupplyFacts
): SupplyAsked | undefined {
	const type = plan.valves[plan.lines['ht']?.valve ?? '']?.type;
	const rectifier = type === undefined || plan.traits.rectifier !== 'valve' ? undefined : rectifierOf(type);
	const [readings, expected] = [voltsRead(rows), expectedOf(rows)];
	if (!rectifier || !readings || !expected) return undefined;
	const line = expected.reservoir - expected.drop;
	const drawn = typicalCurrent(plan, line);
	if (!drawn) return undefined;
	const part = parts['ht.smoothing-resistor'];
	const outputAnode = rows.find(({ point }) => point.id === 'output.anode')?.expected?.value ?? 0;
	const { words, unsure, load, direct } = loadsOf({
		drawn,
		given: facts.current,
		through: throughOf(plan, part, expected),
		above: outputAnode > line
	});
	const smoothing = smoothingOf(part, expected, load);
	const known = {
		stage: 'rectifier' as const,
		rectifier,
		load,
		direct,
		parts: {
			...(smoothing && { smoothing }),
			...(facts.reservoir !== undefined && { 'reservoir-capacitor': facts.reservoir })
		},
		...(part?.name === undefined ? {} : { names: { smoothing: part.name } })
	};
	const winding = windingOf(plan, rectifier, facts, () => windingFor(known, expected.reservoir));
	const basis = [
		`Reckoned with ${words}`,
		winding.words(expected.bySheet ? 'the volts of the sheet' : 'the usual volts'),
		...(rectifier.usual ? [`a usual rectifier: the data give no output of the ${type ?? ''}`] : [])
	];
	const sure = winding.fed.usualWinding !== undefined && expected.bySheet ? { winding: UNSURE.winding } : {};
	return {
		question: { ...known, ...winding.fed, unsure: { ...unsure, ...sure }, readings },
		basis: `${basis.join(', ')}.`
	};
}

const volts = (value: number) => printQuantity(value, 'V', { digits: 3 });

/** What feeds the rectifier, and in words by what it is known. */
interface Winding {
	fed: Pick<RectifierQuestion, 'windingVolts' | 'usualWinding'>;
	words: (by: string) => string;
}

/** The winding by the sheet, the mains where the rectifier stands on them, else what the expected reservoir needs. */
function windingOf(
	plan: Plan,
	{ halfWave }: RectifierPoint,
	{ winding, mains }: SupplyFacts,
	needed: () => number
): Winding {
	if (winding !== undefined)
		return {
			fed: { windingVolts: winding },
			words: () => `${volts(winding)} AC on each half of the winding`
		};
	const direct = halfWave && mains !== undefined ? directMains(plan, { mains }) : undefined;
	if (direct !== undefined)
		return { fed: { windingVolts: direct }, words: () => `${volts(direct)} AC of the mains` };
	const usualWinding = needed();
	return {
		fed: { usualWinding },
		words: (by) =>
			`${volts(usualWinding)} AC on ${halfWave ? 'the anode' : 'each anode'}, which ${by} ask for`
	};
}
