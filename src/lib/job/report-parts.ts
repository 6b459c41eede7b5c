import { DUTIES, PART_LOOKS } from '../flow/part-terms.ts';
import type { ReportLine } from './report-lines.ts';
import { partsFrom, STATES, type Part } from './parts.ts';
import { lowerFirst } from './words.ts';

/** A part as a reader without the diagram finds it: name, kind and duty. */
export const partWords = ({ name, kind, duty, typed, rating }: Part): string => {
	const what = duty
		? `${lowerFirst(PART_LOOKS[kind].title)}, ${DUTIES[duty].title}`
		: lowerFirst(PART_LOOKS[kind].title);
	return [name, what, [typed, rating].filter(Boolean).join(' ')].filter(Boolean).join(', ');
};

function lineFor(part: Part): ReportLine {
	const { state, found, fitted, reason, measured } = part;
	const meaning = [fitted && `fitted: ${fitted}`, reason].filter(Boolean).join('; ');
	const proof = state === 'changed' && !measured ? ', without proof' : '';
	return {
		text: `${partWords(part)}: ${STATES[state]}${proof}`,
		...(found ? { reading: found } : {}),
		...(meaning ? { meaning } : {}),
		...(proof || state === 'bad' ? { open: true as const } : {})
	};
}

/** Every part that something was done to; the untouched ones are counted and named, never shown as good. */
export function partLines({ parts }: { parts: Parameters<typeof partsFrom>[0] }): ReportLine[] {
	const all = partsFrom(parts);
	const untouched = all.filter(({ state }) => state === 'untouched');
	const names = untouched.map(({ name }) => name).join(', ');
	return [
		...all.filter(({ state }) => state !== 'untouched').map(lineFor),
		...(untouched.length
			? [{ text: `Not touched and not tested: ${untouched.length}`, meaning: names, open: true as const }]
			: [])
	];
}
