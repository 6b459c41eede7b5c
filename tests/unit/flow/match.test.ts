import { describe, expect, test } from 'vitest';
import { isFit, matchFlows } from '../../../src/lib/flow/match.ts';
import type { PathOutcome } from '../../../src/lib/flow/terms.ts';
import { shippedLibrary } from '../../library.ts';

const library = shippedLibrary();
const match = (planId: string, heard: Record<string, PathOutcome>) => {
	const plan = library.plans[planId];
	if (!plan) throw new Error(`There is no plan "${planId}".`);
	return matchFlows(library, plan, heard);
};

describe('from what each band does to the flow', () => {
	test('AM faint, FM fine', () => {
		const [first] = match('am-fm-shared', { am: 'weak', fm: 'good' });
		expect(first?.flow.id).toBe('weak-on-am-fine-on-fm');
		expect(first && isFit(first)).toBe(true);
	});

	test('distorted on every band', () => {
		const [first] = match('am-fm-shared', { am: 'distorted', fm: 'distorted', gram: 'distorted' });
		expect(first?.flow.id).toBe('distorted-output-valve-hot');
	});

	test('a set without FM is never asked to compare with it', () => {
		expect(match('am-acdc-five', { am: 'weak' }).map(({ flow }) => flow.id)).not.toContain(
			'weak-on-am-fine-on-fm'
		);
	});

	test('a complaint that no flow has is no fit, and the flows can still be chosen', () => {
		const all = match('am-fm-shared', { am: 'hum', fm: 'hum' });
		expect(all.length).toBeGreaterThan(0);
		expect(all.some(isFit)).toBe(false);
	});
});
