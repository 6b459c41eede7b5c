import type { Library } from '../flow/library.ts';
import { isFit, matchFlows } from '../flow/match.ts';
import { flowFits, resolveFlow } from '../flow/resolve.ts';
import type { Flow } from '../flow/schema.ts';
import { SIGNS, type Sign } from '../flow/terms.ts';
import { sectionStandings, trace } from '../flow/trace.ts';
import { movedByTuning, type Plan } from '../receiver/index.ts';
import {
	falseAlarm,
	impossibleIn,
	isWrong,
	patternOf,
	stagesSay,
	surveyPoints,
	toHt,
	verdictOf,
	workedOut,
	type CloserPoint,
	type MeasuredHt,
	type PartValue,
	type StageSays,
	type SupplyFacts,
	type SurveyRow,
	type Worked
} from '../receiver/survey.ts';
import { htNow } from './ht-now.ts';
import { partsFrom, unitOfPart } from './parts.ts';
import type { SetData } from './set-data.ts';
import { expectationsOf, planOfJob } from './set-in-force.ts';
import { evidenceFor } from './shared-evidence.ts';
import type { JobState } from './state.ts';

/** The survey of a job as it stands. */
export interface Survey {
	plan: Plan;
	rows: SurveyRow[];
	/** Currents and dissipations worked out of the readings. */
	worked: Worked[];
	pattern: string | undefined;
	/** Readings that no circuit can give together. */
	impossible: string[];
	/** What each stage with enough readings says as a whole. */
	stages: StageSays[];
	/** Readings that these stages ask for, or that were taken because they did. */
	closer: SurveyRow[];
	/** How many places were read. */
	read: number;
	/** Events of the readings that stand, by point. */
	events: Record<string, string>;
}

export function surveyOf(library: Library, state: JobState): Survey | undefined {
	const plan = planOfJob(library, state);
	if (!plan) return undefined;
	const data = state.described.at(-1)?.data;
	const expectations = expectationsOf(plan, state.intake, data);
	const latest = new Map(state.readings.map((one) => [one.point, one]));
	const then = htOf(state, expectations);
	const rows = surveyPoints(plan).map((point): SurveyRow => {
		const expected = expectations[point.id];
		const now = expected && toHt(plan, point.id, expected, then);
		const taken = latest.get(point.id);
		const value = taken?.reading.value;
		const out = taken?.out === true;
		const verdict = value === undefined || out ? undefined : verdictOf(value, now);
		const moved = isWrong(verdict)
			? movedByTuning(plan, point, taken?.tuned, verdict === 'high' ? 'high' : 'low')
			: undefined;
		return {
			point,
			expected,
			now,
			reading: value,
			out,
			tuned: taken?.tuned,
			verdict: moved ? 'set-aside' : verdict,
			alarm: moved ?? (value === undefined || out ? undefined : falseAlarm(value, now))
		};
	});
	const parts = measuredParts(data?.parts ?? {}, state);
	const asked = Object.fromEntries(
		[...latest].filter(([, { out }]) => !out).map(([point, { reading }]) => [point, reading.value])
	);
	const smoothing = parts['ht.smoothing-resistor']?.name ?? 'the smoothing';
	const stages = stagesSay(plan, rows, {
		parts,
		meter: state.intake?.meter,
		extra: asked,
		supply: supplyFacts(data, state.intake?.mains)
	});
	return {
		plan,
		rows,
		worked: workedOut(plan, rows, parts),
		pattern: patternOf(plan, rows, { smoothing }),
		impossible: impossibleIn(rows),
		stages,
		closer: stages.flatMap(({ stage, closer }) => closer.map((one) => closerRow(stage, one, asked))),
		read: rows.filter(({ reading }) => reading !== undefined).length,
		events: Object.fromEntries([...latest].map(([point, { event }]) => [point, event]))
	};
}

const closerRow = (
	stage: string,
	{ point, label, how, unit }: CloserPoint,
	read: Record<string, number>
): SurveyRow => ({
	point: { id: point, title: label, stage, supply: false, how, ...(unit === 'A' ? { unit } : {}) },
	expected: undefined,
	now: undefined,
	reading: read[point],
	out: false,
	verdict: undefined,
	alarm: undefined
});

/** The supply of the set's data; its winding brought from the mains of the sheet to today's. */
function supplyFacts(data: SetData | undefined, today: number | undefined): SupplyFacts {
	const { winding, ...rest } = data?.supply ?? {};
	const printed = data?.sheet.mains;
	const ratio = today !== undefined && printed !== undefined ? today / printed : 1;
	return {
		...rest,
		...(winding === undefined ? {} : { winding: winding * ratio }),
		...(today === undefined ? {} : { mains: today })
	};
}

