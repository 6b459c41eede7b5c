import { fromBase64 } from '../../../src/lib/job/base64.ts';
import type { EventData } from '../../../src/lib/job/events.ts';
import { hashOfBytes } from '../../../src/lib/job/hash.ts';
import type { KeptPicture } from '../../../src/lib/job/picture.ts';
import type { Snapshot } from '../../../src/lib/job/snapshot.ts';
import { digest, opened, volts, type Log } from './log.ts';

export const FLOW = 'am-faint';

/** The smallest picture there is, and the name of its bytes. */
export const PICTURE: KeptPicture = await (async () => {
	const bytes = fromBase64('UklGRhoAAABXRUJQVlA4TA0AAAAvAAAAEAcQERGIiP4HAA==')!;
	return { hash: await hashOfBytes(bytes, digest), type: 'image/webp', bytes: bytes.buffer };
})();

export const pictured = (more: Partial<EventData['pictured']> = {}): EventData['pictured'] => ({
	picture: PICTURE.hash,
	of: { kind: 'step', step: 'grid-volts' },
	width: 1,
	height: 1,
	bytes: PICTURE.bytes.byteLength,
	...more
});

/** A job with an event of every kind, as version 1 of the file knew them. */
export function everything(kept: Snapshot): Log {
	const all = opened(kept, {
		mains: 228,
		meter: 1e7,
		service: { 'output.anode': 240 },
		history: ['worked-on', 'recapped'],
		signs: ['valve-glows', 'hum-at-minimum']
	});
	all.add('took', { flow: FLOW, step: 'hear-am' });
	all.add('left', { flow: FLOW });
	const [, answered] = all.answer(FLOW, 'grid-volts', 'positive', {
		way: 0,
		reading: { ...volts(1.2), instrument: 'meter-10M' }
	});
	all.add('resolved', { step: 'grid-volts', keep: answered });
	all.add('took', { flow: FLOW, step: 'anode-volts' });
	all.add('cannot-tell', { flow: FLOW, step: 'anode-volts', reason: 'cannot reach it' });
	all.add('took', { flow: FLOW, step: 'hear-am' });
	all.add('skipped', { flow: FLOW, step: 'hear-am' });
	all.add('took', { flow: FLOW, step: 'grid-lifted' });
	all.add('power', { to: 'unplugged', volts: [1, 0] });
	all.add('prepared', { flow: FLOW });
	all.add('left', { flow: FLOW });
	all.repair(FLOW, 'cc-leak', 'unchanged');
	all.add('calculated', {
		calculation: 'grid-leakage',
		title: 'Leakage',
		step: 'grid-volts',
		verdict: 'leaky',
		given: { V_grid_V: 1.2, rows: [{ R: '470k', on: true }, null] },
		outputs: { I_A: 2.5e-6 },
		sentence: 'It leaks.'
	});
	all.add('part-tested', { part: 'ht-low', result: 'good', found: '250 V' });
	all.add('clock-started', { flow: FLOW, step: 'own-tap' });
	all.add('tallied', { flow: FLOW, step: 'own-tap', provoked: { tap: [1, 0] } });
	all.answer(FLOW, 'own-tap', 'answers', { sure: false, provoked: { tap: [3, 2], flex: [1, 0] } });
	all.undo(all.add('noted', { text: 'Cord frayed', step: 'hear-am', part: 'dial cord' }));
	all.add('cause-sought', { flow: FLOW, part: 'cc-leak', result: 'found', found: 'Grid leak open' });
	all.add('heard', { bands: { am: 'weak', fm: 'good' } });
	all.add('guessed', { flow: FLOW, suspect: 'cc-leak', text: 'it runs hot' });
	all.add('gave-up', { flow: FLOW });
	all.add('went-on', { flow: FLOW });
	all.add('closed', { result: 'not-mended', note: 'waits for a coil' });
	return all;
}
