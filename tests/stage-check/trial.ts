import {
	checkStage,
	type PartId,
	type ReadingId,
	type StageFinding,
	type StageQuestion
} from '../../src/lib/receiver/stage-check/index.ts';
import type { Spice } from '../published/spice/engine.ts';
import { Dice } from '../random.ts';
import {
	type Amplifier,
	drawnStage,
	ohmsOf,
	planted,
	possible,
	questionOf,
	readCloser,
	readOnBench,
	type Readings
} from './amplifier-bench.ts';
import { drawnSize, FAULTS, type PlantedFault } from './faults.ts';
import { type AmplifierSet, IF_STAGES, MIXERS, OUTPUTS, type SupplySet, TRIODES } from './sets.ts';
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
	/** The check says that its size does not show. */
	hidden?: true;
	/** The check called the stage sound. */
	calledSound: boolean;
	/** Readings that the check asked for, in a second round. */
	asked: readonly ReadingId[];
	question: StageQuestion;
	size: number | undefined;
}

/** The first round has the readings of a service sheet. In the second the resistors are measured cold, and the check gets what it asks for. */
export interface TwoRounds {
	first: Trial;
	second: Trial;
}

/** The amplifying stages. */
export const AMPLIFIERS = ['triode-audio', 'output-pentode', 'if-pentode', 'triode-heptode'] as const;

/** Trials in which the true fault came first and has a size, and whether that was met. */
export const valued = (trials: readonly Trial[]): Trial[] =>
	trials.filter(({ ratio }) => ratio !== undefined);
/** A size that the check leaves open counts as missed. */
export const wellSized = ({ ratio = NaN, hidden }: Trial): boolean => !hidden && Math.abs(ratio - 1) <= 0.2;

const SETS: Readonly<Record<Amplifier, readonly AmplifierSet[]>> = {
	'triode-audio': TRIODES,
	'output-pentode': OUTPUTS,
	'if-pentode': IF_STAGES,
	'triode-heptode': MIXERS
};

/** The second round has dice of its own, so that it does not change the faults that are drawn. */
const LATER = 500_000;
/** Faults that need two halves. */
const FULL_WAVE_ONLY = ['rectifier-half-dead', 'winding-half-open'];

/** A fault counts where it moves some reading by 5 %, and by what a meter can show. */
const SHIFT = 0.05;
const VISIBLE = 0.05;

export const shifts = (sound: Readings, faulty: Readings): boolean =>
	(Object.keys(sound) as (keyof Readings)[])
		.filter((point) => !NOT_SHEET.includes(point))
		.some((point) => {
			const [before = 0, after = 0] = [sound[point], faulty[point]];
			return Math.abs(after - before) >= Math.max(SHIFT * Math.abs(before), VISIBLE);
		});

/** Not on a service sheet: they do not decide whether a fault counts. */
const NOT_SHEET: readonly ReadingId[] = [
	'ht',
	'before',
	'ripple',
	'smoothing-drop',
	'reservoir-lead',
	'smoothing-lead',
	'direct-current'
];

/** A meter that is up to 2 % wrong throughout, half a per cent from reading to reading, with three digits, the last 10 mV at best. */
function asRead(dice: Dice, scale: number, volts: number): number {
	const read = volts * scale * (1 + dice.between(-0.005, 0.005));
	return Math.round(read * 100) / 100 === 0 ? 0 : Number(Number(read.toPrecision(3)).toFixed(2));
}

/** One meter through all readings of a stage. */
export class Meter {
	readonly #dice: Dice;
	readonly #scale: number;

	constructor(dice: Dice, scale = 1 + dice.between(-0.02, 0.02)) {
		this.#dice = dice;
		this.#scale = scale;
	}

