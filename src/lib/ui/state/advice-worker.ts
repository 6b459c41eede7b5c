import type { AdviceQuestion } from '$lib/flow/advice.ts';
import { lookAhead, type Ranking } from '$lib/suspects/index.ts';

/** The search beside the page, so that no answer waits for it: each stage goes back as it comes. */

export interface Asked {
	id: number;
	question: AdviceQuestion;
}

export interface Found {
	id: number;
	ranking: Ranking;
	/** Whether this is the last stage. */
	done: boolean;
}

/** The few words of a worker's own scope that are used here; the page's types do not hold them. */
const scope = globalThis as unknown as {
	addEventListener(kind: 'message', hear: (event: { data: Asked }) => void): void;
	postMessage(found: Found): void;
};

scope.addEventListener('message', ({ data: { id, question } }) => {
	const search = lookAhead(question);
	let { value: ranking, done } = search.next();
	while (ranking && !done) {
		const next = search.next();
		scope.postMessage({ id, ranking, done: next.done ?? false });
		({ value: ranking, done } = next);
	}
});
