import { pinOf } from '../valves/index.ts';
import { HT_NEGATIVE } from './back-bias.ts';
import { NO_ELECTRODE } from './no-electrode.ts';
import type { Plan } from './plan.ts';

/** One place of a survey: a test point of the plan, or an electrode that every stage has and the plan does not list. */
export interface SurveyPoint {
	id: string;
	title: string;
	/** Stage or line. */
	stage: string;
	/** Valve of the plan, by id. */
	valve?: string;
	/** `a`, `g2`, `g2g4`, `k`, `g1`. */
	electrode?: string;
	system?: string;
	/** Volts where not said. */
	unit?: 'V' | 'A';
	/** What to do first: of a reading that only the check of a stage asks for. */
	how?: string;
	/** It stands on a supply line itself: HT at the reservoir, after the smoothing. */
	supply: boolean;
}

/** DC that does not depend on a station: signal grids, detector and AVC are left to the steps that tune one in. */
const KINDS: Readonly<Record<string, string>> = {
	anode: 'a',
	screen: 'g2',
	cathode: 'k',
	reservoir: 'reservoir',
	smoothed: 'smoothed',
	line: 'line'
};

const ELECTRODES = ['a', 'g2', 'g2g4', 'k'];

const part = (id: string) => id.split('.')[1] ?? '';

/** The grid of an output valve rests at zero, an oscillator's is driven negative: both tell of the stage by DC alone. */
const gridTells = (plan: Plan, id: string, stage: string) =>
	part(id) === 'grid' && ['output', 'oscillator'].includes(plan.stages[stage]?.section ?? '');

function ofPlan(plan: Plan): SurveyPoint[] {
	return Object.entries(plan.points).flatMap(([id, point]): SurveyPoint[] => {
		const { title, stage, valve, electrode, system } = point;
		const supply = plan.lines[stage]?.kind === 'supply';
		const kind = supply || plan.lines[stage] === undefined ? KINDS[part(id)] : undefined;
		const wanted =
			(electrode !== undefined && ELECTRODES.includes(electrode)) ||
			kind !== undefined ||
			gridTells(plan, id, stage);
		if (!wanted || electrode === NO_ELECTRODE) return [];
		const named = electrode ?? (kind && ELECTRODES.includes(kind) ? kind : undefined);
		return [
			{
				id,
				title,
				stage,
				supply,
				...(valve === undefined ? {} : { valve }),
				...(named === undefined ? {} : { electrode: named }),
				...(system === undefined ? {} : { system })
			}
		];
	});
}

/** The cathode of each stage whose anode the plan lists: its volts are the current of the valve. */
function cathodes(plan: Plan, listed: readonly SurveyPoint[]): SurveyPoint[] {
	return listed.flatMap((point): SurveyPoint[] => {
		const id = `${point.id.split('.')[0] ?? ''}.cathode`;
		const filament = plan.traits.mains === 'battery';
		if (point.electrode !== 'a' || point.valve === undefined || filament) return [];
		const there =
			plan.points[id] !== undefined ||
			listed.some(({ valve, electrode }) => valve === point.valve && electrode === 'k');
		// A triode-heptode has one cathode: it belongs to its first stage.
		const first = listed.find(({ valve, electrode }) => valve === point.valve && electrode === 'a');
		if (there || first !== point) return [];
		const title = `Cathode of the ${lower(plan.valves[point.valve]?.title ?? point.valve)}`;
		const { stage, valve, system } = point;
		return [{ id, title, stage, valve, electrode: 'k', supply: false, ...(system ? { system } : {}) }];
	});
}

/** Where bias is made in the HT negative lead: that lead, which no plan lists. */
function htNegative(plan: Plan): SurveyPoint[] {
	const [supply] = Object.entries(plan.lines).find(([, { section }]) => section === 'power-supply') ?? [];
	if (plan.traits.bias !== 'back' || supply === undefined || plan.points[HT_NEGATIVE.id]) return [];
	return [{ ...HT_NEGATIVE, stage: supply, supply: true }];
}

const lower = (title: string) =>
	/^[A-Z][a-z]/.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title;

/** Supply, then output, audio, IF, mixer and the rest: a fault near the supply explains what lies beyond. */
const SECTIONS = ['power-supply', 'heaters', 'output', 'audio', 'if', 'mixer', 'oscillator', 'fm-tuner'];

const rank = (plan: Plan, { stage, valve }: SurveyPoint): number => {
	const own = plan.stages[stage] ?? plan.lines[stage];
	// Both halves of a triode-heptode stand on one base: they are read together.
	const sharing = Object.values(plan.stages).filter((one) => valve !== undefined && one.valve === valve);
	const places = [own, ...sharing].map((one) => SECTIONS.indexOf(one?.section ?? '')).filter((at) => at >= 0);
	return places.length > 0 ? Math.min(...places) : SECTIONS.length;
};

/** Pin to count to, where one may be named. */
function pin(plan: Plan, { valve, electrode, system }: SurveyPoint): number {
	const type = valve === undefined ? undefined : plan.valves[valve]?.type;
	if (type === undefined || electrode === undefined) return 0;
	const found = pinOf(type, electrode, system);
	return found.named ? found.pin : 0;
}

const ORDER = ['reservoir', 'smoothed', 'line', 'negative'];

/**
 * The places of a survey in the order of the work. All of them are read on full mains, so the power state changes once; the
 * supply comes first, then one base after the other, and along a base pin by pin.
 */
export function surveyPoints(plan: Plan): SurveyPoint[] {
	const listed = ofPlan(plan);
	const all = [...listed, ...htNegative(plan), ...cathodes(plan, listed)];
	const valves = Object.keys(plan.valves);
	return all
		.map((point) => ({
			point,
			keys: [
				rank(plan, point),
				point.valve === undefined ? -1 : valves.indexOf(point.valve),
				point.supply ? ORDER.indexOf(part(point.id)) : pin(plan, point)
			]
		}))
		.sort((a, b) => {
			const at = a.keys.findIndex((key, index) => key !== b.keys[index]);
			return at < 0 ? 0 : (a.keys[at] ?? 0) - (b.keys[at] ?? 0);
		})
		.map(({ point }) => point);
}
