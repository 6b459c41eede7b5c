import { beforeAll, expect, test } from 'vitest';
import {
	AMPLIFIERS,
	amplifierTrials,
	supplyTrials,
	type Trial,
	valued,
	wellSized
} from '../../stage-check/trial.ts';
import { PATIENCE, type Spice, startSpice } from './engine.ts';

/** Of each stage; `npm run bench` takes 200. */
const FAULTS = 20;
const SEED = 3001;
/** Below what the bench shows, by the scatter of so few. */
const AMONG_FIRST_TWO = 0.75;

let spice: Spice;
beforeAll(async () => void (spice = await startSpice()), PATIENCE);

function printed(stage: string, trials: readonly Trial[]): number {
	const named = trials.filter(({ place }) => place <= 2).length;
	const sized = valued(trials);
	console.log(
		`SPICE plants ${trials.length} faults in ${stage}: ${named} among the first two, size within 20 % in ${sized.filter(wellSized).length} of ${sized.length}`
	);
	return named / trials.length;
}

test.each(AMPLIFIERS)(
	`of ${FAULTS} faults in a simulated stage with another valve law, three in four are among the first two: %s`,
	async (stage) => {
		const trials = await amplifierTrials(spice, stage, SEED, FAULTS);
		expect(printed(stage, trials)).toBeGreaterThanOrEqual(AMONG_FIRST_TWO);
	},
	PATIENCE
);

test(
	`of ${FAULTS} faults in a simulated supply, three in four are among the first two`,
	async () => {
		const trials = await supplyTrials(spice, SEED, FAULTS, false);
		expect(printed('rectifier', trials)).toBeGreaterThanOrEqual(AMONG_FIRST_TWO);
	},
	PATIENCE
);
