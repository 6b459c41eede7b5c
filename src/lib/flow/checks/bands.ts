import { printQuantity } from '../../quantity/index.ts';
import { unitOfStep } from '../reading.ts';
import { bandProblems, parseWhen, printEdge, type Band } from '../when.ts';
import { allSteps, type Check, type Complaint, type WrittenStep } from './types.ts';

interface Ranges {
	bands: Band[];
	complaints: Complaint[];
}

/** The ranges of a measuring step, and what cannot be read of them. */
function rangesOf({ step, at }: WrittenStep): Ranges {
	const ranges: Ranges = { bands: [], complaints: [] };
	if (step.kind !== 'measure') return ranges;
	for (const [id, { when }] of Object.entries(step.outcomes)) {
		if (when === undefined) continue;
		const parsed = parseWhen(when);
		const place = at(['outcomes', id, 'when']);
		if (!parsed.ok) {
			const [message = '', remedy = ''] = parsed.message.split(/(?<=\.) (?=Write)/);
			ranges.complaints.push({ ...place, message, remedy });
		} else if (!parsed.band.relative && parsed.band.unit !== unitOfStep(step)) {
			const wanted = printQuantity(1, unitOfStep(step)).replace(/^1\s*/, '');
			ranges.complaints.push({
				...place,
				message: `"${when}" is not in ${wanted}.`,
				remedy: `This step measures ${step.measure}: write the limit in ${wanted}.`
			});
		} else ranges.bands.push(parsed.band);
	}
	if (new Set(ranges.bands.map(({ relative }) => relative)).size > 1)
		ranges.complaints.push({
			...at(['outcomes'], true),
			message: 'Some ranges are in percent of what is expected, others are absolute.',
			remedy: 'Write all ranges of one step in the same way.'
		});
	return ranges;
}

function problems(written: WrittenStep, kind: 'gap' | 'overlap'): Complaint[] {
	const { bands, complaints } = rangesOf(written);
	if (complaints.length) return [];
	return bandProblems(bands)
		.filter((problem) => problem.kind === kind)
		.map(({ from, to, band }) => {
			const said = range(from, to, band);
			return {
				...written.at(['outcomes'], true),
				message:
					kind === 'gap'
						? `"${written.id}" says nothing about readings ${said.words}.`
						: `"${written.id}" has two outcomes for readings ${said.words}.`,
				remedy:
					kind === 'gap'
						? `Add an outcome with  when: "${said.when}"`
						: 'Let one range end where the next begins.'
			};
		});
}

function range(from: number, to: number, band: Band): { words: string; when: string } {
	const edge = (value: number) => printEdge(value, band);
	if (from === -Infinity && to === Infinity) return { words: 'at all', when: `> ${edge(0)}` };
	if (from === -Infinity) return { words: `below ${edge(to)}`, when: `< ${edge(to)}` };
	if (to === Infinity) return { words: `above ${edge(from)}`, when: `> ${edge(from)}` };
	return { words: `from ${edge(from)} to ${edge(to)}`, when: `${edge(from)} .. ${edge(to)}` };
}

export const outcomesLeaveAGap: Check = {
	code: 'outcomes-leave-a-gap',
	description: 'The ranges of a measuring step cover every reading.',
	level: 'error',
	scope: 'library',
	check: (library, origins) => allSteps(library, origins).flatMap((step) => problems(step, 'gap'))
};

export const outcomesOverlap: Check = {
	code: 'outcomes-overlap',
	description: 'No reading falls into two outcomes of a step.',
	level: 'error',
	scope: 'library',
	check: (library, origins) => allSteps(library, origins).flatMap((step) => problems(step, 'overlap'))
};

export const rangeUnreadable: Check = {
	code: 'range-unreadable',
	description: 'Every range can be read, in the unit that the step measures.',
	level: 'error',
	scope: 'library',
	check: (library, origins) => allSteps(library, origins).flatMap((step) => rangesOf(step).complaints)
};
