import { NO_ELECTRODE, type Plan } from '../receiver/index.ts';
import { type Base, findValve, pinOf } from '../valves/index.ts';

/** Where to put the prod: the point by name, and the pin where its evidence allows one to be named. */
export interface Where {
	title: string;
	/** "EL84, pin 2 (noval, counted from the wiring side)". */
	pin?: string;
	/** The base to draw, where a pin is named. */
	base?: BaseWhere;
	/** What to do first where no pin is named. */
	advice?: string;
}

export interface BaseWhere {
	valve: string;
	base: Base;
	/** Pins of the electrode. */
	pins: readonly number[];
	/** Pins that carry HT. */
	ht: readonly number[];
}

/** Words for a test point of a plan; `undefined` where the plan has no such point. */
export function whereIs(plan: Plan, pointId: string): Where | undefined {
	const point = plan.points[pointId];
	if (!point) return undefined;
	const type = point.valve === undefined ? undefined : plan.valves[point.valve]?.type;
	if (type === undefined || point.electrode === undefined) return { title: point.title };
	if (point.electrode === NO_ELECTRODE)
		return { title: point.title, advice: `The ${type} has no such electrode: pass this place over.` };
	const found = pinOf(type, point.electrode, point.system);
	if (!found.named) return { title: point.title, advice: `${type}: ${found.advice}` };
	const base = baseOf(type, found.pins);
	return {
		title: point.title,
		pin: `${type}, pin ${found.pin}, counted from the wiring side`,
		...(base ? { base } : {})
	};
}

function baseOf(type: string, pins: readonly number[]): BaseWhere | undefined {
	const found = findValve(type);
	if (!found.ok) return undefined;
	const { base, htPins } = found.valve;
	return { valve: type, base, pins, ht: htPins };
}
