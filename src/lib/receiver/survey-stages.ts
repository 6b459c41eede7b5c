import { parseAnyQuantity } from '../quantity/index.ts';
import type { PartValue } from './currents.ts';
import type { Plan } from './plan.ts';
import {
	askable,
	checkStage,
	pointOf,
	type Closer,
	type PartId,
	type PartValue as StagePart,
	type ReadingId,
	type StageFinding,
	type StageKind,
	stageOf,
	type MixerQuestion,
	type StageQuestion,
	type ValveQuestion
} from './stage-check/index.ts';
import { readAt, type SurveyRow } from './survey-row.ts';
import { supplyAsked, type SupplyFacts } from './survey-supply.ts';
import { tuningMoves } from './tuned.ts';
import { isWrong } from './verdict.ts';

/** What the sheet's own volts say of a feed is as good as the valve's published current (our own choice, per cent). */
const BY_THE_SHEET = 30;
/** Old carbon resistors as marked, per cent. */
const AS_MARKED = 20;

/** What the readings of one stage say together. */
export interface StageSays {
	/** Stage of the plan. */
	stage: string;
	title: string;
	finding: StageFinding;
	/** Figures that no sheet gave, in a sentence. */
	basis?: string;
	/** Readings that the check asks for now or that were taken because it did, each with the point that it is kept under. */
	closer: readonly CloserPoint[];
}

/** A reading that only a stage check asks for. */
export interface CloserPoint extends Closer {
	/** `output.lifted-grid`. */
	point: string;
}

const KINDS: Readonly<Record<string, StageKind>> = {
	output: 'output-pentode',
	audio: 'triode-audio',
	if: 'if-pentode',
	mixer: 'triode-heptode'
};

/** HT and two electrodes: fewer say nothing that the rows do not say already. */
const LEAST_READINGS = 3;

/** Readings by point that no plan lists. */
type Extra = Readonly<Record<string, number>>;

function readingsOf(
	rows: readonly SurveyRow[],
	prefix: string,
	extra: Extra,
	closer: readonly Closer[]
): Partial<Record<ReadingId, number>> {
	const found: [ReadingId, number | undefined][] = [
		['ht', readAt(rows, 'ht.smoothed')],
		['anode', readAt(rows, `${prefix}.anode`)],
		['screen', readAt(rows, `${prefix}.screen`)],
		['cathode', readAt(rows, `${prefix}.cathode`)],
		['grid', readAt(rows, `${prefix}.grid`)],
		// The output valve is driven by the audio stage.
		...(prefix === 'output'
			? ([['before', readAt(rows, 'af.anode')]] as [ReadingId, number | undefined][])
			: []),
		...(prefix === 'mixer'
			? ([
					['oscillator-anode', readAt(rows, 'oscillator.anode')],
					['oscillator-grid', readAt(rows, 'oscillator.grid')]
				] as [ReadingId, number | undefined][])
			: [])
	];
	return { ...taken(found), ...askedFor(prefix, extra, closer) };
}

const taken = (found: readonly [ReadingId, number | undefined][]): Partial<Record<ReadingId, number>> =>
	Object.fromEntries(found.filter(([, value]) => value !== undefined));

const askedFor = (prefix: string, extra: Extra, closer: readonly Closer[]) =>
	taken(closer.map(({ id }): [ReadingId, number | undefined] => [id, extra[`${prefix}.${id}`]]));

/**
 * Feeds and cathode resistor as the volts of the sheet and the published currents make them: an IF anode that the sheet has at 200 V of
 * 250 V is fed through more than its winding. Audio triodes run far from their published point, so nothing is said of them.
 */
