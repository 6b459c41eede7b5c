import { describe, expect, test } from 'vitest';
import { ancestorsOf, headsOf, inOrder, isOneLine } from '../../../src/lib/job/order.ts';
import { Log } from './log.ts';

/** A beginning, two branches of two events, and a joining one. */
function branched() {
	const [a, b] = [new Log('a'), new Log('b')];
	const start = a.add('started', {});
	a.add('noted', { text: 'a2' }, [start]);
	const left = a.add('noted', { text: 'a3' });
	b.add('noted', { text: 'b1' }, [start]);
	const right = b.add('noted', { text: 'b2' });
	const join = a.add('noted', { text: 'a4' }, [left, right]);
	return { events: [...b.events, ...a.events], join };
}

const ids = (events: { id: string }[]) => events.map(({ id }) => id);

describe('order of a log', () => {
	test('parents come first, and of two that are free the lower id', () => {
		expect(ids(inOrder(branched().events).events)).toEqual(['a.1', 'a.2', 'a.3', 'b.1', 'b.2', 'a.4']);
	});

	test('is the same for every way of handing the events over', () => {
		const { events } = branched();
		for (let turn = 0; turn < events.length; turn++) {
			const turned = [...events.slice(turn), ...events.slice(0, turn)];
			expect(ids(inOrder(turned).events)).toEqual(ids(inOrder(events).events));
		}
	});

	test('the same event twice counts once', () => {
		const { events } = branched();
		expect(inOrder([...events, ...events]).events).toHaveLength(events.length);
	});

	test('a ring of parents loses nothing and is named', () => {
		const log = new Log('a');
		log.add('started', {});
		log.add('noted', { text: 'x' }, ['a.3']);
		log.add('noted', { text: 'y' }, ['a.2']);
		const { events, stray } = inOrder(log.events);
		expect(ids(events)).toEqual(['a.1', 'a.2', 'a.3']);
		expect(ids(stray)).toEqual(['a.2', 'a.3']);
	});

	test('what nothing follows yet are the heads', () => {
		const { events, join } = branched();
		expect(headsOf(events)).toEqual([join]);
		expect(headsOf(events.filter(({ id }) => id !== join))).toEqual(['a.3', 'b.2']);
	});

	test('one bench writes one line; two benches do not', () => {
		const log = new Log();
		log.add('started', {});
		log.add('noted', { text: 'x' });
		expect(isOneLine(log.events)).toBe(true);
		expect(isOneLine(inOrder(branched().events).events)).toBe(false);
	});

	test('a joining event descends from both branches, and these not from each other', () => {
		const ancestors = ancestorsOf(inOrder(branched().events).events);
		expect([...(ancestors.get('a.4') ?? [])].sort()).toEqual(['a.1', 'a.2', 'a.3', 'b.1', 'b.2']);
		expect(ancestors.get('b.2')).toEqual(new Set(['a.1', 'b.1']));
	});
});
