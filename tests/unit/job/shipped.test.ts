import { describe, expect, test } from 'vitest';
import { resolveFlow, type ResolvedFlow } from '../../../src/lib/flow/resolve.ts';
import { exportJob } from '../../../src/lib/job/file.ts';
import { readJobFile } from '../../../src/lib/job/read-file.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import { takeSnapshot } from '../../../src/lib/job/snapshot.ts';
import { allShipped, shippedLibrary } from '../../library.ts';
import { digest, intake, Log } from './log.ts';

const inIdOrder = ({ suspects }: ResolvedFlow) => [...suspects].sort((a, b) => (a.id < b.id ? -1 : 1));

describe.each(
	allShipped().map((resolved) => ({ name: `${resolved.flow.id} on ${resolved.plan.id}`, resolved }))
)('a job on $name', ({ resolved }) => {
	const { flow, plan } = resolved;
	const taken = takeSnapshot(shippedLibrary(), flow, plan, digest);

	test('keeps all that the flow resolves to', async () => {
		const { library } = await taken;
		const again = resolveFlow(library, library.flows[flow.id]!, library.plans[plan.id]!);
		expect(inIdOrder(again)).toEqual(inIdOrder(JSON.parse(JSON.stringify(resolved)) as ResolvedFlow));
		expect(again.steps).toEqual(JSON.parse(JSON.stringify(resolved.steps)));
	});

	test('goes through a file and plays without a warning against the library of today', async () => {
		const { hash, library } = await taken;
		const log = new Log();
		log.add('started', {});
		log.add('intake', intake({ plan: plan.id, symptom: {} }));
		log.add('flow-opened', { flow: flow.id, plan: plan.id, hash });
		const result = await readJobFile(
			await exportJob(log.events, { [hash]: library }, '2026-01-01T00:00:00.000Z'),
			digest
		);
		if (!result.ok) throw new Error(`${result.place}: ${result.hint}`);
		const state = replay(result.file.events, { snapshots: result.file.flows, today: shippedLibrary() });
		expect(state.warnings).toEqual([]);
		expect(state.open).toBe(flow.id);
	});
});