function partsBySheet(
	rows: readonly SurveyRow[],
	prefix: string,
	kind: StageKind,
	valve: StageValve
): Partial<Record<PartId, StagePart>> {
	if (kind === 'triode-audio') return {};
	const printed = (id: string) => {
		const expected = rows.find(({ point }) => point.id === id)?.expected;
		return expected?.basis === 'sheet' ? expected.value : undefined;
	};
	const [ht, anode, screen, cathode] = [
		printed('ht.smoothed'),
		...['anode', 'screen', 'cathode'].map((name) => printed(`${prefix}.${name}`))
	];
	const over = (high: number | undefined, low: number | undefined, amps: number | undefined) =>
		high !== undefined && low !== undefined && amps && high > low
			? { value: (high - low) / amps, tolerance: BY_THE_SHEET }
			: undefined;
	const { anodeCurrent, screenCurrent = 0 } = valve;
	const found = {
		primary: over(ht, anode, anodeCurrent),
		'screen-feed': over(ht, screen, screenCurrent),
		'cathode-resistor': over(cathode, 0, anodeCurrent + screenCurrent)
	};
	return Object.fromEntries(Object.entries(found).filter(([, part]) => part !== undefined));
}

/** Names of the parts of a stage in plan and set data. */
const keysOf = (prefix: string, kind: StageKind): [PartId, string][] => [
	[kind === 'triode-audio' ? 'anode-load' : 'primary', `${prefix}.anode-resistor`],
	['screen-feed', `${prefix}.screen-resistor`],
	['cathode-resistor', `${prefix}.cathode-resistor`],
	['grid-leak', `${prefix}.grid-leak`],
	...(kind === 'triode-heptode'
		? ([['oscillator-feed', 'oscillator.anode-resistor']] as [PartId, string][])
		: [])
];

/** What the list of the set, the ohmmeter, the sheet's own volts and the kind of set say of the parts of a stage, in this order. */
function partsOf(
	plan: Plan,
	keys: readonly [PartId, string][],
	parts: Readonly<Record<string, PartValue>>,
	bySheet: Partial<Record<PartId, StagePart>>
) {
	const usual = (key: string): number | undefined => {
		const read = plan.values[key] && parseAnyQuantity(plan.values[key].value);
		return read?.ok ? read.value : undefined;
	};
	const value = (id: PartId, key: string): StagePart | undefined => {
		const own = parts[key];
		if (!own) return bySheet[id] ?? usual(key);
		if (own.measured === undefined) return { value: own.value, tolerance: AS_MARKED };
		// Where nobody has read its mark, what it should be follows from the sheet, or from the kind of set.
		const meant = own.marked === false ? (bySheet[id] ?? usual(key) ?? own.value) : own.value;
		return { ...(typeof meant === 'number' ? { value: meant } : meant), measured: own.measured };
	};
	const found = keys.map(([id, key]): [PartId, StagePart | undefined] => [id, value(id, key)]);
	const names = keys.map(([id, key]): [PartId, string | undefined] => [id, parts[key]?.name]);
	return {
		parts: Object.fromEntries(found.filter(([, one]) => one !== undefined)),
		names: Object.fromEntries(names.filter(([, name]) => name !== undefined))
	};
}

type StageValve = ValveQuestion['valve'];

function questionOf(
	type: string,
	kind: StageKind
): (Pick<StageQuestion, 'stage'> & { valve: StageValve }) | undefined {
	const point = pointOf(type, kind);
	if (!point || !('valve' in point)) return undefined;
	const { valve, oscillator } = point;
	if (kind === 'triode-heptode') return oscillator && ({ stage: kind, valve, oscillator } as MixerQuestion);
	return { stage: kind, valve } as ValveQuestion;
}

const MUTE: readonly StageFinding['verdict'][] = ['too-little', 'impossible'];

/** A check takes a tenth of a second; most readings leave most stages as they were. */
const REMEMBERED = 40;
const findings = new Map<string, StageFinding>();

function checked(question: StageQuestion): StageFinding {
	const key = JSON.stringify(question);
	const known = findings.get(key);
	if (known) return known;
	const [oldest] = findings.keys();
	if (findings.size >= REMEMBERED && oldest !== undefined) findings.delete(oldest);
	const finding = checkStage(question);
	findings.set(key, finding);
	return finding;
}

