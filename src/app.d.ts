declare module 'virtual:flows' {
	import type { FlowPage, FlowSummary } from '$lib/flow/pages.ts';

	/** Every flow of the library, in the order of their files. */
	export const flows: readonly FlowSummary[];
	/** One flow's page, fetched when asked for; nothing where no flow has that id. */
	export const openFlow: (id: string) => Promise<FlowPage | undefined>;
}
