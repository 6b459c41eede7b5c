import { isPathStep } from '../evidence.ts';
import type { Step } from '../schema.ts';
import { allSteps, type Check, type Complaint, type WrittenStep } from './types.ts';

/** What an outcome says of each suspect, whatever the outcome is called. */
const columns = (step: Exclude<Step, { kind: 'listen' | 'inject' | 'trace' }>): string[] =>
	Object.keys(step.outcomes).map((outcome) => {
		const said = Object.entries(step.expect).flatMap(([key, row]) =>
			row[outcome] ? [`${key} ${row[outcome]}`] : []
		);
		return [outcome === step.normal ? 'sound' : '', ...said.sort()].join(',');
	});

/** One sign for steps that tell the same of every suspect; none for a step that tells nothing. */
function sign(step: Step): string | undefined {
	const expect = JSON.stringify(Object.entries(step.expect).sort(([a], [b]) => (a < b ? -1 : 1)));
	if (isPathStep(step)) return [step.kind, step.band, 'at' in step ? step.at : '', expect].join(' ');
	return Object.keys(step.expect).length ? columns(step).sort().join(';') : undefined;
}

const complaint = (step: WrittenStep, other: WrittenStep): Complaint => ({
	...step.at([], true),
	message: `"${step.id}" tells of every suspect just what "${other.id}" tells, so the second of the two brings little.`,
	remedy: 'Keep one; or give both the same  group:  so that the second answer counts half.'
});

/** The same question twice, in other words: a redundant check. Reasoning reference 2.6. */
export const redundantStep: Check = {
	code: 'redundant-step',
	description: 'No two steps of a flow tell the same of every suspect, unless they share a group.',
	level: 'advice',
	scope: 'library',
	check(library, origins) {
		const used = Object.values(library.flows).map(
			(flow) => new Set([...flow.uses, ...Object.keys(flow.own.steps)])
		);
		const together = (a: string, b: string) => used.some((ids) => ids.has(a) && ids.has(b));
		const alike = new Map<string, WrittenStep[]>();
		return allSteps(library, origins).flatMap((step) => {
			const key = sign(step.step);
			if (key === undefined) return [];
			const before = alike.get(key) ?? [];
			alike.set(key, [...before, step]);
			const { group } = step.step;
			const other = before.find(
				(one) => together(one.id, step.id) && (group === undefined || one.step.group !== group)
			);
			return other ? [complaint(step, other)] : [];
		});
	}
};
