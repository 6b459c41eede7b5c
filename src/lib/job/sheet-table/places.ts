import type { Plan } from '../../receiver/index.ts';
import { surveyPoints, type SurveyPoint } from '../../receiver/survey.ts';
import { findValve } from '../../valves/index.ts';
import type { Electrode } from './heads.ts';

/** Which valve a line is about. */
export interface Named {
	/** Valves of the plan that it may be, by id. */
	valves: string[];
	/** It is the oscillator triode of that valve. */
	osc: boolean;
	/** The place in the line-up alone said which: a guess to be told. */
	byNumber?: string;
	/** A type that the set does not list. */
	stranger?: string;
}

const WORDS: Readonly<Record<string, readonly string[]>> = {
	mixer: ['mixer', 'fc', 'frequency changer', 'converter', 'mischer'],
	if: ['if', 'i.f.', 'if amp', 'if amplifier', 'if valve', 'zf'],
	audio: ['af', 'audio', 'af amp', 'af amplifier', 'detector', 'det/af', 'nf'],
	output: ['output', 'output valve', 'power', 'endstufe'],
	'fm-tuner': ['tuner', 'fm tuner', 'rf']
};
const OSC = /^(?:osc|oscillator|triode|triode part)$/i;
const RECTIFIER = /^(?:rect|rectifier|gleichrichter)$/i;

const isType = (word: string) =>
	/^(?=.*\d)(?=.*[a-z])[a-z0-9/]{3,10}$/i.test(word) && !/^v\d{1,2}$/i.test(word);
const clean = (word: string) => word.replace(/^[(["']+|[)\]"':,.]+$/g, '');

function byType(plan: Plan, name: string): string[] {
	const found = findValve(name);
	return Object.entries(plan.valves).flatMap(([id, { type }]) => {
		const own = findValve(type);
		const same = found.ok && own.ok && own.valve.type === found.valve.type;
		return same || type.toUpperCase() === name.toUpperCase() ? [id] : [];
	});
}

function byWords(plan: Plan, name: string): string[] {
	const words = name.toLowerCase();
	const titled = Object.entries(plan.valves).filter(([id, { title }]) =>
		[id, title.toLowerCase()].includes(words)
	);
	if (titled.length > 0) return titled.map(([id]) => id);
	const { valve: rectifier } = plan.lines['ht'] ?? {};
	if (RECTIFIER.test(words)) return rectifier ? [rectifier] : [];
	const section = Object.entries(WORDS).find(([, all]) => all.includes(words))?.[0];
	const stages = Object.values(plan.stages).filter((stage) => stage.section === section && stage.valve);
	return section ? [...new Set(stages.map(({ valve }) => valve as string))] : [];
}

/** The valve that the words before the readings name: by its type, by what it does, by V and its place in the line-up. */
export function valveNamed(plan: Plan, words: readonly string[]): Named | undefined {
	const all = words
		.flatMap((word) => word.split(/\s+/))
		.map(clean)
		.filter(Boolean);
	const osc = all.some((word) => OSC.test(word));
	const types = all.filter((word) => isType(word) || findValve(word).ok);
	for (const type of types) {
		const valves = byType(plan, type);
		if (valves.length > 0) return { valves, osc };
	}
	if (types[0] !== undefined) return { valves: [], osc, stranger: types[0] };
	const rest = all.filter((word) => !/^v\d{1,2}[a-z]?$/i.test(word));
	const worded = [rest.join(' '), ...rest]
		.map((name) => byWords(plan, name))
		.find(({ length }) => length > 0);
	if (worded) return { valves: worded, osc };
	const number = all.map((word) => /^v(\d{1,2})[a-z]?$/i.exec(word)?.[1]).find(Boolean);
	const at = Object.keys(plan.valves)[Number(number ?? 0) - 1];
	if (at !== undefined) return { valves: [at], osc, byNumber: `V${number}` };
	return osc ? { valves: [], osc } : undefined;
}

const isSame = (electrode: string | undefined, wanted: string) =>
	electrode === wanted || (wanted === 'g2' && electrode === 'g2g4') || (wanted === 'g1' && electrode === 'g');

/**
 * The survey's point for an electrode of one of these valves. Where a set has the same type twice, or a double triode, the next line
 * with it means the next place.
 */
export function pointOf(
	plan: Plan,
	{ valves, osc }: Named,
	electrode: Electrode,
	taken: ReadonlySet<string>
): SurveyPoint | undefined {
	const points = surveyPoints(plan);
	const rectifier = plan.lines['ht']?.valve;
	if (electrode === 'k' && rectifier !== undefined && valves.includes(rectifier))
		return points.find(({ id }) => id === 'ht.reservoir');
	const triode = electrode === 'at' || (osc && electrode === 'a');
	const wanted = triode ? 'a' : electrode;
	const own = points.filter(
		(point) => point.valve !== undefined && valves.includes(point.valve) && isSame(point.electrode, wanted)
	);
	const ofOsc = ({ stage }: SurveyPoint) => plan.stages[stage]?.section === 'oscillator';
	const chosen = own.filter((point) => ofOsc(point) === triode);
	// The triode of a mixer is its oscillator or nothing; an audio triode is told as a triode too.
	const mixes = own.some(({ stage }) => plan.stages[stage]?.section === 'mixer');
	const fitting = chosen.length > 0 || (triode && mixes) ? chosen : own;
	return fitting.find(({ id }) => !taken.has(id)) ?? fitting[0];
}

const SUPPLY: readonly [RegExp, string][] = [
	[/^(?:ht negative|ht ?[-−]|b ?[-−]|bias resistor)/i, 'ht.negative'],
	[/^(?:across )?(?:reservoir|ht ?1\b|c ?1\b|ht before|b\+ ?1\b)/i, 'ht.reservoir'],
	[/^(?:across )?(?:smoothed|ht ?2\b|ht\b|c ?2\b|ht after|b\+)/i, 'ht.smoothed']
];

/** A point told by its own name, or the supply by the words for it. */
export function pointNamed(plan: Plan, words: string): SurveyPoint | undefined {
	const name = words.trim().replace(/[:=]$/, '').toLowerCase();
	const points = surveyPoints(plan);
	const own = points.find(({ id, title }) => id === name || title.toLowerCase() === name);
	const supply = SUPPLY.find(([pattern]) => pattern.test(name))?.[1];
	return own ?? points.find(({ id }) => id === supply);
}
