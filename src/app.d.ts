declare module 'virtual:flows' {
	import type { Token } from 'marked';
	import type { FlowPage, FlowSummary } from '$lib/flow/pages.ts';

	/** The complaint is read at build time, so that the list does without a reader of Markdown. */
	export type ListedFlow = Omit<FlowSummary, 'about'> & { about: Token[] };

	/** Every flow of the library, in the order of their files. */
	export const flows: readonly ListedFlow[];
	/** One flow's page, fetched when asked for; nothing where no flow has that id. */
	export const openFlow: (id: string) => Promise<FlowPage | undefined>;
}

declare module 'virtual:words' {
	import type { Word } from '$lib/flow/schema.ts';

	/** The glossary, in the order of the alphabet. */
	export const words: (Word & { id: string })[];
}

declare module 'virtual:library' {
	import type { Library } from '$lib/flow/library.ts';

	/** The whole library. Large: pages fetch it as `/library.json`. */
	const library: Library;
	export default library;
}
