import { LIKELIHOODS } from '../../src/lib/suspects/index.ts';
import { playJob, type Job, type JobRules } from './job.ts';
import { atRandom, byBits, engine, inListedOrder, onlyRepairs, type Policy } from './policy.ts';
import { seeded, worlds } from './random.ts';
import { judged, mean, minutes, percent, ratio, type Row } from './row.ts';
import { believed, inWords, largeWorld, withSlips, type World } from './world.ts';

/** Whole jobs on large synthetic sets: 40 suspects, 60 checks. */

interface Size {
	sets: number;
	jobs: number;
}

/** The same faults and the same chances of answers for every way of deciding. */
const play = (world: World, set: number, jobs: number, policy: Policy, rules?: JobRules): Job[] =>
	Array.from({ length: jobs }, (_, job) => playJob(world, policy, seeded(1e6 + set * 1000 + job), rules));

const playAll = (sets: readonly World[], { jobs }: Size, policy: Policy, rules?: (set: number) => JobRules) =>
	sets.map((world, set) => play(world, set, jobs, policy, rules?.(set)));

const minutesIn = (jobs: readonly Job[]) => mean(jobs.map((job) => job.minutes));

/** Minutes of one way against another, set by set. */
const pairs = (one: readonly Job[][], other: readonly Job[][]) =>
	one.map((jobs, set) => [minutesIn(jobs), minutesIn(other[set] ?? [])] as const);

const plain = (id: string, what: string, played: readonly Job[][]): Row => ({
	...judged({ id, what, items: played.map(minutesIn), figure: mean, print: minutes }),
	interval: `${mean(played.flat().map(({ checks }) => checks)).toFixed(1)} checks, ${mean(
		played.flat().map(({ parts }) => parts)
	).toFixed(2)} parts`
});

function againstOthers(sets: readonly World[], size: Size, ours: readonly Job[][]): Row[] {
	const next = seeded(4);
	const fixed = playAll(sets, size, inListedOrder);
	const saved = judged({
		id: 'G4',
		what: 'minutes saved against the fixed order',
		items: pairs(ours, fixed),
		figure: (list) => 1 - ratio(list),
		print: percent,
		goal: { least: 0.7 }
	});
	return [
		plain('G4', `minutes of a job, ${size.sets} sets of 40 by 60: the engine`, ours),
		plain('', 'one step only', playAll(sets, size, engine(1))),
		plain('', 'two steps only', playAll(sets, size, engine(2))),
		plain('', 'bits per minute, repair at 90 %', playAll(sets, size, byBits(0.9))),
		plain('', 'bits alone, repair at 90 %', playAll(sets, size, byBits(0.9, false))),
		plain('', 'fixed order', fixed),
		plain('', 'random order', playAll(sets, size, atRandom(next))),
		plain('', 'no checks, part after part', playAll(sets, size, onlyRepairs)),
		saved
	];
}

/** Share by which the minutes grow. */
const grown = (id: string, what: string, worse: readonly Job[][], better: readonly Job[][], most: number) =>
	judged({
		id,
		what,
		items: pairs(worse, better),
		figure: (list) => ratio(list) - 1,
		print: percent,
		goal: { most }
	});

const SLIP_ROOM = 0.06;

function wrongNumbers(sets: readonly World[], size: Size, ours: readonly Job[][]): Row[] {
	const noisy = sets.map((world, set) => believed(seeded(7e5 + set), world, 1));
	const words = sets.map((world) => inWords(world, Object.values(LIKELIHOODS)));
	const withNoise = playAll(sets, size, engine(), (set) => ({ belief: noisy[set]! }));
	const withWords = playAll(sets, size, engine(), (set) => ({ belief: words[set]! }));
	return [
		grown('G7', 'more minutes with wrong numbers (sigma 1 on all)', withNoise, ours, 0.2),
		grown('G7', 'more minutes with numbers rounded to the words', withWords, ours, 0.05),
		...calibration(withNoise, 'with wrong numbers', false)
	];
}

function wrongAnswers(sets: readonly World[], size: Size, ours: readonly Job[][]): Row[] {
	const wary = sets.map((world) => withSlips(world, SLIP_ROOM));
	const slipped = playAll(sets, size, engine(), (set) => ({ belief: wary[set]!, slips: 0.05 }));
	return [
		judged({
			id: 'G8',
			what: '5 % of answers wrong: the fault among the first three at the stop',
			items: slipped,
			figure: (list) => mean(list.flat().map((job) => Number(placeOf(job) < 3))),
			print: percent,
			goal: { least: 0.92 }
		}),
		grown('G8', '5 % of answers wrong: more minutes', slipped, ours, 0.25)
	];
}

/** How many suspects stood above the fault when the first part was proposed. */
const placeOf = ({ atStop, fault }: Job) => atStop.filter((share) => share > (atStop[fault] ?? 0)).length;

const BINS = 10;
const LEAST_CASES = 100;

/** Standings at the first proposal against how often they were right. */
function calibration(played: readonly Job[][], what: string, counts: boolean): Row[] {
	const worst = (list: readonly Job[][]) => {
		const bins = Array.from({ length: BINS }, () => ({ cases: 0, said: 0, right: 0 }));
		for (const { atStop, fault } of list.flat())
			atStop.forEach((share, suspect) => {
				const bin = bins[Math.min(BINS - 1, Math.floor(share * BINS))]!;
				bin.cases++;
				bin.said += share;
				bin.right += Number(suspect === fault);
			});
		const full = bins.filter(({ cases }) => cases >= LEAST_CASES);
		return Math.max(...full.map(({ cases, said, right }) => Math.abs(said - right) / cases));
	};
	const brier = ({ atStop, fault }: Job) =>
		atStop.reduce((sum, share, suspect) => sum + (share - Number(suspect === fault)) ** 2, 0);
	const jobs = played.flat();
	const bits = mean(jobs.map(({ atStop, fault }) => -Math.log2(Math.max(1e-9, atStop[fault] ?? 0))));
	const row = judged({
		id: 'G10',
		what: `calibration ${what}: worst bin of ${LEAST_CASES} cases or more`,
		items: played,
		figure: worst,
		print: percent,
		...(counts ? { goal: { most: 0.05 } } : {})
	});
	return [
		{ ...row, interval: `${row.interval}; Brier ${mean(jobs.map(brier)).toFixed(3)}, ${bits.toFixed(2)} bit` }
	];
}

export function jobRows(short: boolean): Row[] {
	const size = short ? { sets: 4, jobs: 5 } : { sets: 40, jobs: 15 };
	const sets = worlds(size.sets, 4, (next) => largeWorld(next));
	const ours = playAll(sets, size, engine());
	return [
		...againstOthers(sets, size, ours),
		...wrongNumbers(sets, size, ours),
		...wrongAnswers(sets, size, ours),
		...calibration(ours, 'with right numbers', !short)
	];
}
