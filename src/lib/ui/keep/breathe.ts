/** The page may be held up for so long at one time, in milliseconds. */
const HELD = 30;

/** Gives the page its turn between two pieces of work, where it has waited long enough for it. */
export function breather(): () => Promise<void> {
	let since = performance.now();
	return async () => {
		if (performance.now() - since < HELD) return;
		await new Promise((wake) => setTimeout(wake));
		since = performance.now();
	};
}
