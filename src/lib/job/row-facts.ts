import type { EventData, EventOf, JobEvent } from './events.ts';

/**
 * What the row of a job keeps of its events: the words that it can be found by, and the causes that it has proved. An
 * event that is undone takes its fact along.
 */

export type RowFact = {
	/** The event that it came from. */
	event: string;
} & (
	| { kind: 'note'; text: string }
	/** Valves of the set by its drawing and in its holders; the latest holds. */
	| { kind: 'valves'; text: string }
	/** A part by its suspect, or by the name that was written; `fitted` and what was found stand behind it. */
	| { kind: 'part'; part: string; text?: string }
	| { kind: 'suspect'; flow: string; suspect: string }
	/** The suspect whose change cured the complaint of a flow, after so many minutes at the bench. */
	| { kind: 'cause'; flow: string; suspect: string; was: EventData['proved']['partWas']; minutes: number }
);

export type CauseFact = Extract<RowFact, { kind: 'cause' }>;

/** A row stays small, whatever a log from a stranger holds. */
const MOST_FACTS = 200;
const LONGEST = 400;

const short = (text: string) => text.slice(0, LONGEST);

function causeOf(facts: readonly RowFact[], { id, data }: EventOf<'proved'>, minutes: number): RowFact[] {
	if (data.symptom !== 'cured') return [];
	const named = facts.findLast((fact) => fact.kind === 'suspect' && fact.flow === data.flow);
	if (named?.kind !== 'suspect') return [];
	const { flow, suspect } = named;
	return [{ kind: 'cause', event: id, flow, suspect, was: data.partWas, minutes: Math.round(minutes) }];
}

function newFacts(facts: readonly RowFact[], event: JobEvent, minutes: number): RowFact[] {
	const { id } = event;
	const part = (name: string, ...words: (string | undefined)[]): RowFact => {
		const text = words.filter(Boolean).join(' ');
		return { kind: 'part', event: id, part: short(name), ...(text ? { text: short(text) } : {}) };
	};
	switch (event.kind) {
		case 'set-described': {
			const types = event.data.valves.flatMap(({ listed, fitted }) => [listed, fitted ?? '']);
			return [{ kind: 'valves', event: id, text: short([...new Set(types)].join(' ')) }];
		}
		case 'noted':
			return [{ kind: 'note', event: id, text: short(event.data.text) }];
		case 'closed':
			return event.data.note ? [{ kind: 'note', event: id, text: short(event.data.note) }] : [];
		case 'guessed':
			return event.data.text ? [{ kind: 'note', event: id, text: short(event.data.text) }] : [];
		case 'suspected':
			return [{ kind: 'suspect', event: id, flow: event.data.flow, suspect: event.data.suspect }];
		case 'part-changed':
			return [part(event.data.part, event.data.fitted)];
		case 'part-tested':
			return [part(event.data.part, event.data.result, event.data.found)];
		case 'part-listed': {
			const { name, kind: look, typed, rating, off } = event.data;
			return off ? [] : [part(name, look, typed, rating)];
		}
		case 'part-checked':
			return event.data.reason ? [part(event.data.part, event.data.reason)] : [];
		case 'cause-sought':
			return event.data.found ? [part(event.data.part, event.data.found)] : [];
		case 'proved':
			return causeOf(facts, event, minutes);
		default:
			return [];
	}
}

/** A complaint that is back after a part whose own badness nobody saw: that part was no cause. */
const withoutBack = (facts: readonly RowFact[], flow: string) =>
	facts.filter((fact) => fact.kind !== 'cause' || fact.flow !== flow || fact.was === 'bad');

/** The facts after one more event. */
export function factAfter(facts: RowFact[], event: JobEvent, minutes: number): RowFact[] {
	if (event.kind === 'undone') {
		const { target } = event.data;
		return facts.some((fact) => fact.event === target)
			? facts.filter((fact) => fact.event !== target)
			: facts;
	}
	if (event.kind === 'went-on') return withoutBack(facts, event.data.flow);
	const fresh = newFacts(facts, event, minutes);
	// The set is described as a whole each time it is touched.
	if (event.kind === 'set-described') return [...facts.filter(({ kind }) => kind !== 'valves'), ...fresh];
	return fresh.length && facts.length < MOST_FACTS ? [...facts, ...fresh] : facts;
}
