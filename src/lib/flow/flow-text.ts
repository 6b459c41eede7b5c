import { editorLine } from './editor-line.ts';

/** A flow written out for an author to go on with: YAML with a word on what is left to do. */

export interface SketchedFlow {
	id: string;
	title: string;
	/** Lines above everything else, for whoever edits it. */
	head: readonly string[];
	about: string;
	symptom: Readonly<Record<string, string>>;
	signs: readonly string[];
	bands: readonly string[];
	suspects: readonly { key: string; common: string; note?: string }[];
	opening: readonly string[];
	/** Steps in order, each with what is worth knowing of it. */
	uses: readonly { id: string; remark?: string }[];
	/** Pairs that no shared step parts: each wants a step of its own. */
	unparted: readonly (readonly [string, string])[];
}

/** JSON strings are YAML strings, whatever stands in them. */
const quoted = (text: string): string => JSON.stringify(text);
const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();
const mapping = (entries: readonly (readonly [string, string])[]): string =>
	entries.length ? `{ ${entries.map(([key, value]) => `${key}: ${value}`).join(', ')} }` : '{}';

/** `TODO:` marks what is left to write; the checker finds each of them. */
export const TODO = 'TODO:';

function ownStep([one, other]: readonly [string, string], index: number): string[] {
	const key = /^[a-z0-9-]+(@[a-z0-9-]+)?$/.test(one) ? one : quoted(one);
	return [
		`    part-${index + 1}:`,
		'      kind: observe',
		`      title: ${quoted(`${TODO} what to look at, to tell ${one} from ${other}`)}`,
		`      text: ${quoted(`${TODO} one action a sentence`)}`,
		`      why: ${quoted(`${TODO} what a look here tells`)}`,
		'      power: unplugged',
		'      hands-off: true',
		'      minutes: 2',
		'      outcomes:',
		`        sound: { label: ${quoted(`${TODO} what a sound set shows`)} }`,
		`        other: { label: ${quoted(`${TODO} what ${one} shows`)} }`,
		'      normal: sound',
		'      expect:',
		`        ${key}: { other: usually }`,
		'      source: common practice'
	];
}

/** The text of the file `flows/ID.yaml`. */
export function flowText(flow: SketchedFlow): string {
	const suspects = flow.suspects.map(({ key, common, note }) =>
		note === undefined
			? `  ${key}: ${common}`
			: `  ${key}: { common: ${common}, note: ${quoted(oneLine(note))} }`
	);
	const uses = flow.uses.map(({ id, remark }) => (remark ? `  - ${id} # ${oneLine(remark)}` : `  - ${id}`));
	const own = flow.unparted.flatMap(ownStep);
	const lines = [
		editorLine(`flows/${flow.id}.yaml`) ?? '',
		...flow.head.map((line) => `# ${oneLine(line)}`),
		`id: ${flow.id}`,
		`title: ${quoted(oneLine(flow.title))}`,
		`about: ${quoted(oneLine(flow.about))}`,
		`symptom: ${mapping(Object.entries(flow.symptom))}`,
		...(flow.signs.length ? [`signs: [${flow.signs.join(', ')}]`] : []),
		...(flow.bands.length ? [`bands: [${flow.bands.join(', ')}]`] : []),
		'# How common each is, given this complaint: very common, common, occasional or rare.',
		'suspects:',
		...suspects,
		...(flow.opening.length
			? [
					'# Asked first, in this order; leave it out, and the program chooses.',
					`opening: [${flow.opening.join(', ')}]`
				]
			: []),
		'uses:',
		...uses,
		...(own.length ? ['# No shared step tells these apart.', 'own:', '  steps:', ...own] : []),
		'# A key of flows/shared/sources.yaml, "common practice" or "from memory".',
		'source: common practice'
	];
	return `${lines.join('\n')}\n`;
}
