import {
	lookAheadFully,
	outcomeLikelihood,
	pack,
	posterior,
	POWER_SWITCHING,
	residualRow,
	shouldRepair,
	withoutExplained,
	type Table
} from '../../src/lib/suspects/index.ts';
import type { StepPower } from '../../src/lib/flow/terms.ts';
import { drawn, seeded, worlds, type Random } from './random.ts';
import { judged, mean, ratio, times, type Row } from './row.ts';
import { checkOf, largeWorld, type World } from './world.ts';

/** Sets with two faults at once, traced by the rule of one fault at a time and re-opening after a repair. */

/** Share and minutes of "something not listed". */
const NOT_LISTED = 0.04;
const SEARCH_OUTSIDE = 90;

interface Known {
	answers: { check: number; outcome: number }[];
	/** Parts that were changed. */
	mended: number[];
	power: StepPower;
}

/** A set as the one who traces knows it, "something not listed" included as the last suspect. */
function traced(world: World) {
	const tables = world.checks.map(({ table }): Table => [...table, residualRow(world.prior, table)]);
	const prior = [...world.prior.map((share) => share * (1 - NOT_LISTED)), NOT_LISTED];
	const repairs = [...world.prior.map((_, suspect) => `suspect-${suspect}`), undefined];
	const minutes = [...world.repairs, SEARCH_OUTSIDE];
	const checks = world.checks.map((check, place) => ({ ...checkOf(check), table: pack(tables[place]!) }));
	const likelihood = ({ check, outcome }: Known['answers'][number]) =>
		outcomeLikelihood(tables[check]!, outcome);
	const standings = ({ answers, mended }: Known) =>
		posterior(
			prior.map((share, suspect) => (mended.includes(suspect) ? 0 : share)),
			answers.map(likelihood)
		);
	const ask = (known: Known) => ({
		standings: standings(known),
		repairs,
		minutes,
		checks: checks.filter((_, place) => !known.answers.some(({ check }) => check === place)),
		now: { power: known.power },
		switching: POWER_SWITCHING,
		bench: 'unplugged' as const
	});
	/** The answers that still count when a part proved bad and the set is not cured. */
	const kept = ({ answers }: Known, suspect: number) => {
		const judgedAnswers = answers.map(({ check, outcome }) => ({
			bad: outcome === 1,
			badGiven: tables[check]!.map((row) => row[1] ?? 0)
		}));
		return withoutExplained(judgedAnswers, suspect).kept.map((place) => answers[place]!);
	};
	return { ask, kept, repairs, placeOf: new Map(checks.map(({ id }, place) => [id, place])) };
}

/** Chance of a bad answer with several faults, each showing itself independently of the other. */
const badWith = ({ table }: World['checks'][number], faults: readonly number[]) =>
	1 - faults.reduce((good, fault) => good * (table[fault]?.[0] ?? 1), 1);

/** Minutes until no fault is left. */
function minutesOfJob(world: World, next: Random, count: number): number {
	const { ask, kept, repairs, placeOf } = traced(world);
	let faults = drawnFaults(world, next, count);
	const known: Known = { answers: [], mended: [], power: 'unplugged' };
	let minutes = 0;
	while (faults.length > 0) {
		const question = ask(known);
		const { repairNow, checks } = lookAheadFully(question);
		const [first] = checks;
		const expected = { repairNow, checkFirst: first?.minutesExpected ?? Infinity };
		const stop = shouldRepair({ ...question, checks, expected });
		if (first && !stop.stop) {
			const check = placeOf.get(first.id) ?? -1;
			const { power } = world.checks[check]!;
			minutes += first.minutes;
			known.power = power;
			known.answers.push({ check, outcome: Number(next() < badWith(world.checks[check]!, faults)) });
			continue;
		}
		const named = stop.stop ? repairs.indexOf(stop.repair) : -1;
		const suspect =
			named >= 0 && stop.stop && stop.repair !== undefined ? named : likeliest(question.standings);
		minutes += POWER_SWITCHING[known.power].unplugged + world.repairs[suspect]!;
		known.power = 'unplugged';
		if (faults.includes(suspect)) known.answers = kept(known, suspect);
		known.mended.push(suspect);
		faults = faults.filter((fault) => fault !== suspect);
	}
	return minutes;
}

/** The likeliest that is named: somebody who is told to look outside the list goes on with it all the same. */
const likeliest = (standings: readonly number[]) =>
	standings.slice(0, -1).reduce((best, share, suspect, list) => (share > list[best]! ? suspect : best), 0);

function drawnFaults({ prior }: World, next: Random, count: number): number[] {
	const faults: number[] = [];
	while (faults.length < count) {
		const fault = drawn(
			next,
			prior.map((share, suspect) => (faults.includes(suspect) ? 0 : share))
		);
		faults.push(fault);
	}
	return faults;
}

export function twoFaultRows(short: boolean): Row[] {
	const [sets, jobs] = short ? [3, 3] : [24, 10];
	const of = (world: World, set: number, count: number) =>
		mean(Array.from({ length: jobs }, (_, job) => minutesOfJob(world, seeded(9e6 + set * 100 + job), count)));
	const pairs = worlds(sets, 9, (next) => largeWorld(next, 30, 45)).map(
		(world, set) => [of(world, set, 2), of(world, set, 1)] as const
	);
	return [
		judged({
			id: 'G9',
			what: `two faults: minutes against one fault, ${sets} sets of 30 by 45`,
			items: pairs,
			figure: ratio,
			print: times,
			goal: { most: 2 }
		})
	];
}
