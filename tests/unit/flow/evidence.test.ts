import { describe, expect, test } from 'vitest';
import { suggest } from '../../../src/lib/flow/advice.ts';
import { stepTable, pathRow, stagesTested } from '../../../src/lib/flow/evidence.ts';
import { emptyLibrary, type Library } from '../../../src/lib/flow/library.ts';
import { resolveFlow, type ResolvedFlow } from '../../../src/lib/flow/resolve.ts';
import { Step, Suspect } from '../../../src/lib/flow/schema.ts';
import { PATH_OUTCOMES } from '../../../src/lib/flow/terms.ts';
import { standings, trace, type TraceAnswer } from '../../../src/lib/flow/trace.ts';
import { Plan } from '../../../src/lib/receiver/plan.ts';
import { flowOf } from './small.ts';

const source = 'from memory';
const STAGES = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight'];

const suspect = (at: string, more: object = {}) =>
	Suspect.parse({
		part: `Part of ${at}`,
		failure: 'open',
		kind: 'resistor',
		at,
		common: 'common',
		shows: { none: 'usually' },
		repair: { do: 'Change it.', minutes: 20 },
		proof: 'Measure it.',
		source,
		...more
	});

const inject = (at: string) =>
	Step.parse({
		kind: 'inject',
		band: 'am',
		at: `${at}.grid`,
		title: `Feed a tone to ${at}`,
		text: 'Feed it.',
		why: 'It halves the set.',
		power: 'live',
		minutes: 3,
		source
	});

/** A chain of eight equal stages with a point before each, one part in each; the HT feeds the last four. */
function chain(
	more: { suspects?: Record<string, Suspect>; named?: Record<string, string> } = {}
): ResolvedFlow {
	const plan = Plan.parse({
		id: 'chain',
		title: 'Eight stages',
		about: 'For tests.',
		source,
		traits: {},
		bands: { am: { title: 'AM' }, fm: { title: 'FM' } },
		valves: {},
		stages: Object.fromEntries(STAGES.map((id) => [id, { section: 'audio', title: id }])),
		lines: {
			ht: {
				kind: 'supply',
				section: 'power-supply',
				title: 'HT',
				feeds: ['five', 'six', 'seven', 'eight']
			},
			avc: { kind: 'control', section: 'avc', title: 'AVC', feeds: ['two', 'three'], bands: ['am'] }
		},
		points: Object.fromEntries(STAGES.map((id) => [`${id}.grid`, { title: id, stage: id }])),
		paths: { am: STAGES.flatMap((id) => [`${id}.grid`, id]), fm: STAGES.slice(4) }
	});
	const suspects = { ...Object.fromEntries(STAGES.map((id) => [id, suspect(id)])), ...more.suspects };
	const named = more.named ?? Object.fromEntries(Object.keys(suspects).map((id) => [id, 'common']));
	const steps = Object.fromEntries(STAGES.slice(1).map((id) => [`at-${id}`, inject(id)]));
	const library: Library = { ...emptyLibrary(), suspects, steps, plans: { chain: plan } };
	const flow = flowOf({ symptom: { am: 'none' }, suspects: named, uses: Object.keys(steps) });
	return resolveFlow(library, flow, plan);
}

const SITUATION = { power: 'live' as const, answered: [], skipped: [], unavailable: [] };
const first = (resolved: ResolvedFlow, answers: TraceAnswer[] = []) =>
	suggest(trace(resolved, { answers, mended: [] }), { ...SITUATION, answered: answers })[0]?.id;
const share = (resolved: ResolvedFlow, answers: TraceAnswer[], ids: readonly string[]) =>
	standings(trace(resolved, { answers, mended: [] })).reduce(
		(sum, { id, probability }) => sum + (ids.includes(id) ? probability : 0),
		0
	);

describe('a tone fed into a chain of equal stages', () => {
	const resolved = chain();

	test('the first point asked for is the middle one', () => {
		expect(first(resolved)).toBe('at-five');
	});

	test('a clean tone clears all that follows, and the next point halves the rest', () => {
		const answers = [{ step: 'at-five', outcome: 'good' }];
		expect(share(resolved, answers, STAGES.slice(4))).toBeLessThan(0.1);
		expect(first(resolved, answers)).toBe('at-three');
	});

	test('silence there clears all that goes before', () => {
		const answers = [{ step: 'at-five', outcome: 'none' }];
		expect(share(resolved, answers, STAGES.slice(0, 4))).toBeLessThan(0.1);
		expect(first(resolved, answers)).toBe('at-seven');
	});

	test('it is the likelihood that is halved, not the count of stages', () => {
		const named = { ...Object.fromEntries(STAGES.map((id) => [id, 'rare'])), two: 'very common' };
		// By count the middle is at the fifth stage; the likelihood lies before it.
		expect(['at-two', 'at-three', 'at-four']).toContain(first(chain({ named })));
	});
});

