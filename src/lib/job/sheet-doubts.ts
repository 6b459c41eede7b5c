import { printQuantity } from '../quantity/index.ts';
import type { Plan } from '../receiver/index.ts';
import { expectedVolts, questionReading, surveyPoints, toHt } from '../receiver/survey.ts';

const plain = (value: number) => printQuantity(value, 'V', { digits: 4 });

/**
 * Volts of a sheet that look like a slip of the pen against what such a set has: a lost decimal, a wrong sign, an electrode above
 * HT. They are asked about and kept as typed.
 *
 * @param volts DC volts by test point, as typed
 */
export function sheetDoubts(plan: Plan, volts: Readonly<Record<string, number>>): string[] {
	const usual = expectedVolts(plan, { volts: {}, parts: {} }, {});
	const line = volts['ht.smoothed'];
	const wanted = usual['ht.smoothed']?.value;
	const ht =
		line !== undefined && wanted !== undefined && !questionReading(line, usual['ht.smoothed'])
			? { point: 'ht.smoothed', value: line, expected: wanted }
			: undefined;
	const highest = Math.max(line ?? -Infinity, volts['ht.reservoir'] ?? -Infinity);
	return surveyPoints(plan).flatMap(({ id, title, electrode = '' }): string[] => {
		const value = volts[id];
		const expected = usual[id] && toHt(plan, id, usual[id], ht);
		if (value === undefined) return [];
		const question = questionReading(value, expected);
		if (question && expected)
			return [
				`${title}: ${plain(value)}, where about ${plain(Math.round(expected.value))} belong. Is it ${plain(question.instead)}?`
			];
		const fed = ['a', 'g2', 'g2g4'].includes(electrode);
		if (fed && Number.isFinite(highest) && value > 1.03 * highest + 2)
			return [`${title}: ${plain(value)} stands above HT, ${plain(highest)}. Compare both with the sheet.`];
		return [];
	});
}
