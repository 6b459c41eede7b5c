import { termsIn } from '$lib/flow/glossary.ts';
import { INSTRUMENTS } from '$lib/flow/terms.ts';
import { labelOf, normalOf, outcomesOf } from '$lib/flow/evidence.ts';
import { answerEffects, chanceNumber, whySuggested } from '$lib/flow/why.ts';
import {
	BASIS_WORDS,
	expectedAt,
	fieldUnit,
	judgeReading,
	parseReading,
	printReading,
	unitOfStep
} from '$lib/flow/reading.ts';
import { isProvoking, outcomeOfSheet } from '$lib/flow/provocation.ts';
import type { Step } from '$lib/flow/schema.ts';
import { bestWay } from '$lib/flow/trace.ts';
import { clockStart } from '$lib/job/clock.ts';
import type { EventData } from '$lib/job/events.ts';
import { htNow } from '$lib/job/ht-now.ts';
import { sheetOf } from '$lib/job/sheet.ts';
import { fits } from '$lib/receiver/index.ts';
import type { CautionText } from '$lib/ui/step/types.ts';
import type { OpenJob } from '$lib/ui/state/open-job.svelte.ts';
import { hidesList } from './own-first.ts';

/** A step in the words of the page. */

const listOf = (source: string | string[]) => (typeof source === 'string' ? [source] : source);

/** The cautions that a step names, and those that its set adds whatever the step says (a live chassis). */
export function cautionsOf(job: OpenJob, step: Step): CautionText[] {
	const { library, resolved } = job;
	if (!resolved) return [];
	const always = Object.keys(library.cautions).filter((id) =>
		library.cautions[id]?.only?.chassis?.includes('live')
	);
	const states = [step.power, ...(step.prepare ? [step.prepare] : [])];
	return [...new Set([...step.cautions, ...always])].flatMap((id) => {
		const caution = library.cautions[id];
		if (!caution || !fits(resolved.plan.traits, caution.only)) return [];
		const applies = step.cautions.includes(id) || caution.covers.some((state) => states.includes(state));
		return applies
			? [
					{
						title: caution.title,
						text: caution.text,
						source: sourceWords(job, caution.source),
						covers: caution.covers
					}
				]
			: [];
	});
}

/** Cautions by id, as far as they belong to this set. */
export function namedCautions(job: OpenJob, ids: readonly string[]): CautionText[] {
	const traits = job.resolved?.plan.traits ?? {};
	return ids.flatMap((id) => {
		const caution = job.library.cautions[id];
		if (!caution || !fits(traits, caution.only)) return [];
		const { title, text, source, covers } = caution;
		return [{ title, text, source: sourceWords(job, source), covers }];
	});
}

/** Cautions for each passage from one power state to another; one that names no state belongs to the mains. */
export const passageCautions = (job: OpenJob): CautionText[] =>
	namedCautions(job, [
		'discharge',
		'first-power',
		'limiter-does-not-isolate',
		'battery-supplies',
		'live-work',
		'live-chassis'
	]).map((caution) => (caution.covers?.length ? caution : { ...caution, covers: ['limiter', 'live'] }));

/** Sources by title, where the library has them; else as they stand. */
export const sourceWords = ({ library }: OpenJob, source: string | string[]): string[] =>
	listOf(source).map((key) => library.sources[key]?.title ?? key);

/** What a sound set shows at this step. */
export function normalWords(job: OpenJob, step: Step): string {
	const label = labelOf(step, normalOf(step));
	if (step.kind !== 'measure' || !job.resolved) return label;
	const { when } = step.outcomes[step.normal] ?? {};
	const expected = expectedAt(job.resolved.plan, step.at, job.state.service, htNow(job.state));
	if (when?.includes('%') && expected)
		return `${label}: about ${printReading(step, expected.value)} (${BASIS_WORDS[expected.basis]})`;
	return when && !when.includes('%') ? `${label}: ${when}` : label;
}

