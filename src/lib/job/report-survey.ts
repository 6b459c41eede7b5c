import { printQuantity } from '../quantity/index.ts';
import { BASIS_WORDS, expectedAt } from '../flow/reading.ts';
import { TUNED_WORDS } from '../receiver/index.ts';
import type { ReportLine } from './report-lines.ts';
import { allRuns, type JobState } from './state.ts';

/** Valves that differ from the drawing, and the readings of the survey beside what is expected. */
export function surveyLines(state: JobState): ReportLine[] {
	const data = state.described.at(-1)?.data;
	const plan = allRuns(state)[0]?.run.resolved.plan;
	const valves = (data?.valves ?? []).flatMap(({ role, listed, fitted, kept }): ReportLine[] =>
		fitted === undefined || fitted === listed
			? []
			: [
					{
						text: `${role}: ${fitted} is fitted, the drawing lists ${listed}`,
						...(kept === undefined ? { open: true } : { meaning: kept })
					}
				]
	);
	const differs = (data?.differs ?? [])
		.filter(({ what }) => !/^[a-z][a-z0-9-]*: /.test(what))
		.map(({ what, why }): ReportLine => ({
			text: `Differs from the drawing: ${what}`,
			...(why ? { meaning: why } : {})
		}));
	const latest = [...new Map(state.readings.map((one) => [one.point, one])).values()];
	const readings = latest.map(({ point, reading, out, tuned, at, event }): ReportLine => {
		const expected = plan && expectedAt(plan, point, state.service, reading.ht);
		const line = state.trail.find((one) => one.event === event);
		return {
			text: (line?.what ?? point).replace(/^Survey: /, ''),
			at,
			reading: printQuantity(reading.value, reading.unit),
			...(expected && !out
				? {
						expected: `about ${printQuantity(expected.value, 'V', { digits: 3 })}, ${BASIS_WORDS[expected.basis]}`
					}
				: {}),
			...(out
				? { meaning: 'Read with the valve out.' }
				: tuned
					? { meaning: `Read ${TUNED_WORDS[tuned]}.` }
					: {})
		};
	});
	return [...valves, ...differs, ...readings];
}
