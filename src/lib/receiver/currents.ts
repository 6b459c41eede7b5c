import { printQuantity } from '../quantity/index.ts';
import { limitsOf, operatingPoints } from '../valves/index.ts';
import type { Plan } from './plan.ts';
import { HT_NEGATIVE } from './back-bias.ts';
import { readAt, type SurveyRow } from './survey-row.ts';

/** A part value of the set at hand. */
export interface PartValue {
	/** Base units. */
	value: number;
	/** What the ohmmeter showed on it cold, base units. */
	measured?: number;
	/** `false`: `value` is what was measured, nobody has read its mark. */
	marked?: false;
	/** Its name on the drawing: "R12". */
	name?: string;
	/** Rating marked on it, watts. */
	watts?: number;
}

/** A current or a dissipation worked out from readings, with the limit that it has to stay under. */
export interface Worked {
	/** The point beside which it is shown. */
	point: string;
	what: string;
	value: number;
	unit: 'A' | 'W';
	limit?: number;
	/** Whose limit it is. */
	limitOf?: string;
	/** How it was reckoned: "17.5 V over 224 ohm". */
	from: string;
	over: boolean;
}

const figure = (value: number, unit: 'V' | 'ohm'): string => printQuantity(value, unit, { digits: 3 });

interface Drop {
	volts: number;
	current: number;
	words: string;
}

function dropAcross(
	part: PartValue | undefined,
	high: number | undefined,
	low: number | undefined
): Drop | undefined {
	if (!part || part.value <= 0 || high === undefined || low === undefined || high < low) return undefined;
	const volts = high - low;
	const { value, measured = value } = part;
	return {
		volts,
		current: volts / measured,
		words: `${figure(volts, 'V')} over ${figure(measured, 'ohm')}`
	};
}

/** The supply that an electrode hangs on: HT after the smoothing, or the reservoir where the electrode stands above that. */
function supplyOver(rows: readonly SurveyRow[], volts: number): number | undefined {
	const [smoothed, reservoir] = [readAt(rows, 'ht.smoothed'), readAt(rows, 'ht.reservoir')];
	return [smoothed, reservoir].find((supply) => supply !== undefined && supply >= volts);
}

const worked = (
	point: string,
	what: string,
	unit: Worked['unit'],
	value: number,
	from: string,
	limit?: number,
	limitOf?: string
): Worked => ({
	point,
	what,
	unit,
	value,
	from,
	over: limit !== undefined && value > limit,
	...(limit === undefined ? {} : { limit }),
	...(limitOf === undefined ? {} : { limitOf })
});

const heat = (point: string, name: string, drop: Drop, part: PartValue): Worked =>
	worked(
		point,
		`Heat in ${part.name ?? name}`,
		'W',
		drop.volts * drop.current,
		drop.words,
		part.watts,
		'the part'
	);

/** Limit of a valve's system, in base units; the first system that has it where none is named. */
function limit(type: string | undefined, system: string | undefined, key: string, scale: number) {
	if (type === undefined) return undefined;
	const own = limitsOf(type, system);
	const all = own.length > 0 ? own : limitsOf(type);
	const figure = all.map(({ block }) => block.figures[key]).find((value) => value !== undefined);
	return figure === undefined ? undefined : figure * scale;
}

/** Share of the cathode current that the anode takes, by the working point. */
function anodeShare(type: string, system: string | undefined): number {
	const point = operatingPoints(type, system).find(({ block }) => block.figures['ia_ma'] !== undefined);
	const { ia_ma: ia = 1, ig2_ma: ig2 = 0 } = point?.block.figures ?? {};
	return ia / (ia + ig2);
}

type Parts = Readonly<Record<string, PartValue>>;

/** The current of the whole set flows through a bias resistor in HT negative. */
function ofBackBias(plan: Plan, rows: readonly SurveyRow[], parts: Parts): Worked[] {
	const { id } = HT_NEGATIVE;
	const part = parts[`${id}-resistor`];
	const drop = dropAcross(part, 0, readAt(rows, id));
	if (!drop || !part) return [];
	const rectifier = plan.valves[plan.lines['ht']?.valve ?? '']?.type;
	const most = limit(rectifier, undefined, 'dc_max_ma', 1e-3);
	return [
		worked(id, 'Current of the whole set', 'A', drop.current, drop.words, most, rectifier),
		heat(id, part.name ?? 'the bias resistor', drop, part)
	];
}

