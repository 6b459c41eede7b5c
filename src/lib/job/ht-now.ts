import type { HtThen } from '../flow/reading.ts';
import { allRuns, type JobState } from './state.ts';

/** Where HT is read, the better place for what hangs on it first. */
const HT_POINTS = ['ht.smoothed', 'ht.reservoir'];

interface Read extends HtThen {
	order: number;
}

/** HT readings on full mains, in the survey and as answers of steps. */
function htReadings(state: JobState): Read[] {
	const survey = state.readings.flatMap(({ point, reading, out, order }) =>
		HT_POINTS.includes(point) && !out ? [{ point, value: reading.value, order }] : []
	);
	const answered = allRuns(state).flatMap(({ done }) =>
		done.flatMap(({ event, order }) => {
			if (event.kind !== 'answered') return [];
			const { reading } = event.data;
			return reading?.power === 'live' && reading.unit === 'V' && HT_POINTS.includes(reading.point)
				? [{ point: reading.point, value: reading.value, order }]
				: [];
		})
	);
	return [...survey, ...answered];
}

/** The last change of a part: HT read before it says nothing of the set as it is. */
const lastChange = (state: JobState): number =>
	Math.max(
		-1,
		...allRuns(state).flatMap(({ done }) =>
			done.flatMap(({ event, order }) => (event.kind === 'part-changed' ? [order] : []))
		),
		...state.ledger.flatMap(({ state: was, order }) => (was === 'changed' ? [order] : []))
	);

/**
 * HT as it was measured last, for a job whose set is described or surveyed: readings behind it are expected in proportion. A job without
 * such data is judged as ever.
 */
export function htNow(state: JobState): HtThen | undefined {
	if (state.described.length === 0 && state.readings.length === 0) return undefined;
	const since = lastChange(state);
	const fresh = htReadings(state).filter(({ order }) => order > since);
	const latest = HT_POINTS.map((point) => fresh.findLast((read) => read.point === point)).find(
		(read) => read
	);
	return latest && { point: latest.point, value: latest.value };
}
