import type { Plan } from '../receiver/index.ts';
import type { KeyPath, SourceDocument } from './document.ts';
import type {
	Caution,
	Flow,
	History,
	PartVerdict,
	Source,
	Step,
	Suspect,
	UsualPart,
	Word
} from './schema.ts';

/** Everything under `flows/`, read and checked: plain data. */
export interface Library {
	suspects: Record<string, Suspect>;
	steps: Record<string, Step>;
	cautions: Record<string, Caution>;
	sources: Record<string, Source>;
	plans: Record<string, Plan>;
	flows: Record<string, Flow>;
	/** Word of a set's past -> what it does to the weights. */
	history: Record<string, History>;
	/** Flow -> how owners tell its complaint. For finding a flow: not kept with a job. */
	sayings?: Record<string, string[]>;
	/** Trade words, British and American. For reading: not kept with a job. */
	glossary?: Record<string, Word>;
	/** Parts that sets usually have, and what becomes of a part by kind and duty. For the parts list: not kept with a job. */
	parts?: Record<string, UsualPart>;
	verdicts?: Record<string, PartVerdict>;
}

/** What a library says of a set's past; jobs from before there was such a table have kept none. */
export const historyOf = (library: Library): Library['history'] =>
	(library as Partial<Pick<Library, 'history'>>).history ?? {};

export type EntityKind = keyof Library;

/** Where an entity was written, so that a check can name file, line and column. */
export class Origins {
	#of = new Map<string, { document: SourceDocument; prefix: KeyPath }>();

	/** @param flowsBeside ids of flows that exist and were not read, as no more than a few were asked for */
	constructor(readonly flowsBeside: readonly string[] = []) {}

	add(kind: EntityKind, id: string, document: SourceDocument, prefix: KeyPath): void {
		this.#of.set(`${kind}/${id}`, { document, prefix });
	}

	fileOf(kind: EntityKind, id: string): string | undefined {
		return this.#of.get(`${kind}/${id}`)?.document.file;
	}

	at(
		kind: EntityKind,
		id: string,
		path: KeyPath = [],
		key = false
	): { file: string; line: number; column: number } {
		const origin = this.#of.get(`${kind}/${id}`);
		if (!origin) return { file: `flows/ (${kind} ${id})`, line: 1, column: 1 };
		return { file: origin.document.file, ...origin.document.locate([...origin.prefix, ...path], key) };
	}
}

export const emptyLibrary = (): Library => ({
	suspects: {},
	steps: {},
	cautions: {},
	sources: {},
	plans: {},
	flows: {},
	history: {}
});
