import { labelOf } from '../flow/evidence.ts';
import { nameOf } from '../flow/explain.ts';
import { POWER_WORDS } from '../flow/power-words.ts';
import { sheetWords } from '../flow/provocation.ts';
import { printReading } from '../flow/reading.ts';
import type { ResolvedFlow } from '../flow/resolve.ts';
import type { Step } from '../flow/schema.ts';
import { printQuantity } from '../quantity/index.ts';
import { HT_NEGATIVE, TUNED_WORDS, type Plan } from '../receiver/index.ts';
import {
	CAUSE,
	CHECKED,
	LISTENED,
	PART_WAS,
	PHASE_WORDS,
	PHASES,
	RESULTS,
	SYMPTOM_NOW,
	TESTED,
	type EventData,
	type EventKind,
	type EventOf,
	type JobEvent
} from './events.ts';
import { PICTURE_LINE, pictureWords } from './pictured.ts';
import { complaintWords, lowerFirst } from './words.ts';

/** One line of the trail, in words for people. */
export interface TrailLine {
	/** Id of the event. */
	event: string;
	kind: EventKind;
	/** ISO date and time. */
	at: string;
	bench: string;
	flow?: string;
	step?: string;
	what: string;
	answer?: string;
	reading?: string;
	/** What the answer, or the complaint, has taught. */
	learnt?: string;
	/** Taken back by a later event. */
	undone: boolean;
	/** The picture that it brought, by hash. */
	picture?: string;
	/** Why it does not count; the sentence is among the warnings too. */
	refused?: string;
}

type Words = Pick<TrailLine, 'what' | 'answer' | 'reading'>;

const joined = (...parts: (string | undefined)[]) => parts.filter((part) => part).join('; ');

const stepOf = (resolved: ResolvedFlow | undefined, id: string): Step | undefined =>
	resolved && Object.hasOwn(resolved.steps, id) ? resolved.steps[id] : undefined;

const stepTitle = (resolved: ResolvedFlow | undefined, id: string) =>
	stepOf(resolved, id)?.title ?? `Step "${id}"`;

function answerWords(
	resolved: ResolvedFlow | undefined,
	data: EventData['answered'],
	outcome: string
): Words {
	const step = stepOf(resolved, data.step);
	const label = step ? labelOf(step, outcome) : outcome;
	const { reading, provoked } = data;
	const read =
		reading &&
		(step?.kind === 'measure'
			? printReading(step, reading.value)
			: printQuantity(reading.value, reading.unit));
	const shown = read ?? (provoked && sheetWords(provoked));
	return {
		what: stepTitle(resolved, data.step),
		answer: data.sure ? label : `${label} (not sure)`,
		...(shown ? { reading: shown } : {})
	};
}

function powerWords({ to, volts }: EventData['power']): Words {
	const read = volts?.map((v) => printQuantity(v, 'V')).join(' at the reservoir, ');
	return {
		what: `Set ${lowerFirst(POWER_WORDS[to])}`,
		...(read ? { reading: `${read} after the smoothing` } : {})
	};
}

const suspectName = (resolved: ResolvedFlow | undefined, id: string): string => {
	const placed = resolved?.suspects.find((suspect) => suspect.id === id);
	return placed ? nameOf(placed) : id;
};

/** What a line may need besides its event. */
export interface LineContext {
	resolved: ResolvedFlow | undefined;
	plan: Plan | undefined;
	/** The outcome as derived on replay. */
	outcome?: string;
	/** The part in hand. */
	suspect?: string | undefined;
	/** Something was measured on the part that the event names, and noted, before. */
	measured?: boolean;
	/** The part of the list that the event is about, as drawn. */
	listed?: string | undefined;
}

/** Of a part that was changed with nothing measured on it before. */
export const WITHOUT_PROOF = 'without proof';

const count = (number: number, what: string) => `${number} ${what}${number === 1 ? '' : 's'}`;

/** A point that the plan does not list: "if.cathode" is the IF cathode. */
export const pointWords = (point: string): string => {
	if (point === HT_NEGATIVE.id) return HT_NEGATIVE.title;
	const [stage = '', electrode = ''] = point.split('.');
	return `${electrode}, ${stage.replaceAll('-', ' ')} stage`;
};

type Wording = { [Kind in EventKind]?: (data: EventData[Kind], context: LineContext) => Words };

