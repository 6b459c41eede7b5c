import type { Duty, PartLook } from '../flow/part-terms.ts';
import { PART_LOOKS } from '../flow/part-terms.ts';
import { printQuantity, type Unit } from '../quantity/index.ts';
import { CHECKED, type EventData } from './events.ts';

/** The parts of the set: what is listed, and what was done to each. */

type Entry = 'part-listed' | 'part-checked' | 'part-tested' | 'part-changed';

/** One entry about a part of the list, oldest first in the state. */
export type PartLine = {
	[Kind in Entry]: {
		event: string;
		order: number;
		/** ISO date and time. */
		at: string;
		/** Id of the part in the list. */
		part: string;
		kind: Kind;
		data: EventData[Kind];
		/** Something was measured on it, and noted, in the proof of a flow. */
		proved?: true;
	};
}[Entry];

/** How a part stands: what was done to it last. */
export const STATES = {
	...CHECKED,
	good: 'tested good',
	bad: 'tested bad',
	changed: 'changed'
} as const;
export type StateOfPart = keyof typeof STATES;

export interface Part {
	id: string;
	/** As drawn on the diagram: `C12`. */
	name: string;
	kind: PartLook;
	place?: string;
	duty?: Duty;
	/** As marked on it, and in base units. */
	typed?: string;
	value?: number;
	rating?: string;
	suspects: readonly string[];
	state: StateOfPart;
	/** What it was measured to have, base units; left out once it was changed. */
	reading?: number;
	/** What was read or found, in words. */
	found?: string;
	/** Why it was left, or changed. */
	reason?: string;
	/** The new part in words, and the event of the change. */
	fitted?: string;
	changedBy?: string;
	/** Something was measured on it, or it was tested, before it was changed. */
	measured: boolean;
}

/** What is measured on a part: farads of a capacitor, ohms of all else. */
export const unitOfPart = (kind: PartLook): Unit => (PART_LOOKS[kind].of === 'capacitor' ? 'F' : 'ohm');

const optional = <Key extends string, Value>(key: Key, value: Value | undefined) =>
	(value === undefined || value === '' ? {} : { [key]: value }) as Partial<Record<Key, Value>>;

function listed(before: Part | undefined, { data }: Extract<PartLine, { kind: 'part-listed' }>): Part {
	const { part, name, kind, place, duty, typed, value, rating, suspects } = data;
	const { state = 'untouched', measured = false, reading, found, reason, fitted, changedBy } = before ?? {};
	return {
		...{ id: part, name, kind, suspects: suspects ?? [], state, measured },
		...optional('place', place),
		...optional('duty', duty),
		...optional('typed', typed),
		...optional('value', value),
		...optional('rating', rating),
		...optional('reading', reading),
		...optional('found', found),
		...optional('reason', reason),
		...optional('fitted', fitted),
		...optional('changedBy', changedBy)
	};
}

const readingWords = (
	part: Part,
	{ typed, value }: { typed?: string; value?: number }
): string | undefined => (value === undefined ? typed : printQuantity(value, unitOfPart(part.kind)));

function after(part: Part, line: Exclude<PartLine, { kind: 'part-listed' }>): Part {
	// What stood there before is told of the state before.
	const { found: _found, reason: _reason, fitted: _fitted, changedBy: _by, ...kept } = part;
	if (line.kind === 'part-checked') {
		const { state, reason } = line.data;
		const measured = part.measured || state === 'value' || state === 'continuity';
		return {
			...kept,
			state,
			measured,
			...(state === 'value' && line.data.value !== undefined ? { reading: line.data.value } : {}),
			...optional('found', readingWords(part, line.data)),
			...optional('reason', reason)
		};
	}
	if (line.kind === 'part-tested')
		return { ...kept, state: line.data.result, measured: true, ...optional('found', line.data.found) };
	const { fitted, reason } = line.data;
	const { reading: _measured, ...fresh } = kept;
	return {
		...fresh,
		measured: part.measured || line.proved === true,
		state: 'changed',
		changedBy: line.event,
		...optional('fitted', fitted),
		...optional('reason', reason)
	};
}

/** Every part of the list as it stands, in the order in which they were listed. */
export function partsFrom(lines: readonly PartLine[]): Part[] {
	const parts = new Map<string, Part>();
	for (const line of lines) {
		const before = parts.get(line.part);
		if (line.kind !== 'part-listed') {
			if (before) parts.set(line.part, after(before, line));
		} else if (line.data.off) parts.delete(line.part);
		else parts.set(line.part, listed(before, line));
	}
	return [...parts.values()];
}

/** A part of the list as it stands; `undefined` where it is not on it. */
export const partIn = (lines: readonly PartLine[], id: string | undefined): Part | undefined =>
	id === undefined ? undefined : partsFrom(lines.filter(({ part }) => part === id))[0];