describe('parts that several stages share', () => {
	const ht = suspect('ht', { shows: { none: 'half the time', hum: 'half the time' } });
	const avc = suspect('avc', { shows: { weak: 'usually' } });
	const resolved = chain({ suspects: { ht, avc } });
	const rowOf = (id: string, at: string) => {
		const placed = resolved.suspects.find((one) => one.id === id);
		const step = resolved.steps[at];
		if (!placed || step?.kind !== 'inject') throw new Error(`${id} ${at}`);
		return pathRow(resolved.plan, placed, step.band, stagesTested(resolved.plan, step));
	};
	const chance = (row: readonly number[], outcome: (typeof PATH_OUTCOMES)[number]) =>
		row[PATH_OUTCOMES.indexOf(outcome)] ?? NaN;

	test('the HT line spoils every tone that goes through a stage which it feeds', () => {
		for (const at of ['at-two', 'at-five', 'at-eight'])
			expect(chance(rowOf('ht', at), 'good')).toBeLessThan(0.05);
	});

	test('it shows its own effect there: silence or hum alike, and seldom another', () => {
		const row = rowOf('ht', 'at-eight');
		expect(chance(row, 'hum')).toBeCloseTo(chance(row, 'none'), 12);
		expect(chance(row, 'distorted')).toBeLessThan(0.05);
	});

	test('a tone at the last stage that plays clears the supply, and not the stages before', () => {
		const answers = [{ step: 'at-eight', outcome: 'good' }];
		expect(share(resolved, answers, ['ht'])).toBeLessThan(0.01);
		expect(share(resolved, answers, ['one'])).toBeGreaterThan(0.1);
	});

	test('a control line is beyond a tone fed in after the stages that it controls', () => {
		expect(chance(rowOf('avc', 'at-two'), 'good')).toBeLessThan(0.05);
		expect(chance(rowOf('avc', 'at-four'), 'good')).toBeGreaterThan(0.9);
	});
});

describe('kinds of effect', () => {
	test.each(['none', 'weak', 'distorted', 'hum', 'noise', 'intermittent'] as const)(
		'a part that shows "%s" is raised by that answer above a part that shows another',
		(effect) => {
			const other = effect === 'none' ? 'hum' : 'none';
			const odd = suspect('six', { shows: { [effect]: 'usually' } });
			const resolved = chain({
				suspects: { odd, plain: suspect('six', { shows: { [other]: 'usually' } }) }
			});
			const answers = [{ step: 'at-five', outcome: effect }];
			expect(share(resolved, answers, ['odd'])).toBeGreaterThan(5 * share(resolved, answers, ['plain']));
		}
	);

	test('a contact may leave the tone good, a broken part never does', () => {
		const resolved = chain({ suspects: { contact: suspect('six', { patchy: true }) } });
		const row = (id: string) =>
			stepTable(resolved, resolved.steps['at-five'] ?? inject('five')).table[
				resolved.suspects.findIndex((one) => one.id === id)
			];
		expect(row('contact')?.[0]).toBeGreaterThan(3 * (row('six')?.[0] ?? NaN));
	});
});

describe('steps that share a cause of error', () => {
	const grouped = (group: string | undefined) => {
		const resolved = chain();
		const steps = Object.fromEntries(
			Object.entries(resolved.steps).map(([id, step]) => [id, group ? { ...step, group } : step])
		);
		return { ...resolved, steps };
	};
	const both = [
		{ step: 'at-five', outcome: 'none' },
		{ step: 'at-six', outcome: 'none' }
	];
	const late = STAGES.slice(5);

	test('alone, an answer of a group counts in full', () => {
		const one = both.slice(0, 1);
		expect(share(grouped('tone'), one, late)).toBeCloseTo(share(grouped(undefined), one, late), 12);
	});

	test('a second answer of the group counts half', () => {
		const apart = trace(grouped(undefined), { answers: both, mended: [] });
		const together = trace(grouped('tone'), { answers: both, mended: [] });
		const weight = (of: typeof apart, id: string) =>
			of.answers.reduce((sum, { likelihood }) => sum + Math.log(likelihood[of.ids.indexOf(id)] ?? NaN), 0);
		for (const id of STAGES) expect(weight(together, id)).toBeCloseTo(0.75 * weight(apart, id), 9);
	});

	test('the order of the two is irrelevant', () => {
		const [forth, back] = [both, [...both].reverse()].map(
			(answers) => trace(grouped('tone'), { answers, mended: [] }).now
		);
		forth?.forEach((p, index) => expect(back?.[index]).toBeCloseTo(p, 12));
	});
});
