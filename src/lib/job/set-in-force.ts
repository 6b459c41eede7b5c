import type { Library } from '../flow/library.ts';
import type { Expected, ServiceVolts } from '../flow/reading.ts';
import { type Plan } from '../receiver/index.ts';
import {
	expectedVolts,
	planWith,
	traitsBy,
	type Expectation,
	type SheetFacts,
	type Today
} from '../receiver/survey.ts';
import type { Intake } from './events.ts';
import type { Clash } from './set-clash.ts';
import { clashesIn } from './set-gate.ts';
import { sheetMeter, type SetData } from './set-data.ts';
import { own, type JobState } from './state.ts';

export { clashGate } from './set-clash.ts';

/** The set as its own data make it: the plan with its valves, and the volts in force. */

/** A kind of set with the listed valves of the set at hand, and what the six answers say of it. */
export function planOfSet(plan: Plan, data: SetData | undefined): Plan {
	if (!data) return plan;
	const types = Object.fromEntries(data.valves.map(({ id, listed }) => [id, listed]));
	return planWith(plan, types, data.answers ? traitsBy(data.answers) : {});
}

/** Of today's library the plan that the job's set is of, with its own valves. */
export function planOfJob(library: Library, { intake, described }: Pick<JobState, 'intake' | 'described'>) {
	const plan = own(library.plans, intake?.plan);
	return plan && planOfSet(plan, described.at(-1)?.data);
}

/** The valves of the job's set that have to be settled before power. */
export function clashesOfJob(library: Library, state: Pick<JobState, 'intake' | 'described'>): Clash[] {
	const plan = planOfJob(library, state);
	return plan ? clashesIn(plan, state.described.at(-1)?.data) : [];
}

/** The set's sheet in numbers. */
export function sheetFacts(intake: Intake | undefined, data: SetData | undefined): SheetFacts {
	const meter = data && sheetMeter(data.sheet);
	const { mains } = data?.sheet ?? {};
	const parts = Object.entries(data?.parts ?? {}).map(([key, { value }]) => [key, value] as const);
	return {
		volts: { ...intake?.service, ...data?.volts },
		parts: Object.fromEntries(parts),
		...(meter === undefined ? {} : { meter }),
		...(mains === undefined ? {} : { mains })
	};
}

const today = (intake: Intake | undefined): Today => ({
	...(intake?.mains === undefined ? {} : { mains: intake.mains }),
	...(intake?.meter === undefined ? {} : { meter: intake.meter })
});

/** What a sound set of this job shows at each place of its survey, at the HT that it should have. */
export function expectationsOf(
	plan: Plan,
	intake: Intake | undefined,
	data: SetData | undefined
): Record<string, Expectation> {
	const other = (data?.valves ?? []).filter(
		({ listed, planned }) => planned !== undefined && listed !== planned
	);
	const changed = other.map(({ id }) => id);
	return expectedVolts(plan, sheetFacts(intake, data), today(intake), changed);
}

/**
 * The volts by which the readings of a job are judged. The sheet is brought to today's mains and to the own meter, and what neither sheet nor plan gives comes from valve data.
 */
export function serviceInForce(
	shipped: Plan | undefined,
	intake: Intake | undefined,
	data: SetData
): ServiceVolts {
	if (!shipped) return { ...intake?.service, ...data.volts };
	const plan = planOfSet(shipped, data);
	const known = Object.entries(expectationsOf(plan, intake, data)).flatMap(
		([point, { value, basis }]): [string, Expected][] =>
			basis === 'typical' ? [] : [[point, { value, basis }]]
	);
	return { ...intake?.service, ...data.volts, ...Object.fromEntries(known) };
}
