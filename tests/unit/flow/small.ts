import { printFinding } from '../../../src/lib/flow/finding.ts';
import type { Library } from '../../../src/lib/flow/library.ts';
import { Flow } from '../../../src/lib/flow/schema.ts';
import type { Plan } from '../../../src/lib/receiver/index.ts';
import { loadSample } from '../checks/sample.ts';

/** The small sound library of the checks, a fresh copy each time. */
export function sampleLibrary(): Library {
	const result = loadSample();
	if (!result.ok) throw new Error(result.findings.map(printFinding).join('\n\n'));
	return result.library;
}

export function samplePlan(): Plan {
	const plan = sampleLibrary().plans['small-set'];
	if (!plan) throw new Error('The small library has lost its plan.');
	return plan;
}

/** A flow with these keys in place of the least that one can have. */
export const flowOf = (keys: Partial<Record<keyof Flow, unknown>> = {}): Flow =>
	Flow.parse({
		id: 'complaint',
		title: 'A complaint',
		about: 'For a test.',
		symptom: { all: 'distorted' },
		suspects: { 'cc-leak': 'common' },
		uses: ['rock-valves'],
		source: 'common practice',
		...keys
	});