function ofSupply(plan: Plan, rows: readonly SurveyRow[], parts: Parts): Worked[] {
	const part = parts['ht.smoothing-resistor'];
	const drop = dropAcross(part, readAt(rows, 'ht.reservoir'), readAt(rows, 'ht.smoothed'));
	if (!drop || !part) return [];
	const rectifier = plan.valves[plan.lines['ht']?.valve ?? '']?.type;
	const most = limit(rectifier, undefined, 'dc_max_ma', 1e-3);
	const name = part.name ?? 'the smoothing resistor';
	return [
		worked('ht.smoothed', `Current through ${name}`, 'A', drop.current, drop.words, most, rectifier),
		heat('ht.smoothed', name, drop, part)
	];
}

interface Stage {
	prefix: string;
	type: string;
	system: string | undefined;
	rows: readonly SurveyRow[];
}

/** Points that share the first half of their names belong to one electrode system. */
function stagesOf(plan: Plan, rows: readonly SurveyRow[]): Stage[] {
	const prefixes = [...new Set(rows.map(({ point }) => point.id.split('.')[0] ?? ''))];
	return prefixes.flatMap((prefix): Stage[] => {
		const own = rows.filter(({ point, out }) => point.id.startsWith(`${prefix}.`) && !out);
		const { valve, system } = own.find(({ point }) => point.electrode === 'a')?.point ?? {};
		const type = plan.valves[valve ?? '']?.type;
		return type === undefined ? [] : [{ prefix, type, system, rows: own }];
	});
}

function ofStage({ prefix, type, system, rows }: Stage, all: readonly SurveyRow[], parts: Parts): Worked[] {
	const result: Worked[] = [];
	const id = (electrode: string) => `${prefix}.${electrode}`;
	const [anode, screen, cathode] = ['anode', 'screen', 'cathode'].map((name) => readAt(rows, id(name)));
	const part = (name: string) => parts[`${id(name)}-resistor`];
	const through = (name: string, volts: number | undefined) =>
		volts === undefined ? undefined : dropAcross(part(name), supplyOver(all, volts), volts);

	const down = dropAcross(part('cathode'), cathode, 0);
	if (down) {
		const most = limit(type, system, 'ik_max_ma', 1e-3);
		result.push(worked(id('cathode'), 'Cathode current', 'A', down.current, down.words, most, type));
		if (part('cathode')?.watts)
			result.push(heat(id('cathode'), 'the resistor', down, part('cathode') as PartValue));
	}
	const screenDrop = through('screen', screen);
	if (screenDrop && screen !== undefined) {
		const lost = (screen - (cathode ?? 0)) * screenDrop.current;
		const most = limit(type, system, 'pg2_max_w', 1);
		result.push(worked(id('screen'), 'Screen current', 'A', screenDrop.current, screenDrop.words));
		result.push(
			worked(id('screen'), 'Screen dissipation', 'W', lost, 'screen volts times screen current', most, type)
		);
	}
	const anodeDrop = through('anode', anode);
	const share =
		down && down.current * (screenDrop ? 1 : anodeShare(type, system)) - (screenDrop?.current ?? 0);
	const current = anodeDrop?.current ?? (share !== undefined && share > 0 ? share : undefined);
	if (current !== undefined && anode !== undefined) {
		const by = anodeDrop?.words ?? 'cathode current less the screen’s';
		const most = limit(type, system, 'pa_max_w', 1);
		result.push(worked(id('anode'), 'Anode current', 'A', current, by));
		result.push(
			worked(
				id('anode'),
				'Anode dissipation',
				'W',
				(anode - (cathode ?? 0)) * current,
				'anode volts times anode current',
				most,
				type
			)
		);
		const fed = part('anode');
		if (anodeDrop && fed?.watts) result.push(heat(id('anode'), 'the anode resistor', anodeDrop, fed));
	}
	return result;
}

/** Currents and dissipations from the drops read and the part values known, each against its limit. */
export function workedOut(plan: Plan, rows: readonly SurveyRow[], parts: Parts): Worked[] {
	return [
		...ofSupply(plan, rows, parts),
		...ofBackBias(plan, rows, parts),
		...stagesOf(plan, rows).flatMap((stage) => ofStage(stage, rows, parts))
	];
}
