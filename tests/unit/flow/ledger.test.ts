import { describe, expect, test } from 'vitest';
import { ledgerRow, type LedgerEntry } from '../../../src/lib/flow/ledger.ts';
import { standings, trace, type Evidence } from '../../../src/lib/flow/trace.ts';
import { shipped } from '../../library.ts';

const hot = shipped('distorted-output-valve-hot', 'am-fm-shared');
const traceWith = (ledger: LedgerEntry[], more: Partial<Evidence> = {}) =>
	trace(hot, { answers: [], mended: [], ledger, ...more });
const share = (of: ReturnType<typeof trace>, id: string) =>
	standings(of).find((one) => one.id === id)?.probability ?? NaN;
const start = traceWith([]);

describe('a part tested on the way', () => {
	test('good: it is nearly cleared, the others keep their ratios', () => {
		const after = traceWith([{ suspect: 'cc-leak', state: 'good' }]);
		expect(share(after, 'cc-leak')).toBeLessThan(0.02);
		const ratio = (of: typeof start) => share(of, 'ov-gas') / share(of, 'rk-low');
		expect(ratio(after)).toBeCloseTo(ratio(start), 9);
	});

	test('bad: it is nearly certain, though the flow calls it occasional', () => {
		expect(share(traceWith([{ suspect: 'rk-low', state: 'bad' }]), 'rk-low')).toBeGreaterThan(0.95);
	});

	test('bad, with readings that spoke against it: the test says more', () => {
		const answers = [{ step: 'v-og', outcome: 'zero' }];
		expect(share(traceWith([{ suspect: 'cc-leak', state: 'bad' }], { answers }), 'cc-leak')).toBeGreaterThan(
			0.9
		);
	});

	test('two bad parts share the blame as they stood to each other', () => {
		const after = traceWith([
			{ suspect: 'cc-leak', state: 'bad' },
			{ suspect: 'rk-low', state: 'bad' }
		]);
		expect(share(after, 'cc-leak') + share(after, 'rk-low')).toBeGreaterThan(0.99);
		expect(share(after, 'cc-leak') / share(after, 'rk-low')).toBeCloseTo(
			share(start, 'cc-leak') / share(start, 'rk-low'),
			9
		);
	});

	test('the order of tests and answers is irrelevant', () => {
		const entries: LedgerEntry[] = [
			{ suspect: 'cc-leak', state: 'good' },
			{ suspect: 'ov-gas', state: 'changed' }
		];
		const [forth, back] = [traceWith(entries), traceWith([...entries].reverse())];
		forth.now.forEach((p, index) => expect(back.now[index]).toBeCloseTo(p, 12));
	});

	test('a part that this flow does not know moves nothing', () => {
		expect(ledgerRow(hot, { suspect: 'no-such-part', state: 'bad' })).toBeUndefined();
		expect(traceWith([{ suspect: 'no-such-part', state: 'bad' }]).now).toEqual(start.now);
	});
});

describe('a part changed on the way', () => {
	const after = traceWith([{ suspect: 'ov-gas', state: 'changed' }]);

	test('every fault that the same change mends is nearly cleared', () => {
		for (const id of ['ov-gas', 'ov-weak', 'ov-short'])
			expect(share(after, id) / share(start, id)).toBeLessThan(0.05);
	});

	test('a slip in the work on its stage rises, elsewhere it does not', () => {
		expect(share(after, 'last-work@output') / share(start, 'last-work@output')).toBeGreaterThan(2);
		expect(share(after, 'last-work@af') / share(start, 'last-work@af')).toBeLessThan(2);
	});
});
