import { describe, expect, test } from 'vitest';
import { draftFlow } from '../../../src/lib/job/draft-flow.ts';
import { replay } from '../../../src/lib/job/replay.ts';
import { takeSnapshot } from '../../../src/lib/job/snapshot.ts';
import { checkFiles } from '../../../src/tools/flow-check.ts';
import { readFlowFiles } from '../../../src/tools/flow-files.ts';
import { shippedLibrary } from '../../library.ts';
import { digest, intake, Log } from './log.ts';

const FLOW = 'distorted-output-valve-hot';
const library = shippedLibrary();

/** A job on a shipped flow in which the grid of the output valve was measured. */
async function job(write: (log: Log) => void) {
	const plan = library.plans['am-fm-shared']!;
	const { hash, library: kept } = await takeSnapshot(library, library.flows[FLOW]!, plan, digest);
	const log = new Log();
	log.add('started', {});
	log.add('intake', intake({ plan: plan.id, symptom: { am: 'distorted', fm: 'distorted' } }));
	log.add('flow-opened', { flow: FLOW, plan: plan.id, hash });
	log.add('power', { to: 'live' });
	log.answer(FLOW, 'glance', 'dark');
	log.answer(FLOW, 'v-og', 'positive', {
		reading: { typed: '12 V', value: 12, unit: 'V', point: 'output.grid', power: 'live' }
	});
	write(log);
	return replay(log.events, { snapshots: { [hash]: kept }, today: library });
}

describe('a draft flow from a finished job', () => {
	test('holds its complaint, its cause, its steps in order, and each reading', async () => {
		const state = await job((log) => log.repair(FLOW, 'cc-leak', 'cured'));
		const made = draftFlow(library, state);
		if (!made.ok) throw new Error(made.hint);
		expect(made.id).toBe('draft-cc-leak');
		expect(made.text).toContain('symptom: { am: distorted, fm: distorted }');
		expect(made.text).toContain('cc-leak: { common: common');
		expect(made.text).toContain('opening: [glance, v-og]');
		expect(made.text).toMatch(/- v-og # .*12.*V/);
		expect(made.text).not.toContain('green dial');
	});

	test('is one that the checker takes, but for what is marked TODO', { timeout: 120_000 }, async () => {
		const state = await job((log) => log.repair(FLOW, 'cc-leak', 'cured'));
		const made = draftFlow(library, state);
		if (!made.ok) throw new Error(made.hint);
		const file = { path: `flows/${made.id}.yaml`, text: made.text };
		const { findings } = checkFiles([...readFlowFiles(process.cwd()), file], [file.path]);
		const errors = findings.filter(({ level }) => level === 'error');
		expect(new Set(errors.map(({ code }) => code))).toEqual(new Set(['todo']));
		expect(errors.every((finding) => finding.file === file.path)).toBe(true);
	});

	test('a job without a cause makes none', async () => {
		const state = await job(() => undefined);
		expect(draftFlow(library, state)).toMatchObject({
			ok: false,
			hint: expect.stringContaining('no cause') as string
		});
	});
});