/** Kinds without an entry leave no line of their own: they are steps on the way. */
const WORDING: Wording = {
	started: ({ copyOf, like }) => ({
		what: copyOf
			? 'Job opened as a copy of one that was here already'
			: `Job opened${like ? ', with the data of an earlier set of the same kind' : ''}`
	}),
	intake: (data, { plan }) => ({ what: `Taken in: ${data.title}`, answer: complaintWords(data, plan) }),
	'flow-opened': ({ flow }, { resolved }) => ({ what: `Flow opened: ${resolved?.flow.title ?? flow}` }),
	power: powerWords,
	answered: (data, { resolved, outcome }) => answerWords(resolved, data, outcome ?? data.outcome),
	'cannot-tell': ({ step, reason }, { resolved }) => ({
		what: stepTitle(resolved, step),
		answer: joined('cannot tell', reason)
	}),
	skipped: ({ step }, { resolved }) => ({ what: stepTitle(resolved, step), answer: 'put off' }),
	suspected: ({ suspect }, { resolved }) => ({ what: `Suspected: ${suspectName(resolved, suspect)}` }),
	repairing: (_, { resolved, suspect }) => ({
		what: `Repair begun${suspect ? `: ${suspectName(resolved, suspect)}` : ''}`
	}),
	'part-changed': ({ part, fitted, reason, listed: id }, { resolved, measured, listed }) => {
		const answer = joined(fitted && `fitted: ${fitted}`, reason, measured ? '' : WITHOUT_PROOF);
		const name = id === undefined ? undefined : listed;
		return { what: `Changed: ${name ?? suspectName(resolved, part)}`, ...(answer ? { answer } : {}) };
	},
	proved: ({ symptom, partWas }) => ({
		what: 'Symptom proved again',
		answer: joined(SYMPTOM_NOW[symptom], PART_WAS[partWas])
	}),
	'cause-sought': ({ part, result, found }, { resolved }) => ({
		what: `Cause behind ${lowerFirst(suspectName(resolved, part))}`,
		answer: joined(CAUSE[result], found)
	}),
	heard: ({ bands, signs = [], listened }, { plan }) => ({
		what: listened ? 'Quick listen' : 'Heard now',
		answer: listened ? LISTENED[listened] : complaintWords({ symptom: bands, signs }, plan)
	}),
	guessed: ({ suspect, text }, { resolved }) => ({
		what: 'Own suspicion',
		answer: joined(suspect && suspectName(resolved, suspect), text)
	}),
	calculated: ({ title, sentence, inputs }) => ({
		what: title,
		answer: inputs ? `${sentence} From: ${inputs}.` : sentence
	}),
	'part-tested': ({ part, result, found, listed: id }, { resolved, listed }) => ({
		what: `Tested: ${(id === undefined ? undefined : listed) ?? suspectName(resolved, part)}`,
		answer: joined(TESTED[result], found)
	}),
	'set-described': ({ valves, volts, parts }) => ({
		what: 'The set described',
		answer: [
			count(valves.length, 'valve'),
			`volts at ${count(Object.keys(volts).length, 'point')}`,
			count(Object.keys(parts).length, 'part value')
		].join(', ')
	}),
	read: ({ point, reading, out, tuned }, { plan }) => ({
		what: `Survey: ${plan?.points[point]?.title ?? pointWords(point)}`,
		reading: printQuantity(reading.value, reading.unit),
		...(out ? { answer: 'with the valve out' } : tuned ? { answer: TUNED_WORDS[tuned] } : {})
	}),
	'part-checked': ({ part, state, typed, reason }, { listed }) => ({
		what: `${listed ?? part}: ${CHECKED[state]}`,
		...(typed ? { reading: typed } : {}),
		...(reason ? { answer: reason } : {})
	}),
	noted: ({ text, part }, { resolved }) => ({
		what: part ? `Note on ${suspectName(resolved, part)}: ${text}` : `Note: ${text}`
	}),
	pictured: (data, { resolved, plan, listed }) => {
		const { step, part, point } = data.of;
		const names = {
			step: step === undefined ? undefined : stepTitle(resolved, step),
			part: part === undefined ? undefined : (listed ?? suspectName(resolved, part)),
			point: point === undefined ? undefined : (plan?.points[point]?.title ?? pointWords(point))
		};
		const answer = data.caption;
		return { what: PICTURE_LINE + pictureWords(data, names), ...(answer ? { answer } : {}) };
	},
	resolved: ({ step }, { resolved }) => ({ what: `Contradiction settled: ${stepTitle(resolved, step)}` }),
	'gave-up': () => ({ what: 'Left unresolved' }),
	'went-on': () => ({ what: 'Tracing goes on' }),
	closed: ({ result, note }) => ({
		what: `Job closed: ${RESULTS[result]}`,
		...(note ? { answer: note } : {})
	}),
	phase: ({ phase, state, reason }) => ({
		what: `${PHASES[phase]}: ${PHASE_WORDS[state]}, said by hand`,
		...(reason ? { answer: reason } : {})
	}),
	experience: ({ proved, untested }, { resolved }) => {
		const jobs = [...Object.values(proved), ...Object.values(untested)].reduce((sum, n) => sum + n, 0);
		const what = `Own jobs with this complaint: ${resolved?.flow.title ?? ''}`.replace(/: $/, '');
		return { what, answer: jobs === 0 ? 'they count no more' : `${jobs} count` };
	}
};

/** Words for what is refused, where its kind has no line of its own. */
const BARE: Partial<Record<EventKind, string>> = {
	took: 'Step taken',
	left: 'Step left',
	prepared: 'Connection made',
	undone: 'Undo',
	'part-listed': 'Part listed',
	marked: 'Mark set',
	unmarked: 'Mark taken away',
	tallied: 'Sheet',
	'clock-started': 'Clock started'
};

/** The line of an event; `undefined` for a step on the way, unless it is refused and has to be shown. */
export function lineOf(
	event: JobEvent,
	context: LineContext,
	refused: string | undefined
): TrailLine | undefined {
	const wording = WORDING[event.kind] as
		((data: JobEvent['data'], context: LineContext) => Words) | undefined;
	if (!wording && refused === undefined) return undefined;
	const words = wording?.(event.data, context) ?? { what: BARE[event.kind] ?? event.kind };
	const { flow, step } = event.data as Partial<EventOf<'answered'>['data']>;
	return {
		event: event.id,
		kind: event.kind,
		at: event.at,
		bench: event.bench,
		...(flow ? { flow } : {}),
		...(step ? { step } : {}),
		...words,
		undone: false,
		...(event.kind === 'pictured' ? { picture: event.data.picture } : {}),
		...(refused === undefined ? {} : { refused })
	};
}
