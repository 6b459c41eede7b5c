import advice from './advice-worker.ts?worker&url';
import way from '../flow/way-worker.ts?worker&url';
import type { WayFinder } from '../flow/work-out.ts';
import type { Searcher } from './adviser.ts';
import check from './check-worker.ts?worker&url';
import type { Checker } from './check-files.ts';

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

/** The app's own workers and no other. */
function trust(url: string): string {
	const { trustedTypes } = globalThis as { trustedTypes?: TrustedTypes };
	if (!trustedTypes) return url;
	trusted ??= (() => {
		const policy = trustedTypes.createPolicy('app-worker', {
			createScriptURL: (own) => {
				if (![advice, check, way].includes(own))
					throw new TypeError('Only the workers of this app may be started.');
				return own;
			}
		});
		return (own: string) => policy.createScriptURL(own);
	})();
	return trusted(url);
}

const start = (address: string) => new Worker(trust(address), { type: 'module' });

/** The worker that searches; `undefined` where there is none, as on a server. */
export function startWorker(): Searcher | undefined {
	return typeof Worker === 'undefined' ? undefined : start(advice);
}

/** The worker that reads and checks files from outside. */
export const startChecker = (): Checker => start(check);

/** The worker that follows the advice through a whole flow. */
export const startWayFinder = (): WayFinder => start(way);
