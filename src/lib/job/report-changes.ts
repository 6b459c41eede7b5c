import { nameOf } from '../flow/explain.ts';
import { PART_WAS, RESULTS, SYMPTOM_NOW } from './events.ts';
import { linesOf, type ReportLine } from './report-lines.ts';
import { changePictures, withPictures } from './report-pictures.ts';
import { allRuns, type JobState } from './state.ts';
import { WITHOUT_PROOF, type TrailLine } from './trail.ts';

/** A change of a part with the proof that followed it in its own flow, or else with what was heard next. */
interface Change {
	line: TrailLine;
	proof: TrailLine | undefined;
	suspect: string | undefined;
}

export function changesOf(state: JobState): Change[] {
	const changes = linesOf(state, 'part-changed');
	return changes.map((line) => {
		const after = state.trail.slice(state.trail.indexOf(line) + 1);
		const next = after.find(
			(other) => other.kind === 'part-changed' && other.flow === line.flow && !other.undone
		);
		const until = next ? after.slice(0, after.indexOf(next)) : after;
		const proof = until.find(
			({ kind, flow, undone, refused }) =>
				kind === 'proved' && flow === line.flow && !undone && refused === undefined
		);
		const heard = after.find(
			({ kind, undone, refused }) => kind === 'heard' && !undone && refused === undefined
		);
		return {
			line,
			proof: (line.flow === undefined ? undefined : proof) ?? heard,
			suspect: suspectBefore(state, line)
		};
	});
}

function suspectBefore(state: JobState, line: TrailLine): string | undefined {
	const before = state.trail.slice(0, state.trail.indexOf(line));
	const named = before.findLast(
		({ kind, flow, undone }) => kind === 'suspected' && flow === line.flow && !undone
	);
	const same = named?.what === line.what.replace('Changed', 'Suspected');
	return line.flow === undefined || same ? undefined : named?.what;
}

/** What was found behind a part that failed because of another; a cause that nobody checked stays open. */
export const causeLines = (state: JobState): ReportLine[] =>
	linesOf(state, 'cause-sought').map(({ event, what, answer, at }) => {
		const { result } = state.causes.find((cause) => cause.event === event) ?? {};
		return {
			text: what,
			at,
			meaning: answer ?? '',
			...(result === 'not-checked' ? { open: true as const } : {})
		};
	});

/** What a quick listen after a change has told; a proof has a section of its own. */
const heardWords = ({ kind, answer }: TrailLine): string | undefined =>
	kind === 'heard' && answer ? `heard after it: ${answer}` : undefined;

export function changedLines(state: JobState): ReportLine[] {
	const pictures = changePictures(state);
	return changesOf(state).map(({ line, proof, suspect }) => ({
		text: [line.what, line.answer].filter(Boolean).join('; '),
		at: line.at,
		meaning: [suspect, proof ? heardWords(proof) : 'the symptom was not tried again after it']
			.filter(Boolean)
			.join('; '),
		...(proof && !line.answer?.includes(WITHOUT_PROOF) ? {} : { open: true as const }),
		...withPictures(pictures.get(line.event))
	}));
}

/** What the log says of each proof, part by part. */
export function proofLines(state: JobState): ReportLine[] {
	return allRuns(state).flatMap(({ run, done }) => {
		let suspect = '';
		return done.flatMap(({ event }): ReportLine[] => {
			if (event.kind === 'suspected') {
				const { suspect: id } = event.data;
				const placed = run.resolved.suspects.find((one) => one.id === id);
				suspect = placed ? nameOf(placed) : id;
			}
			if (event.kind !== 'proved') return [];
			const { symptom, partWas } = event.data;
			const open = symptom === 'cured' && partWas !== 'not-tested' ? {} : { open: true as const };
			return [
				{
					text: `After ${suspect}: ${SYMPTOM_NOW[symptom]}`,
					meaning: PART_WAS[partWas],
					at: event.at,
					...open
				}
			];
		});
	});
}

export function resultLine({ closed }: JobState): ReportLine {
	if (!closed) return { text: 'The job is not closed.', open: true };
	const open = closed.result === 'mended' ? {} : { open: true as const };
	return {
		text: `Result: ${RESULTS[closed.result]}`,
		...(closed.note ? { meaning: closed.note } : {}),
		...open
	};
}
