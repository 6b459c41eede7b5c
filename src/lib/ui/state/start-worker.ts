import address from './advice-worker.ts?worker&url';
import type { Searcher } from './adviser.ts';

/** What browsers that demand trusted addresses ask for; the policy is named in the app's content rules. */
interface TrustedTypes {
	createPolicy(
		name: string,
		rules: { createScriptURL: (url: string) => string }
	): {
		createScriptURL(url: string): string;
	};
}

let trusted: ((url: string) => string) | undefined;

/** The app's own worker and no other. */
function trust(url: string): string {
	const { trustedTypes } = globalThis as { trustedTypes?: TrustedTypes };
	if (!trustedTypes) return url;
	trusted ??= (() => {
		const policy = trustedTypes.createPolicy('app-worker', {
			createScriptURL: (own) => {
				if (own !== address) throw new TypeError('Only the worker of this app may be started.');
				return own;
			}
		});
		return (own: string) => policy.createScriptURL(own);
	})();
	return trusted(url);
}

/** The worker that searches; `undefined` where there is none, as on a server. */
export function startWorker(): Searcher | undefined {
	return typeof Worker === 'undefined' ? undefined : new Worker(trust(address), { type: 'module' });
}
