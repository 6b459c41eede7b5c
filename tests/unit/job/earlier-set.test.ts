import { expect, test } from 'vitest';
import { earlierSet, takenOver } from '../../../src/lib/job/earlier-set.ts';
import { rowOf } from '../../../src/lib/job/row.ts';
import { JobSearch, noNames } from '../../../src/lib/job/search.ts';
import { emptySetData } from '../../../src/lib/job/set-data.ts';
import { intake, Log } from './log.ts';

/** A job whose set was described twice: an EF86 stands where the drawing lists an EF89. */
function described(): Log {
	const log = new Log();
	log.add('started', {});
	log.add('intake', intake({ service: { 'output.anode': 241 } }));
	const set = { ...emptySetData(), volts: { 'output.grid': 0 } };
	log.add('set-described', { ...set, valves: [{ id: 'output', role: 'Output', listed: 'UL41' }] });
	log.add('set-described', {
		...set,
		valves: [{ id: 'output', role: 'Output', listed: 'EF89', fitted: 'EF86', kept: 'tried' }],
		differs: [{ what: 'extra socket', why: 'a hand' }]
	});
	return log;
}

test('a set like an earlier one has its valves by the drawing and its volts, not what stood in its holders', () => {
	const earlier = earlierSet(described().events)!;
	expect(earlier).toMatchObject({ job: 'job', volts: 2 });
	expect(earlier.data).toEqual({
		...emptySetData(),
		volts: { 'output.grid': 0 },
		valves: [{ id: 'output', role: 'Output', listed: 'EF89' }]
	});
	expect(takenOver(earlier)).toEqual({ service: { 'output.anode': 241 } });
});

test('a job that was never taken in has nothing to hand on', () => {
	const log = new Log();
	log.add('started', {});
	expect(earlierSet(log.events)).toBeUndefined();
});

test('the list finds a job by the valves of its drawing and in its holders, as they were described last', () => {
	const search = new JobSearch([rowOf(described().events)], noNames);
	expect(search.find('ef86 ef89')).toHaveLength(1);
	expect(search.find('ul41')).toHaveLength(0);
});
