import type { Plan } from '../receiver/index.ts';
import type { KeyPath, SourceDocument } from './document.ts';
import type { Caution, Flow, Source, Step, Suspect } from './schema.ts';

/** Everything under `flows/`, read and checked: plain data. */
export interface Library {
	suspects: Record<string, Suspect>;
	steps: Record<string, Step>;
	cautions: Record<string, Caution>;
	sources: Record<string, Source>;
	plans: Record<string, Plan>;
	flows: Record<string, Flow>;
}

export type EntityKind = keyof Library;

/** Where an entity was written, so that a check can name file, line and column. */
export class Origins {
	#of = new Map<string, { document: SourceDocument; prefix: KeyPath }>();

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
	flows: {}
});
