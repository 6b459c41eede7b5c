import { describe, expect, test } from 'vitest';
import { keepDraft, keptDraft } from '../../../src/lib/ui/set/set-draft.ts';

/** A store in memory. */
function shelf() {
	const kept = new Map<string, string>();
	const store = {
		getItem: (name: string) => kept.get(name) ?? null,
		setItem: (name: string, text: string) => void kept.set(name, text),
		removeItem: (name: string) => void kept.delete(name)
	};
	return () => store;
}
const refused = () => {
	throw new Error('The browser keeps nothing.');
};

describe('what is typed of a set and not kept', () => {
	test('is there again for its own job only, until it is dropped', () => {
		const own = shelf();
		keepDraft(own, 'one', '{"mains":"220 V"}');
		expect(keptDraft(own, 'one')).toEqual({ mains: '220 V' });
		expect(keptDraft(own, 'two')).toBeUndefined();
		keepDraft(own, 'one', undefined);
		expect(keptDraft(own, 'one')).toBeUndefined();
	});

	test('a spoilt draft and a browser that keeps nothing count as none', () => {
		const own = shelf();
		own().setItem('valvetrail-set-one', '{"mains":');
		expect(keptDraft(own, 'one')).toBeUndefined();
		expect(keptDraft(refused, 'one')).toBeUndefined();
		expect(() => keepDraft(refused, 'one', '{}')).not.toThrow();
	});
});
