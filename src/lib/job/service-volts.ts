import type { EventData, Intake } from './events.ts';

/**
 * The intake with volts that the sheet prints at a test point; `undefined` takes them out again.
 *
 * @param volts DC volts to HT negative
 */
export function withServiceVolts(
	intake: Intake,
	point: string,
	volts: number | undefined
): EventData['intake'] {
	const { service: known = {}, ...rest } = intake;
	const { [point]: _before, ...others } = known;
	const service = volts === undefined ? others : { ...others, [point]: volts };
	return { ...rest, ...(Object.keys(service).length > 0 ? { service } : {}) };
}
