import { standings } from '../flow/trace.ts';
import { nameOf } from '../flow/explain.ts';
import { expectedAt } from '../flow/reading.ts';
import { DUTIES, PART_LOOKS } from '../flow/part-terms.ts';
import { INSTRUMENTS } from '../flow/terms.ts';
import { parseAnyQuantity, printQuantity } from '../quantity/index.ts';
import { TUNED_WORDS, type Plan } from '../receiver/index.ts';
import { standingWord } from '../suspects/index.ts';
import { HISTORY, PART_WAS, SYMPTOM_NOW } from './events.ts';
import { ledgerWord } from './ledger.ts';
import { partsFrom, STATES } from './parts.ts';
import { foundLines, type FoundLine } from './report-found.ts';
import { linesOf } from './report-lines.ts';
import { factsOf, proofsIn, traceIn } from './shared-evidence.ts';
import { allRuns, type JobState } from './state.ts';
import { pointWords } from './trail.ts';
import { changesIn } from './unproved.ts';
import { complaintWords, lowerFirst } from './words.ts';

/**
 * A job as a question to other restorers: plain text with all that they ask back for, short enough to be read. What a
 * person has written freely (title, notes, names of parts) may hold a name or a place, so it is left out and counted.
 */

/** Longer posts are not read to their end. The text stays below it. */
export const MOST_WORDS = 300;

export const wordsIn = (text: string): number => text.split(/\s+/).filter(Boolean).length;

export interface Asked {
	text: string;
	words: number;
	/** What was written freely and left out: "2 notes". */
	leftOut: string[];
}

/** A line of one part of the text; of what does not fit the lightest go first, of equals the oldest. */
interface AskLine {
	part: Part;
	text: string;
	/** 0: always there. */
	weight: number;
}

const PARTS = {
	set: 'Set',
	complaint: 'Complaint',
	changes: 'Changed so far',
	readings: 'Measured, against a sound set',
	tried: 'Tried',
	bench: 'On my bench',
	points: 'Where it points',
	question: 'Question'
} as const;
type Part = keyof typeof PARTS;

const WEIGHT = {
	must: 0,
	past: 8,
	change: 9,
	wrong: 7,
	heardWrong: 6,
	points: 5,
	instruments: 4,
	right: 2,
	heardRight: 1
};

/** An answer to one step in a few words. */
const MOST_CHARS = 160;
const cut = (text: string) =>
	text.length > MOST_CHARS ? `${text.slice(0, MOST_CHARS).trimEnd()} ...` : text;

/** A value may go out; a sentence may hold a name. */
function valueOnly(text: string | undefined): string | undefined {
	const read = text === undefined ? undefined : parseAnyQuantity(text);
	return read?.ok ? printQuantity(read.value, read.unit) : undefined;
}

function setLines(state: JobState, plan: Plan | undefined): AskLine[] {
	const { history = [], playing } = state.intake ?? {};
	const line = (text: string, weight: number): AskLine => ({ part: 'set', text, weight });
	if (!plan) return [line('Kind of set not known yet', WEIGHT.must)];
	const own = state.described
		.at(-1)
		?.data.valves.map(({ listed, fitted }) =>
			fitted !== undefined && fitted !== listed ? `${fitted} fitted for ${listed}` : listed
		);
	const valves = own?.length ? own : Object.values(plan.valves).map(({ type }) => type);
	const chassis = plan.traits.chassis === 'live' ? ', live chassis' : '';
	return [
		line(`${plan.title}${chassis}`, WEIGHT.must),
		...(valves.length
			? [
					line(
						`${own?.length ? 'Valves' : 'Valves of such a set'}: ${[...new Set(valves)].join(', ')}`,
						WEIGHT.must
					)
				]
			: []),
		...history.map((word) => line(HISTORY[word], WEIGHT.past)),
		...(playing ? [line('It was running on full mains when it came in', WEIGHT.past)] : [])
	];
}

function complaintLines(state: JobState, plan: Plan | undefined): AskLine[] {
	const line = (text: string): AskLine => ({ part: 'complaint', text, weight: WEIGHT.must });
	const first = state.intake && complaintWords(state.intake, plan);
	const now = state.heard.at(-1);
	const later =
		now && complaintWords({ symptom: now.bands, ...(now.signs ? { signs: now.signs } : {}) }, plan);
	return [line(first || 'Not said band by band'), ...(later ? [line(`Now: ${lowerFirst(later)}`)] : [])];
}

