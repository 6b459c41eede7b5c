import { fits, placeOf, SECTIONS, type Plan, type SectionId } from '../receiver/index.ts';
import { complaintKind, type ComplaintKind } from './complaint-kinds.ts';
import type { Library } from './library.ts';
import { flowFits } from './resolve.ts';
import type { Caution, Flow, Step } from './schema.ts';
import { INSTRUMENTS, PATH_LABELS, PATH_OUTCOMES, PATH_VERBS, SIGNS } from './terms.ts';

/**
 * A flow as a page to read: every id already turned into words. Worked out when the app is built, so that the
 * first page needs neither the schema nor the matrix.
 */

export interface FlowSummary {
	id: string;
	title: string;
	/** Work in a fixed order, no complaint. */
	procedure: boolean;
	kind: ComplaintKind;
	/** The complaint in a sentence or two, Markdown. */
	about: string;
	/** What each band does, in signal words: "FM plays well". */
	symptom: string[];
	/** How many suspects and steps the flow names itself. */
	suspects: number;
	steps: number;
}

export interface SuspectLine {
	/** As the flow names it: a suspect, a family, or a whole section or place. */
	id: string;
	part: string;
	failure: string;
	/** Where it stands, if it stands in one place. */
	section?: string;
	/** How common it is, given this symptom. */
	common: string;
	note?: string;
}

export interface OutcomeLine {
	id: string;
	label: string;
	when?: string;
	/** Whether a sound set shows this. */
	normal: boolean;
}

export interface StepLine {
	id: string;
	title: string;
	text: string;
	why: string;
	power: Step['power'];
	minutes: number;
	/** One entry per way to take the step: the instruments that it needs. */
	ways: string[][];
	outcomes: OutcomeLine[];
}

export interface FlowPage extends FlowSummary {
	cautions: Pick<Caution, 'title' | 'text'>[];
	suspectLines: SuspectLine[];
	stepLines: StepLine[];
	sources: string[];
	/** Kinds of set that can have this complaint. */
	plans: { id: string; title: string }[];
}

const unique = <T>(values: Iterable<T>): T[] => [...new Set(values)];
const listOf = (source: string | readonly string[]): readonly string[] =>
	typeof source === 'string' ? [source] : source;
const plansOf = (library: Library): Plan[] => Object.values(library.plans);

function bandTitle(library: Library, band: string): string {
	if (band === 'all') return 'Every band';
	return plansOf(library).find((plan) => plan.bands[band])?.bands[band]?.title ?? band;
}

function stepsOf(library: Library, flow: Flow): [string, Step][] {
	return unique([...flow.opening, ...flow.uses, ...Object.keys(flow.own.steps)]).flatMap((id) => {
		const step = flow.own.steps[id] ?? library.steps[id];
		return step ? [[id, step] as [string, Step]] : [];
	});
}

export function summaryOf(library: Library, flow: Flow): FlowSummary {
	const spoken = Object.entries(flow.symptom);
	return {
		id: flow.id,
		title: flow.title,
		procedure: flow.procedure === true,
		kind: complaintKind(flow),
		about: flow.about,
		symptom: [
			...spoken.map(([band, heard]) => {
				const told = [heard, ...(flow['also-heard'][band] ?? [])].map((one) => PATH_VERBS[one]);
				return `${bandTitle(library, band)} ${told.join(' or ')}`;
			}),
			...flow.signs.map((sign) => SIGNS[sign].label)
		],
		suspects: Object.keys(flow.suspects).length,
		steps: stepsOf(library, flow).length
	};
}

const sectionTitle = (id: string): string | undefined => SECTIONS[id as SectionId];

function placeOfName(library: Library, name: string) {
	return plansOf(library)
		.map((plan) => placeOf(plan, name))
		.find(Boolean);
}

/** Words for a key that means a whole section or place: `section:audio`, `place:mixer`. */
function groupLine(library: Library, key: string): Omit<SuspectLine, 'common'> {
	const [kind, name = ''] = key.split(':');
	const title = kind === 'section' ? sectionTitle(name) : placeOfName(library, name)?.title;
	return { id: key, part: title ?? key, failure: 'any part of it' };
}

