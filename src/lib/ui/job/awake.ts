/**
 * Keep the screen on while the set is under power. Refused or unknown to the browser, nothing happens: the page
 * works as before. Returns the way to let it sleep again.
 */
export function keepAwake(wanted: boolean): () => void {
	let lock: WakeLockSentinel | undefined;
	let over = !wanted;

	async function ask(): Promise<void> {
		if (over || document.visibilityState !== 'visible') return;
		try {
			lock = await navigator.wakeLock?.request('screen');
			if (over) void lock?.release();
		} catch {
			// A browser may refuse at low battery.
		}
	}

	if (wanted) {
		void ask();
		// The browser lets go of it whenever the page is hidden.
		document.addEventListener('visibilitychange', ask);
	}
	return () => {
		over = true;
		document.removeEventListener('visibilitychange', ask);
		void lock?.release();
	};
}