function benchLines({ intake }: JobState): AskLine[] {
	const { meter, mains, instruments = [] } = intake ?? {};
	const line = (text: string, weight: number): AskLine => ({ part: 'bench', text, weight });
	const names = instruments.map((name) => lowerFirst(INSTRUMENTS[name]).replace(/^A /, 'a '));
	return [
		line(
			`Meter: ${meter === undefined ? 'input resistance not known' : `${printQuantity(meter, 'ohm')} on volts`}`,
			WEIGHT.must
		),
		...(mains === undefined ? [] : [line(`Mains: ${printQuantity(mains, 'V')}`, WEIGHT.instruments + 0.5)]),
		line(names.length ? names.join(', ') : 'No instruments', WEIGHT.instruments)
	];
}

/** `C12`, `R7a`: a name from the drawing; any other name of a part is the person's own. */
const DRAWN = /^[A-Z]{1,3}\d{1,4}[a-z]?$/;

/** Parts of the list by kind and duty, as far as something was done to them. */
function listedLines(state: JobState): AskLine[] {
	return partsFrom(state.parts)
		.filter(({ state: now }) => now !== 'untouched' && now !== 'left')
		.map((part): AskLine => {
			const { name, kind, duty, state: now, found, fitted } = part;
			const what = [
				DRAWN.test(name) ? name : '',
				lowerFirst(PART_LOOKS[kind].title),
				duty && DUTIES[duty].title
			];
			const values = [valueOnly(found), valueOnly(fitted) && `fitted ${valueOnly(fitted)}`];
			const listen = changesIn(state).find(({ line }) => line.event === part.changedBy)?.listen;
			const heard = now === 'changed' ? (listen ?? 'the complaint not tried since') : '';
			const told = [STATES[now], ...values, heard].filter(Boolean).join('; ');
			return {
				part: 'changes',
				text: cut(`${what.filter(Boolean).join(', ')}: ${told}`),
				weight: WEIGHT.change
			};
		});
}

/** Parts changed or tested without a list, by the names that the flows have for them. */
function changeLines(state: JobState): AskLine[] {
	const line = (text: string): AskLine => ({ part: 'changes', text, weight: WEIGHT.change });
	const proofs = new Map(proofsIn(state).map((proof) => [proof.suspect, proof]));
	const names = new Map(
		allRuns(state).flatMap(({ run }) =>
			run.resolved.suspects.map((placed): [string, string] => [placed.id, nameOf(placed)])
		)
	);
	const changed = allRuns(state).flatMap(({ done }) =>
		done.flatMap(({ event }) => (event.kind === 'part-changed' ? [event.data] : []))
	);
	const onList = new Set(state.parts.map(({ event }) => event));
	const ledger = state.ledger
		.filter(({ event }) => !onList.has(event))
		.map(({ suspect }) => ({ part: suspect }));
	const parts = new Map<string, { part: string; fitted?: string }>(
		[...ledger, ...changed].map((one) => [one.part, one])
	);
	const told = [...parts.values()].flatMap(({ part, fitted }): AskLine[] => {
		const name = names.get(part);
		if (name === undefined) return [];
		const proof = proofs.get(part);
		const value = valueOnly(fitted);
		const result = proof
			? `changed; ${SYMPTOM_NOW[proof.symptom]}; ${PART_WAS[proof.was]}`
			: (ledgerWord(state, part) ?? 'changed, the complaint not tried since');
		return [line(`${name}: ${result}${value ? `; fitted ${value}` : ''}`)];
	});
	const all = [...told, ...listedLines(state)];
	return all.length ? all : [{ part: 'changes', text: 'Nothing', weight: WEIGHT.must }];
}

const isNormal = (line: FoundLine, normal: ReadonlySet<string>) =>
	line.event !== undefined && normal.has(line.event);

/** Events of the answers that were as in a sound set. */
function normalEvents(state: JobState): Set<string> {
	const wrong = new Set(
		foundLines(state).flatMap(({ event, expected }) => (event && expected ? [event] : []))
	);
	return new Set(factsOf(state).flatMap(({ event }) => (wrong.has(event) ? [] : [event])));
}

function foundAsk(state: JobState): AskLine[] {
	const normal = normalEvents(state);
	return foundLines(state, true)
		.filter(({ event }) => event !== undefined)
		.map((line): AskLine => {
			const right = isNormal(line, normal);
			const told = line.text;
			if (!line.reading)
				return { part: 'tried', text: cut(told), weight: right ? WEIGHT.heardRight : WEIGHT.heardWrong };
			const expected = line.expected ? `; sound: ${line.expected}` : '';
			const title =
				line.answer && told.endsWith(` ${line.answer}`) ? told.slice(0, -line.answer.length - 1) : told;
			const text = cut(`${title} ${line.reading}${expected}`);
			return { part: 'readings', text, weight: right ? WEIGHT.right : WEIGHT.wrong };
		});
}

