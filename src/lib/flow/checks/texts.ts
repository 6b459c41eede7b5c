import type { KeyPath } from '../document.ts';
import type { Library, Origins } from '../library.ts';
import type { Suspect } from '../schema.ts';
import { allSteps, type WrittenStep } from './types.ts';

/** A sentence or more for the restorer, with the place where it stands. */
export interface WrittenText {
	text: string;
	at: { file: string; line: number; column: number };
}

type At = WrittenStep['at'];
type Found = [KeyPath, string | undefined][];

const placed = (found: Found, at: At): WrittenText[] =>
	found.flatMap(([path, text]) => (text === undefined ? [] : [{ text, at: at(path) }]));

function stepTexts({ step, at }: WrittenStep): WrittenText[] {
	const outcomes = 'outcomes' in step ? Object.entries(step.outcomes) : [];
	return placed(
		[
			[['title'], step.title],
			[['text'], step.text],
			[['why'], step.why],
			...step.ways.map(({ text }, i): Found[number] => [['ways', i, 'text'], text]),
			...outcomes.flatMap(([id, { label, means }]): Found => [
				[['outcomes', id, 'label'], label],
				[['outcomes', id, 'means'], means]
			])
		],
		at
	);
}

const suspectTexts = ({ part, failure, repair, proof, behind }: Suspect, at: At): WrittenText[] =>
	placed(
		[
			[['part'], part],
			[['failure'], failure],
			[['repair', 'do'], repair.do],
			[['proof'], proof],
			[['behind'], behind]
		],
		at
	);

/** Every text of the library that people read: steps, suspects, flows, cautions, what the past says. */
export function allTexts(library: Library, origins: Origins): WrittenText[] {
	const tables = (['suspects', 'cautions', 'history'] as const).flatMap((kind) =>
		Object.entries(library[kind]).flatMap(([id, entity]) => {
			const at: At = (path = [], key = false) => origins.at(kind, id, path, key);
			if ('proof' in entity) return suspectTexts(entity, at);
			return 'why' in entity
				? placed([[['why'], entity.why]], at)
				: placed(
						[
							[['title'], entity.title],
							[['text'], entity.text]
						],
						at
					);
		})
	);
	const flows = Object.values(library.flows).flatMap((flow) => {
		const at: At = (path = [], key = false) => origins.at('flows', flow.id, path, key);
		const notes = Object.entries(flow.suspects).map(([key, named]): Found[number] => [
			['suspects', key, 'note'],
			typeof named === 'string' ? undefined : named.note
		]);
		const own = Object.entries(flow.own.suspects).flatMap(([id, suspect]) =>
			suspectTexts(suspect, (path = [], key = false) => at(['own', 'suspects', id, ...path], key))
		);
		return [...placed([[['title'], flow.title], [['about'], flow.about], ...notes], at), ...own];
	});
	return [...allSteps(library, origins).flatMap(stepTexts), ...tables, ...flows];
}