/** Values of the set's data, with what was measured on the part of the same name in the list of parts. */
function measuredParts(parts: SetData['parts'], { parts: lines }: JobState): Record<string, PartValue> {
	const readings = new Map(
		partsFrom(lines).flatMap(({ kind, name, reading }) =>
			reading !== undefined && unitOfPart(kind) === 'ohm' ? [[nameOf(name), reading] as const] : []
		)
	);
	return Object.fromEntries(
		Object.entries(parts).map(([key, part]) => {
			const { measured: typed, ...value } = part;
			const read = part.name === undefined ? undefined : readings.get(nameOf(part.name));
			const measured = read ?? (typed ? part.value : undefined);
			const marked = typed ? { marked: false as const } : {};
			return [key, { ...value, ...marked, ...(measured === undefined ? {} : { measured }) }];
		})
	);
}

/** `r 14` is R14. */
const nameOf = (name: string): string => name.replace(/\s/g, '').toUpperCase();

function htOf(
	state: JobState,
	expectations: Readonly<Record<string, { value: number }>>
): MeasuredHt | undefined {
	const ht = htNow(state);
	const expected = ht && expectations[ht.point]?.value;
	return ht && expected !== undefined ? { ...ht, expected } : undefined;
}

/** A flow that the survey's readings speak for, and how strongly. */
export interface Proposal {
	flow: Flow;
	/** Share of the suspicion that lies on what the flow names; of no use but to rank. */
	weight: number;
	why: string;
}

/** Complaints that a meter alone can tell. */
const METERED: readonly { sign: Sign; when: (survey: Survey) => boolean }[] = [
	{ sign: 'ht-low', when: (survey) => isOff(survey, ['ht.reservoir', 'ht.smoothed'], ['low', 'absent']) },
	{ sign: 'ht-high', when: (survey) => isOff(survey, ['ht.reservoir', 'ht.smoothed'], ['high']) },
	{
		sign: 'valve-hot',
		when: (survey) =>
			isOff(survey, ['output.grid', 'output.cathode'], ['high']) ||
			survey.worked.some(({ point, over }) => over && point.startsWith('output.'))
	}
];

const isOff = ({ rows }: Survey, points: readonly string[], verdicts: readonly string[]) =>
	rows.some(
		({ point, verdict }) => points.includes(point.id) && verdict !== undefined && verdicts.includes(verdict)
	);

/** What of a flow's suspicion, after these readings, lies on the sections where something reads wrong. */
function fitOfReadings(library: Library, state: JobState, survey: Survey, flow: Flow): number {
	const resolved = resolveFlow(library, flow, survey.plan);
	const evidence = evidenceFor(state, resolved);
	const now = trace(resolved, evidence);
	const wrong = new Set(
		survey.rows
			.filter(({ verdict }) => isWrong(verdict))
			.map(({ point }) => (survey.plan.stages[point.stage] ?? survey.plan.lines[point.stage])?.section)
	);
	const sections = sectionStandings(now);
	return Object.entries(sections).reduce(
		(sum, [section, share]) => sum + (wrong.has(section as never) ? (share ?? 0) : 0),
		0
	);
}

/** How many flows are put forward at most. Our own choice. */
const MOST = 4;

/**
 * Flows for what the survey shows, for a job that has none open yet: by the signs that a meter alone can tell, by what is heard,
 * and by how far each flow's suspicion falls on the places that read wrong.
 */
export function proposalsFor(library: Library, state: JobState, survey: Survey): Proposal[] {
	const wrong = survey.rows.some(({ verdict }) => isWrong(verdict));
	if (!wrong) return [];
	const told = METERED.filter(({ when }) => when(survey)).map(({ sign }) => sign);
	const { symptom = {}, signs = [] } = state.intake ?? {};
	const noticed = [...new Set([...told, ...signs])];
	const open = new Set(Object.keys(state.flows));
	return matchFlows(library, survey.plan, symptom, noticed)
		.filter(({ flow }) => !open.has(flow.id) && flowFits(flow, survey.plan))
		.filter((match) => isFit(match) || Object.keys(symptom).length === 0)
		.slice(0, 12)
		.map((match): Proposal => {
			const { flow } = match;
			const weight = fitOfReadings(library, state, survey, flow) + match.noticed.length;
			const seen = match.noticed.map((sign) => SIGNS[sign].label);
			return {
				flow,
				weight,
				why: seen.length > 0 ? seen.join(', ') : 'Its suspects stand where the readings are wrong'
			};
		})
		.sort((a, b) => b.weight - a.weight)
		.slice(0, MOST);
}
