import {
	huffmanCost,
	lookAheadFully,
	outcomeLikelihood,
	pack,
	update,
	type Table
} from '../../src/lib/suspects/index.ts';
import { clinic, CLINIC_FIGURES } from '../published/chest-clinic.ts';
import { leastMinutes, minutesOf } from './exact.ts';
import { engine } from './policy.ts';
import { exponential, scaled, worlds, type Random } from './random.ts';
import { judged, mean, quantile, times, type Row } from './row.ts';
import { smallWorld } from './world.ts';

/** Against figures that are known exactly: published ones, the optimum of small sets, the best code, the best split. */

/** Largest difference between our standings and the published clinic's. */
function inference(): Row {
	const names = ['tub', 'lung', 'bronc', 'either', 'xray'];
	const errors = CLINIC_FIGURES.flatMap(({ evidence, chances }) =>
		names.map((name, place) => Math.abs(clinic.chanceOf(name, evidence) - (chances[place] ?? Number.NaN)))
	);
	const worst = Math.max(...errors);
	return {
		id: 'G1',
		what: 'exact inference: worst error on the chest clinic (all cases: tests/published)',
		figure: worst.toExponential(1),
		interval: `${errors.length} figures of six digits`,
		goal: 'at most 1e-6',
		met: worst <= 1e-6,
		certain: true
	};
}

function closeness(sets: number): Row[] {
	return [1, 3].flatMap((dearer) => {
		const ratios = worlds(sets, 2, (next) => smallWorld(next, dearer)).map(
			(world) => minutesOf(world, engine(3, 0)) / leastMinutes(world)
		);
		const what = `minutes against the exact optimum, ${sets} sets of 8 by 8${dearer > 1 ? ', repairs 3 times dearer' : ''}`;
		const common = { id: 'G2', items: ratios, print: times, certain: true };
		return [
			judged({ ...common, what: `${what}: mean`, figure: mean, goal: { most: 1.01 } }),
			judged({
				...common,
				what: `${what}: 95 % of sets`,
				figure: (list) => quantile(list, 0.95),
				goal: { most: 1.05 }
			})
		];
	});
}

/** Error-free two-way checks, a minute each, until one suspect is left. */
interface Sorting {
	prior: number[];
	tables: Table[];
}

/** Minutes of each repair beside a check of one minute; nothing is mended before the fault is certain. Our own choice. */
const REPAIR = 100;

/** Checks that the engine needs on average. */
function checksOfEngine({ prior, tables }: Sorting): number {
	const checks = tables.map((table, place) => ({
		id: String(place).padStart(3, '0'),
		minutes: 1,
		power: 'bench' as const,
		table: pack(table)
	}));
	const from = (standings: readonly number[]): number => {
		if (Math.max(...standings) > 1 - 1e-9) return 0;
		const [first] = lookAheadFully({
			standings,
			checks,
			repairs: prior.map(String),
			minutes: prior.map(() => REPAIR),
			penalty: 0,
			now: { power: 'bench' },
			switching: { bench: { bench: 0 } },
			bench: 'bench'
		}).checks;
		if (!first) return 0;
		return 1 + after(standings, tables[Number(first.id)] ?? [], from);
	};
	return from(prior);
}

/** The mean over both outcomes of what comes after. */
function after(
	standings: readonly number[],
	table: Table,
	then: (standings: readonly number[]) => number
): number {
	return [0, 1].reduce((sum, outcome) => {
		const { evidence, posterior: left } = update(standings, outcomeLikelihood(table, outcome));
		return evidence > 0 ? sum + evidence * then(left) : sum;
	}, 0);
}

/** Fewest checks on average, over every order; states are the suspects that are left. */
function fewestChecks({ prior, tables }: Sorting): number {
	const known = new Map<string, number>();
	const from = (standings: readonly number[]): number => {
		const key = standings.map((share) => (share > 0 ? '1' : '0')).join('');
		const kept = known.get(key);
		if (kept !== undefined) return kept;
		const splits = tables.filter((table) => {
			const bad = standings.map((share, suspect) => share > 0 && table[suspect]?.[1] === 1);
			return bad.includes(true) && standings.some((share, suspect) => share > 0 && !bad[suspect]);
		});
		const fewest = splits.length ? Math.min(...splits.map((table) => 1 + after(standings, table, from))) : 0;
		known.set(key, fewest);
		return fewest;
	};
	return from(prior);
}

