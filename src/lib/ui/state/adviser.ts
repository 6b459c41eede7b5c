import type { AdviceQuestion } from '$lib/flow/advice.ts';
import { lookAhead, lookAheadFully, type Ranking } from '$lib/suspects/index.ts';
import type { Asked, Found } from './advice-worker.ts';

/** How long a page waits for the whole search before it shows what it knows by then, in milliseconds. Our own choice. */
const PATIENCE = 150;

/** The part of a worker that is used. */
export interface Searcher {
	postMessage(asked: Asked): void;
	onmessage: ((event: MessageEvent<Found>) => void) | null;
	onerror: ((event: ErrorEvent) => void) | null;
}

/** What may be shown now, and what comes later where the search was not through in time. */
export interface Advised {
	now: Ranking;
	/** The whole search, with the first check as shown: what a hand may already reach for does not change. */
	later?: Promise<Ranking>;
}

interface Waiting {
	question: AdviceQuestion;
	latest: Ranking | undefined;
	settle: (ranking: Ranking) => void;
}

/** The first check as it was shown, the others as the whole search has them. */
export function keepFirst(shown: Ranking, whole: Ranking): Ranking {
	const id = shown.checks[0]?.id;
	const first = whole.checks.filter((check) => check.id === id);
	return { ...whole, checks: [...first, ...whole.checks.filter((check) => check.id !== id)] };
}

/** The same standings, the same bench and the same checks are the same question. */
const keyOf = ({ standings, repairs, checks, now }: AdviceQuestion): string =>
	JSON.stringify([standings, repairs, checks.map(({ id, late, minutes }) => [id, late, minutes]), now]);

/** Asks the worker, and does its work itself where the browser refuses one or it fails. */
export class Adviser {
	#worker: Searcher | undefined;
	#asked = 0;
	/** What was shown before: undo leads back to the very same step, however busy the machine was then and is now. */
	readonly #shown = new Map<string, Promise<Advised>>();
	readonly #waiting = new Map<number, Waiting>();

	/** @param start gives the worker; nothing, or an error, where the browser refuses one */
	constructor(
		start: () => Searcher | undefined,
		readonly patience = PATIENCE
	) {
		try {
			this.#worker = start();
		} catch {
			this.#worker = undefined;
		}
		if (!this.#worker) return;
		this.#worker.onmessage = ({ data }) => this.#hear(data);
		this.#worker.onerror = () => this.#fail();
	}

	ask(question: AdviceQuestion): Promise<Advised> {
		const key = keyOf(question);
		const advised = this.#shown.get(key) ?? this.#search(question);
		this.#shown.set(key, advised);
		return advised;
	}

	async #search(question: AdviceQuestion): Promise<Advised> {
		if (!this.#worker) return { now: lookAheadFully(question) };
		const id = ++this.#asked;
		const whole = new Promise<Ranking>((settle) =>
			this.#waiting.set(id, { question, latest: undefined, settle })
		);
		this.#worker.postMessage({ id, question });
		const inTime = await Promise.race([whole, after(this.patience)]);
		if (inTime) return { now: inTime };
		const now = this.#waiting.get(id)?.latest ?? firstReckoned(question);
		return { now, later: whole.then((ranking) => keepFirst(now, ranking)) };
	}

	#hear({ id, ranking, done }: Found): void {
		const waiting = this.#waiting.get(id);
		if (!waiting) return;
		// Bits alone have no minutes to show.
		if (ranking.stage !== 'bits') waiting.latest = ranking;
		if (!done) return;
		this.#waiting.delete(id);
		waiting.settle(ranking);
	}

	/** Everything that was asked of a worker that failed is worked out here. */
	#fail(): void {
		this.#worker = undefined;
		for (const { question, settle } of this.#waiting.values()) settle(lookAheadFully(question));
		this.#waiting.clear();
	}
}

/** One step of look-ahead, which takes a few milliseconds. */
function firstReckoned(question: AdviceQuestion): Ranking {
	const search = lookAhead(question);
	search.next();
	const { value } = search.next();
	return value ?? lookAheadFully(question);
}

const after = (milliseconds: number) =>
	new Promise<undefined>((resolve) => setTimeout(() => resolve(undefined), milliseconds));
