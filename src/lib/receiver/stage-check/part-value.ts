import type { PartValue } from './types.ts';

/** Of a part as marked, per cent, where nothing is said. */
const USUAL_TOLERANCE = 10;

/** As marked, in base units. */
export const markedOf = (part: PartValue): number => (typeof part === 'number' ? part : part.value);

/** How far a sound part may lie from its mark, per cent. */
export const toleranceOf = (part: PartValue, usual = USUAL_TOLERANCE): number =>
	(typeof part === 'number' ? undefined : part.tolerance) ?? usual;

/** What the ohmmeter showed, in base units; `undefined` where nobody measured it. */
export const measuredOf = (part: PartValue | undefined): number | undefined =>
	typeof part === 'object' ? part.measured : undefined;

/** Within so many per cent a part holds what was measured. Our own choice: an ohmmeter of 1 to 2 %. */
export const OHMMETER = 2;
