import type { Plan } from './plan.ts';
import { readAt, type SurveyRow } from './survey-row.ts';
import { isWrong } from './verdict.ts';

/** Ratios this near to each other are one ratio. Our own choice. */
const TOGETHER = 0.1;
/** Off by more than this is off. Our own choice, half of what a sheet allows. */
const OFF = 0.1;
/** Small volts carry too much error of their own. */
const LEAST_VOLTS = 20;

interface Ratio {
	id: string;
	stage: string;
	ratio: number;
}

const isOff = (ratio: number) => Math.abs(ratio - 1) > OFF;
/** Of four readings one may be off by itself, beside what all have in common. Our own choice. */
const ALONE = 0.25;
const apartFrom = (ratios: readonly Ratio[], about: number) =>
	ratios.filter(({ ratio }) => Math.abs(ratio - about) > TOGETHER * about);
const together = (ratios: readonly Ratio[], about: number) =>
	apartFrom(ratios, about).length <= ALONE * ratios.length;

function ratiosOf(rows: readonly SurveyRow[]): Ratio[] {
	return rows.flatMap(({ point, expected, reading, out, verdict }) =>
		expected &&
		reading !== undefined &&
		!out &&
		verdict !== 'set-aside' &&
		Math.abs(expected.value) >= LEAST_VOLTS
			? [{ id: point.id, stage: point.stage, ratio: reading / expected.value }]
			: []
	);
}

const percent = (ratio: number) => `${Math.round(ratio * 100)} %`;
const wayOff = (ratio: number) => (ratio < 1 ? 'low' : 'high');
function middle(ratios: readonly Ratio[]): number {
	const sorted = ratios.map(({ ratio }) => ratio).sort((a, b) => a - b);
	return sorted[Math.floor(sorted.length / 2)] ?? 1;
}

/** What the smoothing is called on the drawing: "R12", else by its kind. */
export interface LineNames {
	smoothing: string;
}

/** Everything that hangs on HT is off in one ratio: where the step lies between right and wrong says where to look. */
function lineSentence(
	reservoir: Ratio | undefined,
	smoothed: Ratio | undefined,
	beyond: readonly Ratio[],
	{ smoothing }: LineNames
): string | undefined {
	const line = smoothed ?? reservoir;
	const all = [...(reservoir ? [reservoir] : []), ...(smoothed ? [smoothed] : []), ...beyond];
	if (!line || all.length < 2) return undefined;
	const after = [...(smoothed ? [smoothed] : []), ...beyond];
	if (reservoir && !isOff(reservoir.ratio) && after.length >= 2) {
		const ratio = middle(after);
		if (isOff(ratio) && together(after, ratio))
			return ratio < 1
				? `Everything beyond ${smoothing} is low in one ratio, ${percent(ratio)}: look between ${smoothing} and the reservoir, and for what draws too much beyond it.`
				: `Everything beyond ${smoothing} is high in one ratio, ${percent(ratio)}: too little current flows through ${smoothing}, or it is bridged.`;
	}
	const ratio = middle(all);
	if (!isOff(ratio) || !together(all, ratio)) return undefined;
	if (reservoir)
		return ratio < 1
			? `Everything is low in one ratio, ${percent(ratio)}, the reservoir too: look at the rectifier, the reservoir and the mains, and for a load on the whole line.`
			: `Everything is high in one ratio, ${percent(ratio)}, the reservoir too: too little current is drawn, the mains are high, or the rectifier is another one.`;
	return `Everything beyond ${smoothing} is ${wayOff(ratio)} in one ratio, ${percent(ratio)}: measure at the reservoir next. If that is right, look between ${smoothing} and the reservoir.`;
}

function stageSentence(plan: Plan, rows: readonly SurveyRow[]): string | undefined {
	const judged = rows.filter(({ verdict, out }) => (verdict === 'as-expected' || isWrong(verdict)) && !out);
	const wrong = judged.filter(({ verdict }) => isWrong(verdict));
	if (judged.length === 0) return undefined;
	if (wrong.length === 0)
		return judged.length === 1
			? undefined
			: `All ${judged.length} readings are as expected: the supply and these stages stand right for DC.`;
	const stages = [...new Set(wrong.map(({ point }) => point.stage))];
	const titles = stages.map((id) => plan.stages[id]?.title ?? plan.lines[id]?.title ?? id);
	const others = judged.length - wrong.length;
	if (stages.length === 1)
		return others > 0
			? `Only one place differs: ${titles[0]}. The other readings are as expected, so look there.`
			: undefined;
	return `These differ, and not in one ratio: ${titles.join('; ')}. Take each by itself, the one nearest to the supply first.`;
}

/** What all readings say together, in a sentence; nothing while they are too few to say anything. */
export function patternOf(plan: Plan, rows: readonly SurveyRow[], names: LineNames): string | undefined {
	const ratios = ratiosOf(rows);
	const of = (id: string) => ratios.find((one) => one.id === id);
	const beyond = ratios.filter(({ id }) => !id.startsWith('ht.'));
	return lineSentence(of('ht.reservoir'), of('ht.smoothed'), beyond, names) ?? stageSentence(plan, rows);
}

const volts = (value: number) => `${Number(value.toPrecision(3))} V`;

/** So far below zero no anode, screen or cathode stands, meter and hum allowed for. Our own choice. */
const BELOW = -2;

/** Readings that no circuit can give together, each in a sentence with what to look at. */
export function impossibleIn(rows: readonly SurveyRow[]): string[] {
	const [reservoir, smoothed] = [readAt(rows, 'ht.reservoir'), readAt(rows, 'ht.smoothed')];
	const highest = Math.max(reservoir ?? -Infinity, smoothed ?? -Infinity);
	const found: string[] = [];
	if (reservoir !== undefined && smoothed !== undefined && smoothed > reservoir * 1.02 + 1)
		found.push(
			`HT after the smoothing, ${volts(smoothed)}, stands above the reservoir, ${volts(reservoir)}: that cannot be. Were the two points changed over, or did HT move between the readings?`
		);
	for (const { point, reading, out } of rows) {
		if (reading === undefined) continue;
		if (out) {
			if (point.electrode === 'k' && Math.abs(reading) > 0.5)
				found.push(
					`${point.title}: ${volts(reading)} with the valve out. No current can flow through it, so something else feeds the cathode, or the valve was in.`
				);
			continue;
		}
		if (reading < BELOW && ['a', 'g2', 'g2g4', 'k'].includes(point.electrode ?? ''))
			found.push(
				`${point.title}: ${volts(reading)} stands below HT negative, where nothing can bring it. Change the leads over and measure again.`
			);
		const above = Number.isFinite(highest) && reading > highest * 1.03 + 2;
		if (above && (point.electrode === 'g2' || point.electrode === 'g2g4'))
			found.push(
				`${point.title}: ${volts(reading)} stands above HT, ${volts(highest)}. A screen fed from HT cannot: measure both again, on the same pin and range.`
			);
		// The output anode may hang on the reservoir, which was perhaps not read.
		const free = point.id === 'output.anode' && reservoir === undefined && reading < highest * 1.2;
		if (above && point.electrode === 'a' && !free)
			found.push(
				`${point.title}: ${volts(reading)} stands above HT, ${volts(highest)}. Measure both again, on the same range.`
			);
	}
	return found;
}
