import { SECTIONS } from '../receiver/index.ts';
import { knownNames } from './checks/types.ts';
import { flowText, TODO, type SketchedFlow } from './flow-text.ts';
import type { Library } from './library.ts';
import { partingSteps } from './parting.ts';
import { placeSuspects } from './resolve.ts';
import { normalOf } from './evidence.ts';
import type { Flow, Step } from './schema.ts';
import { PATH_OUTCOMES, SIGNS } from './terms.ts';

/** What an author says before a flow is written. */
export interface FlowWish {
	id: string;
	title: string;
	/** Band, or `all` -> what is heard there. */
	symptom: Readonly<Record<string, string>>;
	/** What is noticed beside the sound. */
	signs: readonly string[];
	/** Bands that a set must have. */
	bands: readonly string[];
	/** Suspects, families of suspects, or sections: of a section, everything that is not rare. */
	suspects: readonly string[];
}

export type Skeleton = { ok: true; text: string } | { ok: false; problems: string[] };

const unknown = (kind: string, names: readonly string[], known: Iterable<string>): string[] => {
	const all = [...known];
	return names
		.filter((name) => !all.includes(name))
		.map((name) => `There is no ${kind} "${name}". ${knownNames(name, all)}`);
};

function problemsOf(library: Library, wish: FlowWish): string[] {
	const bands = new Set(Object.values(library.plans).flatMap((plan) => Object.keys(plan.bands)));
	const said = Object.keys(wish.symptom).length + wish.signs.length;
	return [
		...(/^[a-z][a-z0-9-]*$/.test(wish.id)
			? []
			: [`"${wish.id}" is not an id. Use lower-case letters, digits and hyphens.`]),
		...(Object.hasOwn(library.flows, wish.id)
			? [`There is a flow "${wish.id}" already. Give another id.`]
			: []),
		...(wish.title.trim() ? [] : ['The flow has no title. Write the complaint as people tell it.']),
		...(said ? [] : ['Nothing leads to this flow. Say what a band does, or name a sign.']),
		...unknown('band', [...Object.keys(wish.symptom), ...wish.bands], [...bands, 'all']),
		...unknown('word for what is heard', Object.values(wish.symptom), PATH_OUTCOMES),
		...unknown('sign', wish.signs, Object.keys(SIGNS)),
		...(wish.suspects.length ? [] : ['No suspect is named. Name parts, families or sections.']),
		...unknown('suspect, family or section', wish.suspects, [
			...Object.keys(library.suspects),
			...Object.keys(SECTIONS)
		])
	];
}

/** Suspects by name; of a section, the parts that stand in one place and are not rare. */
function suspectsOf(library: Library, names: readonly string[]): string[] {
	const placed = Object.values(library.plans).flatMap((plan) => placeSuspects(library, undefined, plan));
	const inSection = (section: string) =>
		placed
			.filter(({ id, family }) => id === family)
			.filter((one) => one.section === section && one.suspect.common !== 'rare')
			.map(({ family }) => family);
	return [...new Set(names.flatMap((name) => (library.suspects[name] ? [name] : inSection(name))))];
}

/** The flow as it would be loaded, to see which steps part its suspects. */
export const asLoaded = (
	sketch: Pick<SketchedFlow, 'id' | 'title' | 'about' | 'symptom' | 'signs' | 'bands' | 'suspects'>,
	uses: readonly string[]
): Flow => ({
	...(sketch as unknown as Pick<Flow, 'id' | 'title' | 'about' | 'symptom' | 'signs' | 'bands'>),
	'also-heard': {},
	suspects: Object.fromEntries(sketch.suspects.map(({ key, common }) => [key, common])) as Flow['suspects'],
	opening: [],
	uses: [...uses],
	own: { suspects: {}, steps: {} },
	source: 'common practice'
});

const SURE: readonly string[] = ['always', 'almost always', 'usually'];

/** Whether a step mostly shows something else than a sound set where this suspect is the fault. */
const betrays = (step: Step, suspect: string): boolean =>
	Object.entries(step.expect[suspect] ?? {}).some(
		([outcome, word]) => outcome !== normalOf(step) && SURE.includes(word)
	);

/** For each suspect the quickest step that betrays it, if there is one. */
const directSteps = (library: Library, suspects: readonly string[]): string[] => {
	const steps = Object.entries(library.steps).sort(([, a], [, b]) => a.minutes - b.minutes);
	const found = suspects.flatMap((suspect) => steps.find(([, step]) => betrays(step, suspect))?.[0] ?? []);
	return [...new Set(found)];
};

/**
 * The file of a new flow: what the author said, the shared steps that tell its suspects apart, and a mark at everything
 * that is left to write.
 */
export function skeleton(library: Library, wish: FlowWish): Skeleton {
	const problems = problemsOf(library, wish);
	if (problems.length) return { ok: false, problems };
	const sketch = {
		id: wish.id,
		title: wish.title,
		head: [],
		about: `${TODO} say in two or three sentences what the set does, what that clears, and what is looked at first.`,
		symptom: wish.symptom,
		signs: wish.signs,
		bands: wish.bands,
		suspects: suspectsOf(library, wish.suspects).map((key) => ({
			key,
			common: 'occasional',
			note: `${TODO} of a hundred sets with this complaint, how many have this? Choose the word, then take this note out.`
		}))
	};
	const direct = directSteps(
		library,
		sketch.suspects.map(({ key }) => key)
	);
	const { uses, left } = partingSteps(library, asLoaded(sketch, direct));
	return {
		ok: true,
		text: flowText({ ...sketch, opening: [], uses: uses.map((id) => ({ id })), unparted: left })
	};
}
