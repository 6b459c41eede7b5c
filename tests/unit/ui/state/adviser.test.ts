import { describe, expect, test } from 'vitest';
import type { AdviceQuestion } from '../../../../src/lib/flow/advice.ts';
import { lookAhead, lookAheadFully, pack, POWER_SWITCHING } from '../../../../src/lib/suspects/index.ts';
import type { Asked, Found } from '../../../../src/lib/ui/state/advice-worker.ts';
import { Adviser, keepFirst, type Searcher } from '../../../../src/lib/ui/state/adviser.ts';

const check = (id: string, minutes: number, power: 'unplugged' | 'live') => ({
	id,
	minutes,
	power,
	table: pack([
		[0.9, 0.1],
		[0.2, 0.8]
	])
});
const question: AdviceQuestion = {
	standings: [0.5, 0.5],
	repairs: ['capacitor', 'valve'],
	minutes: [20, 20],
	checks: [check('look', 4, 'unplugged'), check('grid-volts', 1, 'live')],
	now: { power: 'live' },
	switching: POWER_SWITCHING,
	bench: 'unplugged'
};
const whole = lookAheadFully(question);

/** A worker that says what it is told to, when it is told to. */
function puppet() {
	const asked: Asked[] = [];
	const worker: Searcher = { postMessage: (one) => asked.push(one), onmessage: null, onerror: null };
	const say = (found: Omit<Found, 'id'>) =>
		worker.onmessage?.(new MessageEvent('message', { data: { id: asked.at(-1)?.id ?? 0, ...found } }));
	return { worker, asked, say };
}

describe('advice beside the page', () => {
	test('a search that is through in time is shown at once and never changes', async () => {
		const { worker, asked, say } = puppet();
		const advised = new Adviser(() => worker, 1000).ask(question);
		expect(asked).toHaveLength(1);
		say({ ranking: whole, done: true });
		expect(await advised).toEqual({ now: whole });
	});

	test('a slow search shows what it has, and keeps the first step when the rest comes', async () => {
		const { worker, say } = puppet();
		const asking = new Adviser(() => worker, 5).ask(question);
		const [bits, one] = [...lookAhead(question)];
		say({ ranking: bits!, done: false });
		const turned = { ...one!, checks: [...one!.checks].reverse() };
		say({ ranking: turned, done: false });
		const advised = await asking;
		expect(advised.now).toEqual(turned);
		say({ ranking: whole, done: true });
		expect((await advised.later)?.checks[0]?.id).toBe(turned.checks[0]?.id);
	});

	test('the same question is answered as before: undo leads back to the step that was shown', async () => {
		const { worker, asked, say } = puppet();
		const adviser = new Adviser(() => worker, 5);
		const asking = adviser.ask(question);
		const turned = { ...whole, checks: [...whole.checks].reverse() };
		say({ ranking: turned, done: false });
		const before = await asking;
		say({ ranking: whole, done: true });
		const after = await adviser.ask(structuredClone(question));
		expect(after.now.checks[0]?.id).toBe(before.now.checks[0]?.id);
		expect((await after.later)?.checks[0]?.id).toBe(before.now.checks[0]?.id);
		await adviser.ask({ ...question, standings: [0.9, 0.1] });
		expect(asked).toHaveLength(2);
	});

	test('a worker that has said nothing yet is not waited for: one step is reckoned here', async () => {
		const { worker } = puppet();
		const { now } = await new Adviser(() => worker, 5).ask(question);
		expect(now.stage).toBe('one step');
	});

	test.each([
		['none', () => undefined],
		[
			'one that may not be started',
			() => {
				throw new Error('refused');
			}
		]
	])('with %s the page works it out and comes to the same', async (_, start) => {
		expect(await new Adviser(start).ask(question)).toEqual({ now: whole });
	});

	test('a worker that breaks down leaves no question open', async () => {
		const { worker } = puppet();
		const adviser = new Adviser(() => worker, 1000);
		const asking = adviser.ask(question);
		worker.onerror?.(new Event('error') as ErrorEvent);
		expect(await asking).toEqual({ now: whole });
		expect(await adviser.ask(question)).toEqual({ now: whole });
	});

	test('only the order behind the first step changes', () => {
		const shown = { ...whole, checks: [...whole.checks].reverse() };
		const kept = keepFirst(shown, whole);
		expect(kept.checks[0]?.id).toBe(shown.checks[0]?.id);
		expect(kept.checks.map(({ id }) => id).sort()).toEqual(whole.checks.map(({ id }) => id).sort());
	});
});
