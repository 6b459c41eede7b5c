import { describe, expect, test } from 'vitest';
import { isFit, matchFlows, signsOf } from '../../../src/lib/flow/match.ts';
import type { PathOutcome, Sign } from '../../../src/lib/flow/terms.ts';
import { shippedLibrary } from '../../library.ts';
import { flowOf, sampleLibrary, samplePlan } from './small.ts';

const library = shippedLibrary();
const match = (planId: string, heard: Record<string, PathOutcome>, signs: Sign[] = []) => {
	const plan = library.plans[planId];
	if (!plan) throw new Error(`There is no plan "${planId}".`);
	return matchFlows(library, plan, heard, signs);
};

describe('from what each band does to the flow', () => {
	test('AM faint, FM fine', () => {
		const [first] = match('am-fm-shared', { am: 'weak', fm: 'good' });
		expect(first?.flow.id).toBe('weak-on-am-fine-on-fm');
		expect(first && isFit(first)).toBe(true);
	});

	test('distorted on every band, and a hot output valve beside it', () => {
		const heard = { am: 'distorted', fm: 'distorted', gram: 'distorted' } as const;
		expect(match('am-fm-shared', heard)[0]?.flow.id).toBe('distorted');
		expect(match('am-fm-shared', heard, ['valve-hot'])[0]?.flow.id).toBe('distorted-output-valve-hot');
	});

	test('a set that cuts out on AM leads to the intermittent fault, whether FM plays or not', () => {
		for (const fm of ['good', 'intermittent'] as const) {
			const [first] = match('am-fm-shared', { am: 'intermittent', fm });
			expect(first?.flow.id, fm).toBe('comes-and-goes');
			expect(first && isFit(first), fm).toBe(true);
		}
	});

	test('a band that plays is no intermittent fault by itself', () => {
		const fitting = match('am-fm-shared', { am: 'good', fm: 'good' }).filter(isFit);
		expect(fitting.map(({ flow }) => flow.id)).toEqual([]);
	});

	test('FM that hisses and FM that is faint are one complaint', () => {
		for (const fm of ['weak', 'noise'] as const) {
			const [first] = match('am-fm-shared', { am: 'good', fm });
			expect(first?.flow.id, fm).toBe('fm-weak-am-fine');
			expect(first && isFit(first), fm).toBe(true);
		}
	});

	test('a set without FM is never asked to compare with it', () => {
		expect(match('am-acdc-five', { am: 'weak' }).map(({ flow }) => flow.id)).not.toContain(
			'weak-on-am-fine-on-fm'
		);
	});

	test('a complaint that no flow has is no fit, and the flows can still be chosen', () => {
		const all = match('am-fm-shared', { am: 'good', fm: 'hum', gram: 'noise' });
		expect(all.length).toBeGreaterThan(0);
		expect(all.some(isFit)).toBe(false);
	});
});

describe('from a sign to the flow', () => {
	const plan = samplePlan();
	const flows = [
		flowOf({ id: 'fuse', symptom: {}, signs: ['fuse-blows'] }),
		flowOf({ id: 'silent', symptom: { all: 'none' } }),
		flowOf({ id: 'dark', symptom: { all: 'none' }, signs: ['dark'] }),
		flowOf({ id: 'wax', symptom: {}, signs: ['part-burnt'], only: { chassis: ['live'] } })
	];
	const small = {
		...sampleLibrary(),
		flows: Object.fromEntries(flows.map((flow) => [flow.id, flow]))
	};
	const order = (heard: Record<string, PathOutcome>, signs: Sign[] = []) =>
		matchFlows(small, plan, heard, signs).map(({ flow }) => flow.id);
	const fitting = (heard: Record<string, PathOutcome>, signs: Sign[] = []) =>
		matchFlows(small, plan, heard, signs).flatMap((one) => (isFit(one) ? one.flow.id : []));

	test('a blown fuse leads to its flow, whether or not the silence is told', () => {
		expect(order({}, ['fuse-blows'])[0]).toBe('fuse');
		expect(order({ am: 'none', fm: 'none' }, ['fuse-blows'])[0]).toBe('fuse');
	});

	test('silent and dark leads to the dark set, silent alone to the one that needs no sign', () => {
		expect(order({ am: 'none' }, ['dark'])[0]).toBe('dark');
		expect(order({ am: 'none' })[0]).toBe('silent');
	});

	test('a flow of a sign alone is no fit until the sign is seen', () => {
		expect(fitting({ am: 'none' })).not.toContain('fuse');
		expect(fitting({}, ['fuse-blows'])).toEqual(['fuse']);
	});

	test('a band that plays speaks against a dead set, whatever was noticed', () => {
		expect(fitting({ am: 'good' }, ['dark'])).not.toContain('dark');
	});

	test('signs are offered that a flow for this set waits for, and no others', () => {
		expect(signsOf(small, plan)).toEqual(['dark', 'fuse-blows']);
	});
});
