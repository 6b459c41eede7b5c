import { nameOf } from '../flow/explain.ts';
import { meaningsIn } from '../flow/glossary.ts';
import type { Word } from '../flow/schema.ts';
import { RESULTS, SYMPTOM_NOW } from './events.ts';
import type { ReportLine, ReportSection } from './report-lines.ts';
import { notDoneLines } from './report-not-done.ts';
import { partWords } from './report-parts.ts';
import { changePictures, withPictures } from './report-pictures.ts';
import { safetyLines } from './report-safety.ts';
import { proofsIn } from './shared-evidence.ts';
import { allRuns, type JobState } from './state.ts';
import { changesIn } from './unproved.ts';
import { complaintWords, lowerFirst } from './words.ts';

/**
 * The page for the owner of the set: what was wrong, what was done, how it is now, what to watch. Sentences that anybody
 * can follow; the trade words that are left are told at the end.
 */

/** Advice to whoever switches the set on at home. Common practice, no source. */
const WATCH = [
	'Stay in the room while it plays, and let nobody else switch it on who does not know it.',
	'In the first weeks listen and smell: hum that grows, a hot smell, smoke, or sound that distorts after a while. Then switch off, pull the plug and ask.',
	'Keep the back on, and air around the set. Old parts that were sound today can fail tomorrow.',
	'Pull the plug when you have finished listening.'
];
const LIVE =
	'In this set the mains can stand on the metal inside. Never take off the back, a knob or the bottom with the plug in, and connect nothing to its sockets without asking.';
const NOT_SAFE =
	'The closing safety test is not complete. Whoever switches the set on has to be told; have it tested by a competent person before it is used.';
const CODES =
	'Local electrical codes and licensed practice come first. This page does not certify that the set is safe.';

const isLive = (state: JobState): boolean =>
	allRuns(state).some(({ run }) => run.resolved.plan.traits.chassis === 'live');

function cameWith(state: JobState): ReportLine[] {
	const plan = allRuns(state)[0]?.run.resolved.plan;
	const words = state.intake && complaintWords(state.intake, plan);
	const traced = allRuns(state).flatMap(({ run }) =>
		run.resolved.flow.procedure ? [] : [run.resolved.flow.title]
	);
	const told = words || [...new Set(traced)].join('; ');
	return [{ text: told ? `${told}.` : 'Nothing was written down of it.' }];
}

function wrongLines(state: JobState): ReportLine[] {
	const cured = proofsIn(state).filter(({ symptom }) => symptom === 'cured');
	if (cured.length === 0) return [{ text: 'The cause was not proved.', open: true }];
	return cured.map(({ flow, suspect, was }): ReportLine => {
		const run = allRuns(state).find((one) => one.flow === flow);
		const placed = run?.run.resolved.suspects.find(({ id }) => id === suspect);
		const text = placed ? nameOf(placed) : suspect;
		return was === 'bad'
			? { text }
			: {
					text,
					meaning: 'With it changed the fault went. Nobody saw that the old part was bad.',
					open: true
				};
	});
}

const NOW = {
	[SYMPTOM_NOW.cured]: 'After that the fault was gone.',
	[SYMPTOM_NOW.unchanged]: 'The fault was still there after it.',
	[SYMPTOM_NOW.changed]: 'The fault was another one after it.'
} as const;

function doneLines(state: JobState): ReportLine[] {
	const changes = changesIn(state);
	if (changes.length === 0) return [{ text: 'No part was changed.' }];
	const pictures = changePictures(state);
	return changes.map(({ line, part, listen }): ReportLine => {
		const text = part ? `Changed: ${partWords(part)}` : line.what;
		const told = { text, ...withPictures(pictures.get(line.event)) };
		if (listen === undefined)
			return { ...told, meaning: 'The set was not tried again after it.', open: true };
		const now = Object.entries(NOW).find(([word]) => listen.split('; ')[0] === word)?.[1];
		return { ...told, meaning: now ?? `Heard after it: ${lowerFirst(listen)}.` };
	});
}

function nowLines(state: JobState): ReportLine[] {
	const { closed } = state;
	const plan = allRuns(state)[0]?.run.resolved.plan;
	const heard = state.heard.at(-1);
	const result: ReportLine = closed
		? {
				text: `The set is ${RESULTS[closed.result]}.`,
				...(closed.result === 'mended' ? {} : { open: true as const })
			}
		: { text: 'The work is not finished.', open: true };
	const last = heard && complaintWords({ symptom: heard.bands }, plan);
	return [result, ...(last ? [{ text: `Heard last: ${last}.` }] : [])];
}

/** Each part of the safety test, and how much else stands open on the bench sheet. */
function openLines(state: JobState): ReportLine[] {
	const more = notDoneLines(state).length;
	const rest: ReportLine[] = more
		? [
				{
					text: `${more} more ${more === 1 ? 'thing' : 'things'} not done or not tested, on the bench sheet.`,
					open: true
				}
			]
		: [];
	return [...safetyLines(state), ...rest];
}

function watchLines(state: JobState): ReportLine[] {
	const safe = safetyLines(state).every(({ open }) => !open);
	return [
		...(safe ? [] : [{ text: NOT_SAFE, open: true as const }]),
		...(isLive(state) ? [{ text: LIVE }] : []),
		...WATCH.map((text) => ({ text })),
		{ text: CODES }
	];
}

const textOf = (sections: readonly ReportSection[]): string =>
	sections.flatMap(({ lines }) => lines.flatMap(({ text, meaning }) => [text, meaning])).join('\n');

/** The owner's page. @param glossary trade words with their meanings, of today's library */
export function ownerPage(state: JobState, glossary: Readonly<Record<string, Word>> = {}): ReportSection[] {
	const told: ReportSection[] = [
		{ id: 'came', title: 'What it did when it came in', lines: cameWith(state) },
		{ id: 'wrong', title: 'What was wrong', lines: wrongLines(state) },
		{ id: 'done', title: 'What was done', lines: doneLines(state) },
		{ id: 'now', title: 'How it is now', lines: nowLines(state) },
		{ id: 'open', title: 'Tested for safety', lines: openLines(state) },
		{ id: 'watch', title: 'What to watch', lines: watchLines(state) }
	];
	const words = meaningsIn(glossary, textOf(told.slice(0, 3))).map(({ word, means }) => ({
		text: word,
		meaning: means
	}));
	return words.length ? [...told, { id: 'words', title: 'Words', lines: words }] : told;
}
