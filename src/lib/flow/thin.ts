import type { Trace, WeighedAnswer } from './trace.ts';

/** So many answers at least before the list stands on what this set does. Our own choice. */
const FEW = 3;

/** An answer that is trusted less: by a rough way, or given without being sure. */
const isRough = ({ answer, step }: WeighedAnswer): boolean =>
	answer.sure === false || step.ways[answer.way ?? 0]?.trust === 'rough';

/** Why the list stands on little, in a sentence or two; empty where it does not. */
export function thinWords({ answers }: Trace): string {
	const rough = answers.filter(isRough).length;
	if (answers.length < FEW)
		return 'So far the order shows how common each fault is more than what this set does. Answer more steps before you change a part.';
	if (rough * 2 > answers.length)
		return `${rough} of the ${answers.length} answers were given without being sure, or by a rough way. Take one of them again with a better one before you change a part.`;
	return '';
}
