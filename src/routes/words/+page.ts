import type { PageLoad } from './$types';

export const prerender = true;

/** The words come as a chunk of their own: the page is read without the rest of the library. */
export const load: PageLoad = async () => {
	const { words } = await import('virtual:words');
	return { words };
};
