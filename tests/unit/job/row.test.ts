import { expect, test } from 'vitest';
import { rowOf } from '../../../src/lib/job/row.ts';
import { Log } from './log.ts';

test('a job is as new as its newest entry, wherever that stands in a log joined from two benches', () => {
	const here = new Log('bench-b');
	here.add('started', {});
	here.add('noted', { text: 'Hums a little.' });
	const [begun, noted] = here.events;
	const elsewhere = { ...noted!, id: 'bench-a.1', bench: 'bench-a', seq: 1, at: '2026-11-20T10:00:00.000Z' };
	expect(rowOf([begun!, elsewhere, noted!]).updated).toBe(elsewhere.at);
});
