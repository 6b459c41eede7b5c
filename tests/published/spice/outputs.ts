import { runCalculation } from '../../../src/lib/calculations/index.ts';

/** The outputs of a sum; that it refuses is an error here. */
export function outputsOf(id: string, given: Record<string, unknown>): Record<string, unknown> {
	const answer = runCalculation(id, given);
	if (answer.ok) return answer.outputs;
	throw new Error(`${JSON.stringify(given)}: ${answer.problems.map(({ message }) => message).join(' ')}`);
}
