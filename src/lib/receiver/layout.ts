import type { Drawing, DrawingOptions } from './drawing/types.ts';
import { layoutTall } from './drawing/tall.ts';
import { layoutWide } from './drawing/wide.ts';
import type { Plan } from './plan.ts';
import { signalOrder } from './drawing/signal-order.ts';

export { TEXT, textWidth, wrapNote } from './drawing/label.ts';
export type {
	Box,
	Drawing,
	DrawingOptions,
	DrawnLine,
	DrawnPoint,
	DrawnStage,
	Shape
} from './drawing/types.ts';

/**
 * A receiver plan as a drawing: a lane for each band, a stage that several bands share once across their lanes, lines
 * below the stages that they feed, test points on the joints. Knows no stage or band by name.
 */
export function layout(plan: Plan, options: DrawingOptions): Drawing {
	const sheet = { plan, order: signalOrder(plan), options };
	return options.shape === 'wide' ? layoutWide(sheet) : layoutTall(sheet);
}
