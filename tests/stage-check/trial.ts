import { checkStage, type StageQuestion } from '../../src/lib/receiver/stage-check/index.ts';
import type { Spice } from '../published/spice/engine.ts';
import { Dice } from '../random.ts';
import {
	type Amplifier,
	drawnStage,
	planted,
	possible,
	questionOf,
	readOnBench,
	type Readings
} from './amplifier-bench.ts';
import { drawnSize, FAULTS, type PlantedFault } from './faults.ts';
import { type AmplifierSet, IF_STAGES, MIXERS, OUTPUTS, SUPPLIES, type SupplySet, TRIODES } from './sets.ts';
import {
	drawnSupply,
	fittedPerveance,
	nominalSupply,
	plantedSupply,
	readSupply,
	supplyQuestion
} from './supply-bench.ts';

/** One planted fault and what the check made of it. */
export interface Trial {
	fault: string;
	class: string;
	/** Place among the explanations, from 1; 99 where it is not among them. */
	place: number;
	/** Size that was found over the true one, where it came first and has a size. */
	ratio?: number;
	/** The true size lies in the range that the check gives. */
	inRange?: boolean;
	/** The check called the stage sound. */
	calledSound: boolean;
	question: StageQuestion;
	size: number | undefined;
}

/** The amplifying stages. */
export const AMPLIFIERS = ['triode-audio', 'output-pentode', 'if-pentode', 'triode-heptode'] as const;

/** Trials in which the true fault came first and has a size, and whether that was met. */
export const valued = (trials: readonly Trial[]): Trial[] =>
	trials.filter(({ ratio }) => ratio !== undefined);
export const wellSized = ({ ratio = NaN }: Trial): boolean => Math.abs(ratio - 1) <= 0.2;

const SETS: Readonly<Record<Amplifier, readonly AmplifierSet[]>> = {
	'triode-audio': TRIODES,
	'output-pentode': OUTPUTS,
	'if-pentode': IF_STAGES,
	'triode-heptode': MIXERS
};

/** A fault counts where it moves some reading by 5 %, and by what a meter can show. */
const SHIFT = 0.05;
const VISIBLE = 0.05;

export const shifts = (sound: Readings, faulty: Readings): boolean =>
	(Object.keys(sound) as (keyof Readings)[])
		.filter((point) => point !== 'ht' && point !== 'before' && point !== 'ripple')
		.some((point) => {
			const [before = 0, after = 0] = [sound[point], faulty[point]];
			return Math.abs(after - before) >= Math.max(SHIFT * Math.abs(before), VISIBLE);
		});

/** A meter that is up to 2 % wrong throughout, half a per cent from reading to reading, with three digits, the last 10 mV at best. */
function asRead(dice: Dice, scale: number, volts: number): number {
	const read = volts * scale * (1 + dice.between(-0.005, 0.005));
	return Math.round(read * 100) / 100 === 0 ? 0 : Number(Number(read.toPrecision(3)).toFixed(2));
}

export function readAll(dice: Dice, readings: Readings): Readings {
	const scale = 1 + dice.between(-0.02, 0.02);
	return Object.fromEntries(
		Object.entries(readings).map(([point, volts]) => [point, asRead(dice, scale, volts)])
	);
}

/** Draws faults of a stage until so many have counted, and lets the check explain each. */
export async function amplifierTrials(
	spice: Spice,
	stage: Amplifier,
	seed: number,
	count: number
): Promise<Trial[]> {
	const dice = new Dice(seed);
	const trials: Trial[] = [];
	for (let draw = 0; trials.length < count; draw++) {
		if (draw > 20 * count) throw new Error(`too few faults of ${stage} move a reading`);
		const set = dice.one(SETS[stage]);
		const fault = dice.one(FAULTS[stage].filter((one) => possible(set, one)));
		const sound = drawnStage(dice, stage, set);
		const { real, size } = planted(sound, fault, drawnSize(dice, fault));
		const [before, after] = await readOnBench(spice, stage, [sound, real]);
		if (!before || !after || !shifts(before, after)) continue;
		trials.push(judge(questionOf(stage, set, readAll(dice, after)), fault, size));
	}
	return trials;
}

/** Sound stages, for how often the check cries wolf. */
export async function soundTrials(spice: Spice, stage: Amplifier, seed: number, count: number) {
	const dice = new Dice(seed);
	const verdicts: string[] = [];
	while (verdicts.length < count) {
		const set = dice.one(SETS[stage]);
		const [readings] = await readOnBench(spice, stage, [drawnStage(dice, stage, set)]);
		verdicts.push(checkStage(questionOf(stage, set, readAll(dice, readings ?? {}))).verdict);
	}
	return verdicts;
}

export function judge(question: StageQuestion, fault: PlantedFault, size: number | undefined): Trial {
	const { explanations, verdict } = checkStage(question);
	const causes = explanations.map((one) => [one, ...one.same]);
	const at = causes.findIndex((list) => list.some((cause) => cause.fault === fault.fault));
	const found = at === 0 ? causes[0]!.find((cause) => cause.fault === fault.fault)?.value : undefined;
	return {
		fault: fault.fault,
		class: fault.class,
		place: at < 0 ? 99 : at + 1,
		...(found !== undefined &&
			size !== undefined && { ratio: found.amount / size, inRange: found.low <= size && size <= found.high }),
		calledSound: verdict === 'sound',
		question,
		size
	};
}

/** A supply made to fit its sheet, and the volts that its loads are meant for. */
async function fitted(spice: Spice, set: SupplySet) {
	const perveance = await fittedPerveance(spice, set.type);
	// Volts and loads depend on each other: twice round is near enough.
	let usual = { reservoir: 1.15 * set.windingVolts, smoothed: set.windingVolts };
	for (let round = 0; round < 3; round++) {
		const { reservoir = 0, smoothed = 0 } = await readSupply(spice, nominalSupply(set, perveance, usual));
		usual = { reservoir, smoothed };
	}
	return { set, perveance, usual };
}

/** The same for supplies; `withRipple`: the AC volts on the reservoir are read as well. */
export async function supplyTrials(
	spice: Spice,
	seed: number,
	count: number,
	withRipple: boolean
): Promise<Trial[]> {
	const dice = new Dice(seed);
	const supplies = [];
	for (const set of SUPPLIES) supplies.push(await fitted(spice, set));
	const trials: Trial[] = [];
	while (trials.length < count) {
		const { set, perveance, usual } = dice.one(supplies);
		const fault = dice.one(FAULTS.rectifier);
		const sound = drawnSupply(dice, set, perveance, usual);
		const { real, size } = plantedSupply(sound, fault, drawnSize(dice, fault));
		const before = await readSupply(spice, sound);
		const after = await readSupply(spice, real);
		if (!shifts(before, after)) continue;
		trials.push(judge(supplyQuestion(set, readAll(dice, after), withRipple), fault, size));
	}
	return trials;
}
