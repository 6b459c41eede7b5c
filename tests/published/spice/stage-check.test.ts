import { beforeAll, expect, test } from 'vitest';
import { AC_DC_SUPPLIES, SUPPLIES } from '../../stage-check/sets.ts';
import {
	AMPLIFIERS,
	amplifierTrials,
	supplyTrials,
	type Trial,
	type TwoRounds,
	valued,
	wellSized
} from '../../stage-check/trial.ts';
import { PATIENCE, type Spice, startSpice } from './engine.ts';

/** Of each stage; `npm run bench` takes 200. */
const FAULTS = 12;
const SEED = 3001;
/** Below what the bench shows, by the scatter of so few. */
const THREE_IN_FOUR = 0.75;

let spice: Spice;
beforeAll(async () => void (spice = await startSpice()), PATIENCE);

const within = (trials: readonly Trial[]): string =>
	`${valued(trials).filter(wellSized).length} of ${valued(trials).length}`;

function printed(stage: string, rounds: readonly TwoRounds[]): number {
	const [first, second] = [rounds.map((both) => both.first), rounds.map((both) => both.second)];
	const named = first.filter(({ place }) => place <= 2).length;
	console.log(
		`SPICE plants ${first.length} faults in ${stage}: ${named} among the first two, size within 20 % in ${within(first)}; with resistors measured cold and what the check asks for ${within(second)}`
	);
	return named / first.length;
}

/** Of those with a size, once the resistors are measured and the check got what it asked for. */
function sized(rounds: readonly TwoRounds[]): number {
	const trials = valued(rounds.map(({ second }) => second));
	return trials.filter(wellSized).length / trials.length;
}

test.each(AMPLIFIERS)(
	`of ${FAULTS} faults in a simulated stage with another valve law, three in four are among the first two and get their size: %s`,
	async (stage) => {
		const rounds = await amplifierTrials(spice, stage, SEED, FAULTS);
		expect(printed(stage, rounds)).toBeGreaterThanOrEqual(THREE_IN_FOUR);
		expect(sized(rounds)).toBeGreaterThanOrEqual(THREE_IN_FOUR);
	},
	PATIENCE
);

test.each([
	['with two halves', SUPPLIES],
	['for AC and DC mains', AC_DC_SUPPLIES]
])(
	`of ${FAULTS} faults in a simulated supply %s, three in four are among the first two and get their size`,
	async (name, sets) => {
		const rounds = await supplyTrials(spice, sets, SEED, FAULTS, false);
		expect(printed(`a supply ${name}`, rounds)).toBeGreaterThanOrEqual(THREE_IN_FOUR);
		expect(sized(rounds)).toBeGreaterThanOrEqual(THREE_IN_FOUR);
	},
	PATIENCE
);
