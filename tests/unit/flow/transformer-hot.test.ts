import { expect, test } from 'vitest';
import { normalOf } from '../../../src/lib/flow/evidence.ts';
import { trace } from '../../../src/lib/flow/trace.ts';
import { shipped } from '../../library.ts';

const hot = shipped('transformer-hot', 'am-transformer');

/** What comes before it in any case: sound, as far as it shows. */
const before = ['settings', 'r-ht', 'cap-leak-coupling'].map((step) => ({
	step,
	outcome: normalOf(hot.steps[step]!)
}));
const dims = { step: 'lamp-rectifier-out', outcome: 'dims' };
/** Shares of the suspects after the hand was on the iron. */
const felt = (outcome: string) => {
	const { now } = trace(hot, {
		answers: [...before, dims, { step: 'tx-touch', outcome }],
		mended: []
	});
	return hot.suspects.map(({ id }, place) => ({ id, share: now[place] ?? NaN }));
};
const first = (outcome: string) => felt(outcome).toSorted((a, b) => b.share - a.share)[0]?.id;
const shareOf = (outcome: string, suspect: string) => felt(outcome).find(({ id }) => id === suspect)?.share;

test('the hand on the iron waits half an hour, with the rectifier out', () => {
	expect(hot.steps['tx-touch']).toMatchObject({
		after: 30,
		needs: expect.arrayContaining(['lamp-rectifier-out']) as string[]
	});
});

test('iron that stays cool without HT speaks for a load, iron too hot to touch for a winding', () => {
	expect(['lt-short', 'tx-short']).toContain(first('too-hot'));
	expect(['ov-gas', 'rk-low', 'ck-short']).toContain(first('warm'));
	expect(shareOf('too-hot', 'tx-short')).toBeGreaterThan(5 * (shareOf('warm', 'tx-short') ?? NaN));
});

test('in doubt, the mains against the tap comes before a winding', () => {
	expect(first('hot')).toBe('tap-wrong');
});
