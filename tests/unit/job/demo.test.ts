import { describe, expect, test } from 'vitest';
import { suggest } from '../../../src/lib/flow/advice.ts';
import { standings } from '../../../src/lib/flow/trace.ts';
import { demo } from '../../../src/lib/job/demo.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import { situationIn, traceIn } from '../../../src/lib/job/shared-evidence.ts';
import { takeSnapshot } from '../../../src/lib/job/snapshot.ts';
import { shippedLibrary } from '../../library.ts';
import { digest, Log } from './log.ts';

// The whole library takes seconds to read: once, outside the time of any test.
const library = shippedLibrary();

async function played() {
	const { intake, flow, entries } = demo();
	const { hash, library: kept } = await takeSnapshot(
		library,
		library.flows[flow]!,
		library.plans[intake.plan]!,
		digest
	);
	const log = new Log();
	log.add('started', {});
	log.add('intake', intake);
	log.add('flow-opened', { flow, plan: intake.plan, hash });
	for (const [kind, data] of entries) log.add(kind, data);
	return { flow, state: replay(log.events, { snapshots: { [hash]: kept }, today: library }) };
}

describe('the demo', () => {
	test('is marked as invented wherever its title stands', () => {
		expect(demo().intake.title).toMatch(/^Demo: invented set/);
	});

	test('plays on the shipped library without a warning, every entry in its place', async () => {
		const { state } = await played();
		expect(state.warnings).toEqual([]);
		expect(state.trail.filter(({ refused }) => refused !== undefined)).toEqual([]);
	});

	test('holds answers, readings, a sum and a note', async () => {
		const { state } = await played();
		const kinds = state.trail.map(({ kind }) => kind);
		expect(kinds.filter((kind) => kind === 'answered').length).toBeGreaterThanOrEqual(5);
		expect(state.trail.filter(({ reading, kind }) => reading && kind === 'answered')).toHaveLength(2);
		expect(kinds.filter((kind) => kind === 'calculated')).toHaveLength(1);
		expect(state.notes).toHaveLength(1);
	});

	test('is left with the set switched off, where one step parts the two leading suspects', async () => {
		const { state, flow } = await played();
		const now = traceIn(state, flow)!;
		const [first, second, third] = standings(now);
		expect(state.power.now).toBe('off');
		expect(first!.probability).toBeGreaterThan(0.15);
		expect(second!.probability).toBeGreaterThan(0.15);
		expect(second!.probability).toBeGreaterThan(1.5 * third!.probability);
		const next = suggest(now, situationIn(state, flow)!)[0]!;
		const [one, other] = [now.ids.indexOf(first!.id), now.ids.indexOf(second!.id)];
		const apart = next.posteriors.map((after) => (after[one] ?? 0) / (after[other] ?? 0));
		expect(Math.max(...apart) / Math.min(...apart)).toBeGreaterThan(10);
	});
});