const flags = (bad: readonly boolean[]): Table => bad.map((is) => (is ? [0, 1] : [1, 0]));

const sortingWorld = (next: Random): Sorting => ({
	prior: scaled(Array.from({ length: 10 }, () => exponential(next))),
	tables: [
		// Told apart for certain by the first four; the others are shortcuts.
		...[1, 2, 4, 8].map((bit) => flags(Array.from({ length: 10 }, (_, suspect) => (suspect & bit) > 0))),
		...Array.from({ length: 8 }, () => flags(Array.from({ length: 10 }, () => next() < 0.5)))
	]
});

/** The textbook set of six states and five tests; inputs from memory, its optimum 2.18 worked out by us. */
const TEXTBOOK: Sorting = {
	prior: [0.7, 0.01, 0.02, 0.1, 0.05, 0.12],
	tables: [0, 1, 2, 3, 4].map((test) =>
		flags(['00000', '01001', '00110', '10011', '11000', '11110'].map((row) => row[test] === '1'))
	)
};

function sorting(sets: number): Row[] {
	const all = worlds(sets, 3, sortingWorld);
	const engineNeeds = all.map(checksOfEngine);
	const fewest = all.map(fewestChecks);
	const against = (what: string, bounds: readonly number[]) =>
		judged({
			id: 'G3',
			what: `checks against ${what}, ${sets} sets of 10 by 12, error-free`,
			items: engineNeeds.map((checks, place) => checks / (bounds[place] ?? Number.NaN)),
			figure: mean,
			print: times
		});
	const textbook = checksOfEngine(TEXTBOOK);
	return [
		against(
			'the best code (no order can do better)',
			all.map(({ prior }) => huffmanCost(prior))
		),
		against('the best order', fewest),
		{
			id: 'G3',
			what: 'textbook test sequence: checks (bits alone need 2.86)',
			figure: textbook.toFixed(2),
			interval: '',
			goal: 'at most 2.18',
			met: textbook < 2.18 + 1e-9,
			certain: true
		}
	];
}

/** Fewest probes on average in a chain of stages: the optimal alphabetic tree, by every cut of every piece. */
export function fewestProbes(prior: readonly number[]): number {
	const known = new Map<string, number>();
	const piece = (from: number, to: number): number => {
		if (to - from < 2) return 0;
		const key = `${from} ${to}`;
		const kept = known.get(key);
		if (kept !== undefined) return kept;
		const weight = prior.slice(from, to).reduce((sum, share) => sum + share, 0);
		const cuts = Array.from({ length: to - from - 1 }, (_, cut) => from + 1 + cut);
		const fewest = weight + Math.min(...cuts.map((cut) => piece(from, cut) + piece(cut, to)));
		known.set(key, fewest);
		return fewest;
	};
	return piece(0, prior.length);
}

const STAGES = 12;

const chain = (next: Random): Sorting => ({
	prior: scaled(Array.from({ length: STAGES }, () => exponential(next))),
	tables: Array.from({ length: STAGES - 1 }, (_, border) =>
		flags(Array.from({ length: STAGES }, (_, stage) => stage <= border))
	)
});

function chains(count: number): Row[] {
	const ratios = worlds(count, 6, chain).map((one) => checksOfEngine(one) / fewestProbes(one.prior));
	const common = { id: 'G6', items: ratios, print: times, certain: true };
	const what = `probes along a chain of ${STAGES} against the best tree, ${count} chains`;
	return [
		judged({ ...common, what: `${what}: mean`, figure: mean, goal: { most: 1.02 } }),
		judged({ ...common, what: `${what}: worst`, figure: (list) => Math.max(...list), goal: { most: 1.11 } })
	];
}

export const optimumRows = (short: boolean): Row[] => [
	inference(),
	...closeness(short ? 6 : 50),
	...sorting(short ? 10 : 120),
	...chains(short ? 25 : 500)
];
