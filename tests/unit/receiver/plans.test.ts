import { describe, expect, test } from 'vitest';
import { checkPlan, placeOf, stagesOn } from '../../../src/lib/receiver/index.ts';
import { Plan } from '../../../src/lib/receiver/plan.ts';
import { findValve } from '../../../src/lib/valves/index.ts';
import { shippedPlan, shippedPlans } from './plans.ts';

const plans = shippedPlans();

/** Sections in the order in which a signal goes through them; those that a band skips are left out. */
const SIGNAL_ORDER = {
	am: ['outside', 'front-end', 'oscillator', 'mixer', 'if', 'detector', 'audio', 'output', 'loudspeaker'],
	fm: ['outside', 'fm-tuner', 'mixer', 'if', 'fm-detector', 'audio', 'output', 'loudspeaker'],
	gram: ['audio', 'output', 'loudspeaker']
} as const;

const sectionsOn = (plan: Plan, band: string): string[] => {
	const sections = stagesOn(plan, band).map((stage) => placeOf(plan, stage)?.section ?? '');
	return sections.filter((section, i) => section !== sections[i - 1]);
};

describe('the shipped plans', () => {
	test('are the two that the flows are written for', () => {
		expect(plans.map(({ id }) => id)).toEqual(expect.arrayContaining(['am-acdc-five', 'am-fm-shared']));
	});

	test.each(plans)('$id has no problem', (plan) => {
		expect(checkPlan(plan)).toEqual([]);
	});

	test.each(plans.flatMap((plan) => Object.keys(plan.bands).map((band) => ({ id: plan.id, band, plan }))))(
		'$id, $band: aerial before mixer before detector before output before loudspeaker',
		({ plan, band }) => {
			expect(sectionsOn(plan, band)).toEqual(SIGNAL_ORDER[band as keyof typeof SIGNAL_ORDER]);
		}
	);

	test.each(plans)('$id: no path goes through a stage or a point twice', (plan) => {
		for (const [band, path] of Object.entries(plan.paths)) expect(new Set(path).size, band).toBe(path.length);
	});

	test.each(plans)('$id: a point of a path belongs to the stage before it or behind it', (plan) => {
		for (const path of Object.values(plan.paths))
			path.forEach((entry, i) => {
				const stage = plan.points[entry]?.stage;
				// The mixer grid takes the station before the oscillator joins in: there the oscillator stands between.
				if (stage === undefined || entry === 'mixer.grid-signal') return;
				const isStage = (other: string) => !other.includes('.');
				expect([path.slice(0, i).findLast(isStage), path.slice(i + 1).find(isStage)], entry).toContain(stage);
			});
	});

	test.each(plans)(
		'$id: the HT line feeds every stage with a valve, save where a diode alone works',
		(plan) => {
			const ht = plan.lines['ht'];
			const fed = Object.entries(plan.stages).filter(
				([id, { valve, section }]) => valve && section !== 'detector' && id !== 'ht'
			);
			expect(ht?.feeds).toEqual(expect.arrayContaining(fed.map(([id]) => id)));
		}
	);

	test.each(plans)('$id: heaters feed every stage with a valve', (plan) => {
		const withValve = Object.entries(plan.stages).filter(([, { valve }]) => valve);
		expect(plan.lines['heaters']?.feeds).toEqual(expect.arrayContaining(withValve.map(([id]) => id)));
	});

	test.each(plans)('$id: every valve is a type with data, and sits in a stage or line', (plan) => {
		const seated = new Set(
			[...Object.values(plan.stages), ...Object.values(plan.lines)].map(({ valve }) => valve)
		);
		for (const [id, { type }] of Object.entries(plan.valves)) {
			expect(findValve(type).ok, type).toBe(true);
			expect(seated, id).toContain(id);
		}
	});

	test.each(plans)('$id: an electrode is named with the valve that it belongs to', (plan) => {
		for (const [id, { electrode, valve }] of Object.entries(plan.points))
			if (electrode) expect(valve, id).toBeDefined();
	});

	test('no stage and line of a plan share a name', () => {
		for (const { stages, lines } of plans) expect(Object.keys(stages).filter((id) => lines[id])).toEqual([]);
	});
});

describe('a plan that does not hold together', () => {
	const good = shippedPlan('am-acdc-five');
	const stage = (id: string, keys: object): Plan => ({
		...good,
		stages: { ...good.stages, [id]: { ...good.stages[id], ...keys } as never }
	});

	test.each([
		[
			'a stage with a valve that is not there',
			stage('output', { valve: 'outptu' }),
			['stages', 'output', 'valve'],
			'outptu'
		],
		[
			'a stage with a valve called "constructor"',
			stage('output', { valve: 'constructor' }),
			['stages', 'output', 'valve'],
			'constructor'
		],
		[
			'a line with a valve that is not there',
			{ ...good, lines: { ...good.lines, ht: { ...good.lines['ht'], valve: 'diode' } as never } },
			['lines', 'ht', 'valve'],
			'diode'
		],
		[
			'a line that feeds no stage',
			{ ...good, lines: { ...good.lines, avc: { ...good.lines['avc'], feeds: ['mixer', 'rf'] } as never } },
			['lines', 'avc', 'feeds', 1],
			'rf'
		],
		[
			'a line on a band that is not there',
			{ ...good, lines: { ...good.lines, avc: { ...good.lines['avc'], bands: ['am', 'sw'] } as never } },
			['lines', 'avc', 'bands', 1],
			'sw'
		],
		[
			'a point of no stage',
			{ ...good, points: { ...good.points, 'af.grid': { title: 'Audio grid', stage: 'audio' } } },
			['points', 'af.grid', 'stage'],
			'audio'
		],
		[
			'a path through a stage that is not there',
			{ ...good, paths: { am: ['am-wire', 'rf'] } },
			['paths', 'am', 1],
			'stage "rf"'
		],
		[
			'a path through a point that is not there',
			{ ...good, paths: { am: ['am-wire', 'rf.grid'] } },
			['paths', 'am', 1],
			'point "rf.grid"'
		],
		['a path for no band', { ...good, paths: { ...good.paths, sw: ['am-wire'] } }, ['paths', 'sw'], '"sw"'],
		[
			'a band without a path',
			{ ...good, bands: { ...good.bands, sw: { title: 'SW' } } },
			['bands', 'sw'],
			'"sw"'
		]
	] as [string, Plan, (string | number)[], string][])('%s', (_, plan, path, said) => {
		const problems = checkPlan(plan);
		expect(problems.map((problem) => problem.path)).toEqual([path]);
		expect(problems[0]?.message).toContain(said);
		expect(problems[0]?.remedy).toMatch(/^(Known here: |Add its stages )/);
	});

	test('a name is in small letters, a test point has one dot', () => {
		expect(Plan.safeParse({ ...good, id: 'Five Valves' }).success).toBe(false);
		expect(Plan.safeParse({ ...good, points: { output: { title: 'Grid', stage: 'output' } } }).success).toBe(
			false
		);
		expect(
			Plan.safeParse({ ...good, points: { 'output.grid.pin': { title: 'Grid', stage: 'output' } } }).success
		).toBe(false);
		expect(Plan.safeParse({ ...good, traits: { chassis: 'floating' } }).success).toBe(false);
		expect(Plan.safeParse(good).success).toBe(true);
	});
});