/** Readings of the survey; those more than a fifth from what is expected count as wrong. */
function surveyAsk(state: JobState): AskLine[] {
	const plan = allRuns(state)[0]?.run.resolved.plan;
	const latest = [...new Map(state.readings.map((one) => [one.point, one])).values()];
	return latest.map(({ point, reading, out, tuned }): AskLine => {
		const title = plan?.points[point]?.title ?? pointWords(point);
		const expected = plan && !out ? expectedAt(plan, point, state.service, reading.ht) : undefined;
		const off = expected ? Math.abs(reading.value - expected.value) > Math.abs(expected.value) / 5 : false;
		const sound = expected ? `; sound: about ${printQuantity(expected.value, 'V', { digits: 3 })}` : '';
		const text = `${title}: ${printQuantity(reading.value, reading.unit)}${out ? ', valve out' : tuned ? `, ${TUNED_WORDS[tuned]}` : ''}${sound}`;
		return { part: 'readings', text: cut(text), weight: off ? WEIGHT.wrong : WEIGHT.right };
	});
}

/** Suspects at least in question, as the answers have left them. */
function pointLines(state: JobState): AskLine[] {
	const now = state.open === undefined ? undefined : traceIn(state, state.open);
	if (!now || now.resolved.flow.procedure) return [];
	return standings(now)
		.map(({ placed, probability }) => ({ name: nameOf(placed), word: standingWord(probability) }))
		.filter(({ word }) => word !== 'unlikely' && word !== 'nearly cleared')
		.slice(0, 3)
		.map(({ name, word }, index) => ({
			part: 'points',
			text: `${name}, ${word}`,
			weight: WEIGHT.points - index / 10
		}));
}

function questionLine(state: JobState): AskLine {
	const cured = proofsIn(state).some(({ symptom }) => symptom === 'cured');
	const text = cured
		? 'The complaint was cured by the change above. What else would you look at before it goes back?'
		: 'What fits these readings, and what would you measure next?';
	return { part: 'question', text, weight: WEIGHT.must };
}

function leftOutOf(state: JobState): string[] {
	const notes = state.notes.length + (state.closed?.note ? 1 : 0);
	const loose = linesOf(state, 'part-changed').filter(
		({ flow, event }) =>
			flow === undefined && ![...state.ledger, ...state.parts].some((line) => line.event === event)
	).length;
	const named = (count: number, one: string) => (count ? [`${count} ${one}${count === 1 ? '' : 's'}`] : []);
	return ['the title', ...named(notes, 'note'), ...named(loose, 'change of a part that you named yourself')];
}

function textOf(lines: readonly AskLine[], cutAway: ReadonlyMap<Part, number>): string {
	const parts = (Object.keys(PARTS) as Part[]).map((part) => {
		const own = lines.filter((line) => line.part === part).map(({ text }) => `- ${text}`);
		const gone = cutAway.get(part);
		if (gone) own.push(`- and ${gone} more`);
		return own.length ? `${PARTS[part]}:\n${own.join('\n')}` : '';
	});
	return parts.filter(Boolean).join('\n\n');
}

/** What goes first when there is no room: the lightest line, the oldest of equals; -1 where none may go. */
function lightest(lines: readonly AskLine[]): number {
	return lines.reduce(
		(best, line, index) =>
			line.weight > 0 && (best < 0 || line.weight < (lines[best]?.weight ?? 0)) ? index : best,
		-1
	);
}

/** The question in fewer than 300 words; what does not fit is counted where it is missing. */
export function askText(state: JobState): Asked {
	const plan = allRuns(state)[0]?.run.resolved.plan;
	const lines = [
		...setLines(state, plan),
		...complaintLines(state, plan),
		...changeLines(state),
		...foundAsk(state),
		...surveyAsk(state),
		...benchLines(state),
		...pointLines(state),
		questionLine(state)
	];
	const cutAway = new Map<Part, number>();
	let text = textOf(lines, cutAway);
	while (wordsIn(text) >= MOST_WORDS) {
		const index = lightest(lines);
		const [gone] = index < 0 ? [] : lines.splice(index, 1);
		if (!gone) break;
		cutAway.set(gone.part, (cutAway.get(gone.part) ?? 0) + 1);
		text = textOf(lines, cutAway);
	}
	return { text, words: wordsIn(text), leftOut: leftOutOf(state) };
}
