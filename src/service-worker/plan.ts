/** What the service worker keeps and answers; apart from it so that it can be tested without a browser. */

/** The worker that advises is small, and needed at every answer. */
const isLarge = (path: string) => path.includes('/workers/') && !path.includes('/workers/advice-');

/** Large lazy files stay out of the first visit: storing them at once has failed in the browser. */
export const precached = (paths: readonly string[]): string[] => paths.filter((path) => !isLarge(path));

/** Whether a request is answered from the store: reading, from this app, and nothing that was left out. */
export function isOurs(
	{ method, url }: { method: string; url: string },
	origin: string,
	base: string
): boolean {
	const { origin: from, pathname } = new URL(url);
	return method === 'GET' && from === origin && pathname.startsWith(`${base}/`) && !isLarge(pathname);
}