/** What a question comes to, with the readings that its check asks for. */
function said(
	question: StageQuestion,
	prefix: string,
	{ stage, title, basis }: Pick<StageSays, 'stage' | 'title' | 'basis'>
): StageSays[] {
	const finding = checked(question);
	if (MUTE.includes(finding.verdict)) return [];
	const closer = askable(stageOf(question))
		.filter(({ id }) => id === finding.lookNext?.reading || question.readings[id] !== undefined)
		.map((one) => ({ ...one, point: `${prefix}.${one.id}` }));
	return [{ stage, title, finding, closer, ...(basis === undefined ? {} : { basis }) }];
}

/** What the readings of a survey rest on besides the plan. */
export interface Bench {
	parts: Readonly<Record<string, PartValue>>;
	/** Input resistance of the own meter, ohms. */
	meter?: number | undefined;
	/** Readings that a check asked for, by their point. */
	extra?: Extra;
	supply?: SupplyFacts;
}

const SUPPLY_POINTS = ['ht.reservoir', 'ht.smoothed'];
/** Usual figures leave so much room that a supply which reads wrong may still be sound by them. */
const TOO_LITTLE_KNOWN =
	'These volts are off, yet too little is known of this supply to say by which part. Enter the smoothing resistor, the winding, the reservoir or the HT current on the page of the set.';

/** The supply line, checked from the volts of its reservoir and of the smoothed line. */
function supplySays(plan: Plan, rows: readonly SurveyRow[], { parts, extra = {}, supply = {} }: Bench) {
	const asked = supplyAsked(plan, rows, parts, supply);
	const type = plan.valves[plan.lines['ht']?.valve ?? '']?.type;
	if (!asked || type === undefined) return [];
	const { question, basis } = asked;
	const readings = { ...question.readings, ...askedFor('ht', extra, askable(stageOf(question))) };
	const all = said({ ...question, readings }, 'ht', { stage: 'ht', title: `Supply, ${type}`, basis });
	const wrong = rows.some(({ point, verdict }) => SUPPLY_POINTS.includes(point.id) && isWrong(verdict));
	return all.map((one) =>
		wrong && one.finding.verdict === 'sound'
			? { ...one, finding: { ...one.finding, statement: TOO_LITTLE_KNOWN } }
			: one
	);
}

function stageSays(plan: Plan, rows: readonly SurveyRow[], prefix: string, bench: Bench): StageSays[] {
	const { parts, meter, extra = {} } = bench;
	const anode = rows.find(({ point }) => point.id === `${prefix}.anode`)?.point;
	const stage = plan.stages[anode?.stage ?? ''];
	const kind = KINDS[stage?.section ?? ''];
	const type = plan.valves[anode?.valve ?? '']?.type;
	const start = kind && type !== undefined ? questionOf(type, kind) : undefined;
	if (!anode || !stage || !kind || !start) return [];
	const bySheet = partsBySheet(rows, prefix, kind, start.valve);
	const own = partsOf(plan, keysOf(prefix, kind), parts, bySheet);
	const question = {
		...start,
		...own,
		parts: { ...bySheet, ...own.parts },
		...(meter === undefined ? {} : { meter: { ohms: meter } })
	};
	const { closer } = stageOf({ ...question, readings: {} } as StageQuestion);
	const readings = readingsOf(rows, prefix, extra, closer);
	if (readings.ht === undefined || Object.keys(readings).length < LEAST_READINGS) return [];
	return said({ ...question, readings } as StageQuestion, prefix, {
		stage: anode.stage,
		title: `${stage.title}, ${type}`
	});
}

/** The supply and the stages with enough readings, each put together into a statement: what flows, whether it adds up, which part would explain it. */
export function stagesSay(plan: Plan, all: readonly SurveyRow[], bench: Bench): StageSays[] {
	// AVC changes all currents of its stage at once: such readings do not go together with the published point.
	const rows = all.filter(({ point, tuned }) => !tuned || !tuningMoves(plan, point.stage, tuned));
	const prefixes = [...new Set(rows.map(({ point }) => point.id.split('.')[0] ?? ''))];
	return [
		...supplySays(plan, all, bench),
		...prefixes.flatMap((prefix) => stageSays(plan, rows, prefix, bench))
	];
}
