/** The page may be held up for so long at one time, in milliseconds. */
const HELD = 30;

/**
 * Gives the page its turn between two pieces of work, where it has waited long enough for it.
 *
 * @returns to be called after each piece, with what is to be shown before the page has its turn
 */
export function breather(): (show?: () => void) => Promise<void> {
	let since = performance.now();
	return async (show) => {
		if (performance.now() - since < HELD) return;
		show?.();
		await new Promise((wake) => setTimeout(wake));
		since = performance.now();
	};
}
