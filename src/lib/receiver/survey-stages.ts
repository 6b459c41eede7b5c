import { parseAnyQuantity } from '../quantity/index.ts';
import type { PartValue } from './currents.ts';
import type { Plan } from './plan.ts';
import {
	checkStage,
	pointOf,
	type Closer,
	type PartId,
	type PartValue as StagePart,
	type ReadingId,
	STAGES,
	type StageFinding,
	type StageKind,
	type MixerQuestion,
	type StageQuestion,
	type ValveQuestion
} from './stage-check/index.ts';
import { readAt, type SurveyRow } from './survey-row.ts';
import { tuningMoves } from './tuned.ts';

/** What the sheet's own volts say of a feed is as good as the valve's published current (our own choice, per cent). */
const BY_THE_SHEET = 30;

/** What the readings of one stage say together. */
export interface StageSays {
	/** Stage of the plan. */
	stage: string;
	title: string;
	finding: StageFinding;
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
	closer: readonly Closer[],
	extra: Extra
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
			: []),
		...closer.map(({ id }): [ReadingId, number | undefined] => [id, extra[`${prefix}.${id}`]])
	];
	return Object.fromEntries(found.filter(([, value]) => value !== undefined));
}

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

function partsOf(plan: Plan, keys: readonly [PartId, string][], parts: Readonly<Record<string, PartValue>>) {
	const value = (key: string): StagePart | undefined => {
		const own = parts[key];
		if (own) return own.measured === undefined ? own.value : { value: own.value, measured: own.measured };
		const usual = plan.values[key];
		const read = usual && parseAnyQuantity(usual.value);
		return read?.ok ? read.value : undefined;
	};
	const found = keys.map(([id, key]): [PartId, StagePart | undefined] => [id, value(key)]);
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

/**
 * Stages with enough readings, each put together into a statement: what flows, whether it adds up, which part would explain it.
 *
 * @param extra readings that the check asked for, by their point
 * @param meter input resistance of the own meter, ohms
 */
export function stagesSay(
	plan: Plan,
	all: readonly SurveyRow[],
	parts: Readonly<Record<string, PartValue>>,
	meter: number | undefined,
	extra: Extra = {}
): StageSays[] {
	// AVC changes all currents of its stage at once: such readings do not go together with the published point.
	const rows = all.filter(({ point, tuned }) => !tuned || !tuningMoves(plan, point.stage, tuned));
	const prefixes = [...new Set(rows.map(({ point }) => point.id.split('.')[0] ?? ''))];
	return prefixes.flatMap((prefix): StageSays[] => {
		const anode = rows.find(({ point }) => point.id === `${prefix}.anode`)?.point;
		const stage = plan.stages[anode?.stage ?? ''];
		const kind = KINDS[stage?.section ?? ''];
		const type = plan.valves[anode?.valve ?? '']?.type;
		if (!anode || !stage || !kind || type === undefined) return [];
		const { closer } = STAGES[kind];
		const readings = readingsOf(rows, prefix, closer, extra);
		const question = questionOf(type, kind);
		if (!question || readings.ht === undefined || Object.keys(readings).length < LEAST_READINGS) return [];
		const own = partsOf(plan, keysOf(prefix, kind), parts);
		const finding = checkStage({
			...question,
			readings,
			...own,
			parts: { ...partsBySheet(rows, prefix, kind, question.valve), ...own.parts },
			...(meter === undefined ? {} : { meter: { ohms: meter } })
		} as StageQuestion);
		return finding.verdict === 'too-little' || finding.verdict === 'impossible'
			? []
			: [
					{
						stage: anode.stage,
						title: `${stage.title}, ${type}`,
						finding,
						closer: closer
							.filter(({ id }) => id === finding.lookNext?.reading || readings[id] !== undefined)
							.map((one) => ({ ...one, point: `${prefix}.${one.id}` }))
					}
				];
	});
}
