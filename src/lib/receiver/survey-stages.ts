import { parseAnyQuantity } from '../quantity/index.ts';
import type { PartValue } from './currents.ts';
import type { Plan } from './plan.ts';
import {
	checkStage,
	pointOf,
	type PartId,
	type ReadingId,
	type StageFinding,
	type StageKind,
	type StageQuestion
} from './stage-check/index.ts';
import { readAt, type SurveyRow } from './survey-row.ts';
import { tuningMoves } from './tuned.ts';

/** What the readings of one stage say together. */
export interface StageSays {
	/** Stage of the plan. */
	stage: string;
	title: string;
	finding: StageFinding;
}

const KINDS: Readonly<Record<string, StageKind>> = {
	output: 'output-pentode',
	audio: 'triode-audio',
	if: 'if-pentode',
	mixer: 'triode-heptode'
};

/** HT and two electrodes: fewer say nothing that the rows do not say already. */
const LEAST_READINGS = 3;

function readingsOf(rows: readonly SurveyRow[], prefix: string): Partial<Record<ReadingId, number>> {
	const found: [ReadingId, number | undefined][] = [
		['ht', readAt(rows, 'ht.smoothed')],
		['anode', readAt(rows, `${prefix}.anode`)],
		['screen', readAt(rows, `${prefix}.screen`)],
		['cathode', readAt(rows, `${prefix}.cathode`)],
		['grid', readAt(rows, `${prefix}.grid`)],
		...(prefix === 'mixer'
			? ([
					['oscillator-anode', readAt(rows, 'oscillator.anode')],
					['oscillator-grid', readAt(rows, 'oscillator.grid')]
				] as [ReadingId, number | undefined][])
			: [])
	];
	return Object.fromEntries(found.filter(([, value]) => value !== undefined));
}

function partsOf(plan: Plan, prefix: string, kind: StageKind, parts: Readonly<Record<string, PartValue>>) {
	const value = (key: string): number | undefined => {
		const own = parts[key]?.value;
		const usual = plan.values[key];
		const read = own === undefined && usual ? parseAnyQuantity(usual.value) : undefined;
		return own ?? (read?.ok ? read.value : undefined);
	};
	const found: [PartId, number | undefined][] = [
		[kind === 'triode-audio' ? 'anode-load' : 'primary', value(`${prefix}.anode-resistor`)],
		['screen-feed', value(`${prefix}.screen-resistor`)],
		['cathode-resistor', value(`${prefix}.cathode-resistor`)],
		['grid-leak', value(`${prefix}.grid-leak`)],
		...(kind === 'triode-heptode'
			? ([['oscillator-feed', value('oscillator.anode-resistor')]] as [PartId, number | undefined][])
			: [])
	];
	return Object.fromEntries(found.filter(([, ohms]) => ohms !== undefined));
}

function questionOf(type: string, kind: StageKind): Pick<StageQuestion, 'stage'> | undefined {
	const point = pointOf(type, kind);
	if (!point || !('valve' in point)) return undefined;
	const { valve, oscillator } = point;
	if (kind === 'triode-heptode') return oscillator && ({ stage: kind, valve, oscillator } as StageQuestion);
	return { stage: kind, valve } as StageQuestion;
}

/**
 * Stages with enough readings, each put together into a statement: what flows, whether it adds up, which part would explain it.
 *
 * @param meter input resistance of the own meter, ohms
 */
export function stagesSay(
	plan: Plan,
	all: readonly SurveyRow[],
	parts: Readonly<Record<string, PartValue>>,
	meter: number | undefined
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
		const readings = readingsOf(rows, prefix);
		const question = questionOf(type, kind);
		if (!question || readings.ht === undefined || Object.keys(readings).length < LEAST_READINGS) return [];
		const finding = checkStage({
			...question,
			readings,
			parts: partsOf(plan, prefix, kind, parts),
			...(meter === undefined ? {} : { meter: { ohms: meter } })
		} as StageQuestion);
		return finding.verdict === 'too-little' || finding.verdict === 'impossible'
			? []
			: [{ stage: anode.stage, title: `${stage.title}, ${type}`, finding }];
	});
}
