import { SECTIONS } from '../receiver/index.ts';
import { LIKELIHOODS, type LikelihoodWord } from '../suspects/index.ts';
import { labelOf } from './evidence.ts';
import { sheetWords } from './provocation.ts';
import { printReading } from './reading.ts';
import type { PlacedSuspect } from './resolve.ts';
import { PATH_VERBS, type PathOutcome } from './terms.ts';
import { cleared, type Cleared, type Trace, type WeighedAnswer } from './trace.ts';

/** A suspect as a restorer would call it: the part, the place where it can stand in several, the failure. */
export function nameOf(placed: PlacedSuspect | undefined): string {
	if (!placed) return 'Something not listed here';
	const { suspect, family, id, placeTitle } = placed;
	return family === id
		? `${suspect.part}: ${suspect.failure}`
		: `${suspect.part} (${lower(placeTitle)}): ${suspect.failure}`;
}

/** Lower the first letter, but not that of an abbreviation (AM, IF, HT). */
export const lower = (text: string) =>
	/^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;

/** The likelihood word nearest to a number, on the logarithm of the odds. */
function wordFor(p: number): LikelihoodWord {
	const odds = (x: number) => Math.log(x / (1 - x));
	const entries = Object.entries(LIKELIHOODS) as [LikelihoodWord, number][];
	const chance = Math.min(0.99, Math.max(0.01, p));
	return entries.reduce((a, b) =>
		Math.abs(odds(b[1]) - odds(chance)) < Math.abs(odds(a[1]) - odds(chance)) ? b : a
	)[0];
}

export type Weight = 'strongly' | 'clearly' | 'a little' | 'not at all';

const weightOf = (factor: number): Weight => {
	const size = Math.max(factor, 1 / factor);
	return size >= 8 ? 'strongly' : size >= 3 ? 'clearly' : size >= 1.2 ? 'a little' : 'not at all';
};

/** One piece of evidence for or against a suspect. */
export interface Reason {
	step: string;
	speaks: 'for' | 'against';
	weight: Weight;
	/** Likelihood of the answer with this suspect, against that with the others as they stand. */
	factor: number;
	sentence: string;
	source: string[];
}

const list = (source: string | string[]) => (typeof source === 'string' ? [source] : source);

/** What was found, as the start of a sentence: `Grid of the output valve: +1.2 V, positive`. */
export function answerText({ answer, step }: Pick<WeighedAnswer, 'answer' | 'step'>): string {
	const doubt = answer.sure === false ? ', not sure' : '';
	const label = `${lower(labelOf(step, answer.outcome))}${doubt}`;
	if (answer.provoked) return `${step.title}: ${label} (${lower(sheetWords(answer.provoked))})`;
	if (step.kind === 'measure' && answer.reading !== undefined)
		return `${step.title}: ${printReading(step, answer.reading)} (${label})`;
	return `${step.title}: ${label}`;
}

/** One plain sentence for each answer that moved a suspect, the heaviest first. */
export function reasonsFor(trace: Trace, id: string): Reason[] {
	const index = trace.ids.indexOf(id);
	const own = trace.now[index] ?? 0;
	const reasons = trace.answers.map((weighed): Reason => {
		const p = weighed.likelihood[index] ?? 0;
		const all = weighed.likelihood.reduce(
			(sum, l, i) => sum + (i === index ? 0 : l * (trace.now[i] ?? 0)),
			0
		);
		const others = own < 1 ? all / (1 - own) : p;
		const factor = others > 0 ? p / others : 1;
		const shows = `shows that ${wordFor(p)}, the other suspects ${wordFor(others)}.`;
		return {
			step: weighed.answer.step,
			speaks: factor >= 1 ? 'for' : 'against',
			weight: weightOf(factor),
			factor,
			sentence: `${answerText(weighed)}. This fault ${shows}`,
			source: list(weighed.step.source)
		};
	});
	return reasons
		.filter(({ weight }) => weight !== 'not at all')
		.sort(
			(a, b) => Math.abs(Math.log(b.factor)) - Math.abs(Math.log(a.factor)) || a.step.localeCompare(b.step)
		);
}

/** What a complaint by itself says, as the first line of the evidence. */
export function heardText({ resolved }: Trace): string {
	return Object.entries(resolved.heard)
		.map(
			([band, outcome]) => `${resolved.plan.bands[band]?.title ?? band} ${PATH_VERBS[outcome as PathOutcome]}`
		)
		.join(', ');
}

const join = (items: readonly string[]) =>
	items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items.at(-1) ?? ''}`;

/** Names of what is cleared: whole sections, then single stages of the others. */
export const clearedNames = ({ sections, places }: Cleared): string[] => [
	...sections.map((id) => lower(SECTIONS[id])),
	...places.map(({ title }) => lower(title))
];

/** A line on a phone holds some eight names; the rest are counted. */
export const inShort = (names: readonly string[]) =>
	names.length <= 8 ? join(names) : `${names.slice(0, 7).join(', ')} and ${names.length - 7} more`;

/** One line on what an answer, or the complaint, has cleared; empty where it cleared nothing. */
export function learnt(before: Trace | undefined, after: Trace): string {
	const known = new Set(before ? clearedNames(cleared(before)) : []);
	const fresh = clearedNames(cleared(after)).filter((name) => !known.has(name));
	const last = after.answers.at(-1);
	const fact = before && last ? answerText(last) : heardText(after);
	const outcome =
		last && 'outcomes' in last.step ? last.step.outcomes[last.answer.outcome]?.means : undefined;
	const said = before && outcome ? outcome : fact && `${fact}.`;
	// A complaint of a sign alone says nothing of the bands.
	const sentences = said ? [said] : [];
	if (fresh.length) sentences.push(`Cleared: ${inShort(fresh)}.`);
	return sentences.join(' ');
}