function suspectLine(library: Library, flow: Flow, key: string): Omit<SuspectLine, 'common' | 'note'> {
	const [family = key, place] = key.split('@');
	const suspect = flow.own.suspects[family] ?? library.suspects[family];
	if (!suspect) return groupLine(library, key);
	const stands = place ?? (typeof suspect.at === 'string' ? suspect.at : undefined);
	const where = stands === undefined ? undefined : placeOfName(library, stands);
	const section = sectionTitle(suspect.section ?? where?.section ?? '');
	const part = place && where ? `${suspect.part} (${where.title})` : suspect.part;
	return { id: key, part, failure: suspect.failure, ...(section && { section }) };
}

function suspectLines(library: Library, flow: Flow): SuspectLine[] {
	return Object.entries(flow.suspects).map(([key, named]) => {
		const line = suspectLine(library, flow, key);
		if (typeof named === 'string') return { ...line, common: named };
		return { ...line, common: named.common, ...(named.note && { note: named.note }) };
	});
}

function outcomesOf(step: Step): OutcomeLine[] {
	if (!('outcomes' in step))
		return PATH_OUTCOMES.map((id) => ({ id, label: PATH_LABELS[id], normal: id === 'good' }));
	return Object.entries(step.outcomes).map(([id, { label, when }]) => ({
		id,
		label,
		...(when && { when }),
		normal: id === step.normal
	}));
}

const stepLine = ([id, step]: [string, Step]): StepLine => ({
	id,
	title: step.title,
	text: step.text,
	why: step.why,
	power: step.power,
	minutes: step.minutes,
	ways: step.ways.map(({ needs }) => needs.map((need) => INSTRUMENTS[need])),
	outcomes: outcomesOf(step)
});

/** The cautions that the steps name, and those of a live chassis, as far as a set that can have this complaint has them. */
function cautionsOf(library: Library, flow: Flow, steps: Step[]): FlowPage['cautions'] {
	const sets = plansOf(library).filter((plan) => flowFits(flow, plan));
	const named = new Set(steps.flatMap((step) => step.cautions));
	const powers = new Set(steps.map((step) => step.power));
	const ofLiveChassis = ({ only, covers }: Caution) =>
		only?.chassis?.includes('live') === true && covers.some((power) => powers.has(power));
	return Object.entries(library.cautions)
		.filter(([id, caution]) => named.has(id) || ofLiveChassis(caution))
		.filter(([, { only }]) => sets.some(({ traits }) => fits(traits, only)))
		.map(([, { title, text }]) => ({ title, text }));
}

function sourcesOf(library: Library, flow: Flow, steps: Step[]): string[] {
	const suspects = Object.keys(flow.suspects).flatMap((key) => {
		const family = key.split('@')[0] ?? key;
		return flow.own.suspects[family] ?? library.suspects[family] ?? [];
	});
	const keys = unique([flow, ...steps, ...suspects].flatMap(({ source }) => listOf(source)));
	const words = keys.map((key) => {
		const source = library.sources[key];
		return source ? [source.title, source.site].filter(Boolean).join(', ') : key;
	});
	return unique(words);
}

/** Kinds of set that can have this complaint. */
export const plansFor = (library: Library, flow: Flow): FlowPage['plans'] =>
	plansOf(library)
		.filter((plan) => flowFits(flow, plan))
		.map(({ id, title }) => ({ id, title }));

export function pageOf(library: Library, flow: Flow): FlowPage {
	const steps = stepsOf(library, flow);
	const plain = steps.map(([, step]) => step);
	return {
		...summaryOf(library, flow),
		cautions: cautionsOf(library, flow, plain),
		suspectLines: suspectLines(library, flow),
		stepLines: steps.map(stepLine),
		sources: sourcesOf(library, flow, plain),
		plans: plansFor(library, flow)
	};
}
