import type { Plan } from './plan.ts';

/** A fault in a plan: the keys that lead to it, what is wrong and how to mend it. */
export interface PlanProblem {
	path: (string | number)[];
	/** The fault is the last key of the path itself, not what stands behind it. */
	key?: true;
	message: string;
	remedy: string;
}

/** Own names only: every object inherits a `constructor`. */
const has = (table: object, id: string) => Object.hasOwn(table, id);
const known = (ids: Iterable<string>) => `Known here: ${[...ids].sort().join(', ')}.`;

function missingNames(plan: Plan): PlanProblem[] {
	const problems: PlanProblem[] = [];
	const valve = (path: PlanProblem['path'], id: string | undefined) => {
		if (id && !has(plan.valves, id))
			problems.push({
				path,
				message: `The plan has no valve "${id}".`,
				remedy: known(Object.keys(plan.valves))
			});
	};
	for (const [id, stage] of Object.entries(plan.stages)) valve(['stages', id, 'valve'], stage.valve);
	for (const [id, line] of Object.entries(plan.lines)) valve(['lines', id, 'valve'], line.valve);
	for (const [id, point] of Object.entries(plan.points)) {
		valve(['points', id, 'valve'], point.valve);
		if (!has(plan.stages, point.stage) && !has(plan.lines, point.stage))
			problems.push({
				path: ['points', id, 'stage'],
				message: `The point "${id}" belongs to "${point.stage}", which is neither a stage nor a line of this plan.`,
				remedy: known([...Object.keys(plan.stages), ...Object.keys(plan.lines)])
			});
	}
	return problems;
}

function pathProblems(plan: Plan): PlanProblem[] {
	const problems: PlanProblem[] = [];
	for (const [band, path] of Object.entries(plan.paths)) {
		if (!has(plan.bands, band))
			problems.push({
				path: ['paths', band],
				key: true,
				message: `There is a path for "${band}", but no such band.`,
				remedy: known(Object.keys(plan.bands))
			});
		path.forEach((entry, index) => {
			const point = entry.includes('.');
			if (has(point ? plan.points : plan.stages, entry)) return;
			problems.push({
				path: ['paths', band, index],
				message: `The path of "${band}" goes through the ${point ? 'point' : 'stage'} "${entry}", which the plan does not have.`,
				remedy: known(Object.keys(point ? plan.points : plan.stages))
			});
		});
	}
	for (const band of Object.keys(plan.bands))
		if (!has(plan.paths, band))
			problems.push({
				path: ['bands', band],
				key: true,
				message: `The band "${band}" has no path.`,
				remedy: `Add its stages in signal order under  paths: ${band}:`
			});
	return problems;
}

function lineProblems(plan: Plan): PlanProblem[] {
	return Object.entries(plan.lines).flatMap(([id, line]) => [
		...line.feeds.flatMap((stage, index) =>
			has(plan.stages, stage)
				? []
				: [
						{
							path: ['lines', id, 'feeds', index],
							message: `The line "${id}" feeds "${stage}", which is not a stage of this plan.`,
							remedy: known(Object.keys(plan.stages))
						}
					]
		),
		...(line.bands ?? []).flatMap((band, index) =>
			has(plan.bands, band)
				? []
				: [
						{
							path: ['lines', id, 'bands', index],
							message: `The line "${id}" names the band "${band}", which this plan does not have.`,
							remedy: known(Object.keys(plan.bands))
						}
					]
		)
	]);
}

/** What a schema cannot see: names that lead nowhere, bands without a path. */
export const checkPlan = (plan: Plan): PlanProblem[] => [
	...missingNames(plan),
	...pathProblems(plan),
	...lineProblems(plan)
];
