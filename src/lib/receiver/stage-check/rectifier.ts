import type { Prepared } from './amplifier.ts';
import type { RectifierQuestion } from './types.ts';

export interface Supply {
	winding: number;
}

export function prepareRectifier(_question: RectifierQuestion): Prepared<Supply> {
	throw new Error('to come');
}