	/** The same meter, its chance errors drawn elsewhere. */
	with(dice: Dice): Meter {
		return new Meter(dice, this.#scale);
	}

	read(readings: Readings): Readings {
		return Object.fromEntries(Object.entries(readings).map(([point, volts]) => [point, this.one(volts)]));
	}

	one(volts: number): number {
		return asRead(this.#dice, this.#scale, volts);
	}

	/** A current from volts across a part that was measured; in A. */
	current(amps: number): number {
		return Number((amps * this.#scale * (1 + this.#dice.between(-0.015, 0.015))).toPrecision(3));
	}

	/** On the ohm ranges: up to 1.5 % off, three digits; an open part shows no end. */
	ohms(ohms: number): number {
		if (ohms > 1e8) return 1e10;
		return Number((ohms * (1 + this.#dice.between(-0.015, 0.015))).toPrecision(3));
	}
}

/** What the bench can answer when the check asks. */
interface Bench {
	reading: (reading: ReadingId) => Promise<number | undefined>;
	ohms: (part: PartId) => number | undefined;
}

/** Questions that a restorer answers before he takes the part out. */
const MOST_ASKED = 4;

/** All parts of the stage that an ohmmeter can measure, measured. */
function measuredCold(question: StageQuestion, ohms: Bench['ohms']): StageQuestion {
	const parts = Object.entries(question.parts ?? {}).map(([id, part]) => {
		const value = typeof part === 'number' ? part : part.value;
		const measured = value > 0 ? ohms(id as PartId) : undefined;
		return [id, measured === undefined ? part : { value, measured }];
	});
	return { ...question, parts: Object.fromEntries(parts) as StageQuestion['parts'] } as StageQuestion;
}

/** What the check made of a question, and what it had asked for before. */
interface Answered {
	question: StageQuestion;
	finding: StageFinding;
	asked: readonly ReadingId[];
}

/** The second round that a restorer would do: resistors cold, then what the check asks for, one after the other. */
async function secondRound(start: StageQuestion, bench: Bench): Promise<Answered> {
	let question = measuredCold(start, bench.ohms);
	const asked: ReadingId[] = [];
	for (;;) {
		const finding = checkStage(question);
		const reading = asked.length < MOST_ASKED ? finding.lookNext?.reading : undefined;
		const value = reading && (await bench.reading(reading));
		if (reading === undefined || value === undefined) return { question, finding, asked };
		asked.push(reading);
		question = { ...question, readings: { ...question.readings, [reading]: value } } as StageQuestion;
	}
}

async function bothRounds(
	question: StageQuestion,
	bench: Bench,
	fault: PlantedFault,
	size: number | undefined
): Promise<TwoRounds> {
	const first = { question, finding: checkStage(question), asked: [] };
	return {
		first: judge(first, fault, size),
		second: judge(await secondRound(question, bench), fault, size)
	};
}

/** Draws faults of a stage until so many have counted, and lets the check explain each. */
export async function amplifierTrials(
	spice: Spice,
	stage: Amplifier,
	seed: number,
	count: number
): Promise<TwoRounds[]> {
	const dice = new Dice(seed);
	const later = new Dice(seed + LATER);
	const trials: TwoRounds[] = [];
	for (let draw = 0; trials.length < count; draw++) {
		if (draw > 20 * count) throw new Error(`too few faults of ${stage} move a reading`);
		const set = dice.one(SETS[stage]);
		const fault = dice.one(FAULTS[stage].filter((one) => possible(set, one)));
		const sound = drawnStage(dice, stage, set);
		const { real, size } = planted(sound, fault, drawnSize(dice, fault));
		const [before, after] = await readOnBench(spice, stage, [sound, real]);
		if (!before || !after || !shifts(before, after)) continue;
		const meter = new Meter(dice);
		const question = questionOf(stage, set, meter.read(after));
		const again = meter.with(later);
		const bench: Bench = {
			reading: async (reading) => {
				const volts = await readCloser(spice, stage, real, reading);
				return volts === undefined ? undefined : again.one(volts);
			},
			ohms: (part) => {
				const ohms = ohmsOf(real, part);
				return ohms === undefined ? undefined : again.ohms(ohms);
			}
		};
		trials.push(await bothRounds(question, bench, fault, size));
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
		verdicts.push(checkStage(questionOf(stage, set, new Meter(dice).read(readings ?? {}))).verdict);
	}
	return verdicts;
}

function judge({ question, finding, asked }: Answered, fault: PlantedFault, size: number | undefined): Trial {
	const { explanations, verdict } = finding;
	const causes = explanations.map((one) => [one, ...one.same]);
	const at = causes.findIndex((list) => list.some((cause) => cause.fault === fault.fault));
	const found = at === 0 ? causes[0]!.find((cause) => cause.fault === fault.fault)?.value : undefined;
	return {
		fault: fault.fault,
		class: fault.class,
		place: at < 0 ? 99 : at + 1,
		...(found !== undefined &&
			size !== undefined && {
				ratio: found.amount / size,
				inRange: found.low <= size && size <= found.high,
				...(found.hidden && { hidden: true as const })
			}),
		calledSound: verdict === 'sound',
		asked,
		question,
		size
	};
}

/** A supply made to fit its sheet, and the volts that its loads are meant for. */
async function fitted(spice: Spice, set: SupplySet) {
	const perveance = await fittedPerveance(spice, set);
	// Volts and loads depend on each other: twice round is near enough.
	let usual = { reservoir: 1.15 * set.windingVolts, smoothed: set.windingVolts };
	for (let round = 0; round < 3; round++) {
		const { reservoir = 0, smoothed = 0 } = await readSupply(spice, nominalSupply(set, perveance, usual));
		usual = { reservoir, smoothed };
	}
	return { set, perveance, usual };
}

async function allFitted(spice: Spice, sets: readonly SupplySet[]) {
	const supplies = [];
	for (const set of sets) supplies.push(await fitted(spice, set));
	return supplies;
}

/** The same for supplies; `withRipple`: the AC volts on the reservoir are read as well. */
export async function supplyTrials(
	spice: Spice,
	sets: readonly SupplySet[],
	seed: number,
	count: number,
	withRipple: boolean
): Promise<TwoRounds[]> {
	const dice = new Dice(seed);
	const later = new Dice(seed + LATER);
	const supplies = await allFitted(spice, sets);
	const trials: TwoRounds[] = [];
	while (trials.length < count) {
		const { set, perveance, usual } = dice.one(supplies);
		const fault = dice.one(
			FAULTS.rectifier.filter((one) => !set.halfWave || !FULL_WAVE_ONLY.includes(one.fault))
		);
		const sound = drawnSupply(dice, set, perveance, usual);
		const { real, size } = plantedSupply(sound, fault, drawnSize(dice, fault));
		const before = await readSupply(spice, sound);
		const after = await readSupply(spice, real);
		if (!shifts(before, after)) continue;
		const meter = new Meter(dice);
		const { 'direct-current': direct = 0, ...volts } = after;
		const question = supplyQuestion(set, meter.read(volts), withRipple);
		const again = meter.with(later);
		const bench: Bench = {
			reading: async (reading) =>
				reading === 'direct-current'
					? again.current(direct)
					: after[reading] === undefined
						? undefined
						: again.one(after[reading]),
			ohms: (part) =>
				part === 'smoothing'
					? again.ohms(real.smoothing)
					: part === 'winding'
						? again.ohms(real.winding)
						: undefined
		};
		trials.push(await bothRounds(question, bench, fault, size));
	}
	return trials;
}

/** Sound supplies. */
export async function soundSupplies(spice: Spice, sets: readonly SupplySet[], seed: number, count: number) {
	const dice = new Dice(seed);
	const supplies = await allFitted(spice, sets);
	const verdicts: string[] = [];
	while (verdicts.length < count) {
		const { set, perveance, usual } = dice.one(supplies);
		const { 'direct-current': _current, ...volts } = await readSupply(
			spice,
			drawnSupply(dice, set, perveance, usual)
		);
		verdicts.push(checkStage(supplyQuestion(set, new Meter(dice).read(volts), false)).verdict);
	}
	return verdicts;
}