export function stepView(job: OpenJob, id: string) {
	const { resolved, trace } = job;
	const step = resolved?.steps[id];
	if (!resolved || !step || !trace) return undefined;
	const instruments = job.state.intake?.instruments;
	const way = step.ways[bestWay(step, instruments) ?? 0];
	// A procedure moves nobody: there is nothing that an answer would do to the suspects.
	const suggested = job.procedure ? undefined : job.suggestions.find((s) => s.id === id);
	const parts = suggested && !hidesList(job) ? whySuggested(trace, suggested) : undefined;
	const effects = suggested ? answerEffects(trace, suggested) : [];
	const place = 'at' in step && step.at ? job.where(step.at) : undefined;
	return {
		step,
		card: {
			title: step.title,
			text: step.text,
			why: step.why,
			instruments: (way?.needs ?? []).map((name) => INSTRUMENTS[name]),
			power: step.power,
			minutes: step.minutes,
			normal: normalWords(job, step),
			cautions: cautionsOf(job, step),
			words: termsIn(job.library.glossary ?? {}, [step.title, step.text].join(' ')),
			...(parts ? { parts } : {}),
			...(place ? { place } : {}),
			...(way?.text ? { wayText: way.text } : {})
		},
		effects: effects.map((effect) => ({ ...effect, chance: chanceNumber(effect.chance) })),
		answers: outcomesOf(step).map((outcome) => ({
			id: outcome,
			label: labelOf(step, outcome),
			...(outcome === normalOf(step) ? { normal: true } : {})
		}))
	};
}

/** Which outcome of a measuring step a typed text means. */
export function judgeText(job: OpenJob, step: Extract<Step, { kind: 'measure' }>, text: string) {
	const parsed = parseReading(step, text);
	if (!parsed.ok) return { ok: false as const, hint: parsed.hint };
	const plan = job.resolved?.plan;
	const judged =
		plan && judgeReading(step, parsed.value, expectedAt(plan, step.at, job.state.service, htNow(job.state)));
	if (!judged)
		return {
			ok: false as const,
			hint: 'Nobody knows what to expect here: choose high, low or as expected below.'
		};
	return {
		ok: true as const,
		echo: parsed.echo,
		outcome: judged.outcome,
		label: labelOf(step, judged.outcome),
		value: parsed.value
	};
}

/** The reading as the job keeps it. */
export function readingData(
	job: OpenJob,
	step: Extract<Step, { kind: 'measure' }>,
	typed: string,
	value: number
): NonNullable<EventData['answered']['reading']> {
	const power = job.state.power.now;
	const ht = power === 'live' ? htNow(job.state) : undefined;
	return { typed, value, unit: unitOfStep(step), point: step.at, power, ...(ht ? { ht } : {}) };
}

export { fieldUnit };

/** The sheet of a step that provokes the fault; nothing for other steps. */
export function sheetView(job: OpenJob, id: string, step: Step) {
	if (!isProvoking(step)) return undefined;
	const sheet = sheetOf(job.state, id);
	const outcome = outcomeOfSheet(step, sheet) ?? '';
	return {
		outcome,
		shown: { provoke: step.provoke, sheet, meaning: outcome && labelOf(step, outcome) }
	};
}

const UNDER_POWER = 'The clock runs once the set is under power.';
const BY_HAND = 'Start the clock as you begin.';

/** The clock of a step that needs time, or whose sheet warms and cools; nothing for other steps. */
export function clockView({ state }: OpenJob, id: string, step: Step) {
	const heats = isProvoking(step) && step.provoke.some((name) => name === 'warm' || name === 'cool');
	if (step.after === undefined && !heats) return undefined;
	const start = step.after === undefined ? state.clocks[id] : clockStart(state, id, step);
	const idle = step.after === undefined || step.power === 'unplugged' ? BY_HAND : UNDER_POWER;
	return { start, minutes: step.after, idle };
}
