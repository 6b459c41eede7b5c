import { printQuantity } from '../../quantity/index.ts';
import type { Judged } from './infer.ts';
import type { StageQuestion } from './types.ts';

/** The grid hangs on an AVC line, whose resting volts nobody knows. */
export const isControlled = ({ stage }: Pick<StageQuestion, 'stage'>): boolean =>
	stage === 'if-pentode' || stage === 'triode-heptode';

const DIGITS = { digits: 1 } as const;

/**
 * What a stage without a visible fault may hide all the same: the grid current, or the leak of its coupling capacitor, that stays
 * within the tolerances of all else. In words that follow "they would not show".
 */
export function unseenIn(question: StageQuestion, judged: readonly Judged<unknown>[]): string | undefined {
	const of = (id: string) => judged.find((one) => one.id === id);
	if (question.stage === 'rectifier')
		return question.readings.ripple === undefined ? 'a reservoir that has dried out in part' : undefined;
	if (isControlled(question)) {
		const most = of('grid-current')?.high;
		return most === undefined ? undefined : `grid current of less than ${printQuantity(most, 'A', DIGITS)}`;
	}
	const least = of('coupling-leak')?.low;
	return least === undefined
		? undefined
		: `a leak of the coupling capacitor of more than ${printQuantity(least, 'ohm', DIGITS)}`;
}
