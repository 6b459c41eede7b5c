import { describe, expect, test } from 'vitest';
import { repairAdvice, suggest, suspectsOfRepair } from '../../../src/lib/flow/advice.ts';
import { entryLikelihood, stepTable } from '../../../src/lib/flow/evidence.ts';
import { learnt, nameOf, reasonsFor } from '../../../src/lib/flow/explain.ts';
import { whySuggested } from '../../../src/lib/flow/why.ts';
import { expectedAt, judgeReading } from '../../../src/lib/flow/reading.ts';
import { resolveFlow, type ResolvedFlow } from '../../../src/lib/flow/resolve.ts';
import type { Step } from '../../../src/lib/flow/schema.ts';
import {
	cleared,
	NOT_LISTED,
	sectionStandings,
	standings,
	trace,
	type TraceAnswer
} from '../../../src/lib/flow/trace.ts';
import { parseWhen } from '../../../src/lib/flow/when.ts';
import { LIKELIHOODS } from '../../../src/lib/suspects/index.ts';
import { allShipped, shipped, shippedLibrary } from '../../library.ts';
import { flowOf, sampleLibrary, samplePlan } from './small.ts';

const weakAm = shipped('weak-on-am-fine-on-fm', 'am-fm-shared');
const hot = shipped('distorted-output-valve-hot', 'am-fm-shared');
const evidence = (answers: TraceAnswer[] = []) => ({ answers, mended: [] });
const share = (t: ReturnType<typeof trace>, id: string) =>
	standings(t).find((s) => s.id === id)?.probability ?? NaN;

/** The edges between the bands of a measuring step, in base units. */
function edgesOf(resolved: ResolvedFlow, step: Extract<Step, { kind: 'measure' }>): number[] {
	const expected = expectedAt(resolved.plan, step.at);
	const edges = Object.values(step.outcomes).flatMap(({ when }) => {
		const parsed = when === undefined ? undefined : parseWhen(when);
		if (!parsed?.ok || (parsed.band.relative && !expected)) return [];
		const scale = parsed.band.relative ? (expected?.value ?? 0) : 1;
		return [parsed.band.from * scale, parsed.band.to * scale].filter(Number.isFinite);
	});
	return [...new Set(edges)];
}

describe('FM plays, AM faint', () => {
	const start = trace(weakAm, evidence());

	test('everything that both bands share is cleared by the complaint itself', () => {
		const { sections, places } = cleared(start);
		expect(sections).toEqual(
			expect.arrayContaining(['audio', 'output', 'loudspeaker', 'power-supply', 'heaters'])
		);
		for (const section of ['front-end', 'oscillator', 'switching']) expect(sections).not.toContain(section);
		expect(places.map(({ id }) => id)).not.toContain('if-can-1-am');
	});

	test('one sentence says so', () => {
		expect(learnt(undefined, start)).toMatch(
			/^AM is faint, FM plays well\. Cleared: .*audio, output, loudspeaker/
		);
	});

	test('with cans of their own for AM, the AM cans stay suspect', () => {
		const library = shippedLibrary();
		const plan = structuredClone(weakAm.plan);
		plan.traits['if-cans'] = 'separate';
		for (const can of ['if-can-1', 'if-can-2']) {
			const windings = plan.stages[`${can}-am`];
			if (!windings) throw new Error('The plan has changed.');
			windings.parts.push('mica-base', 'screening');
			delete plan.stages[can];
		}
		for (const path of Object.values(plan.paths))
			path.splice(0, path.length, ...path.filter((entry) => !/^if-can-[12]$/.test(entry)));
		const separate = trace(resolveFlow(library, weakAm.flow, plan), evidence());
		const places = cleared(separate).places.map(({ id }) => id);
		expect(places).not.toContain('if-can-1-am');
		expect(share(separate, 'ift-smd@if-can-1-am')).toBeGreaterThan(0.002);
		// A screen of the can that FM goes through as well is all but cleared by it; that of an AM can is not.
		expect(share(separate, 'shield@if-can-1-am')).toBeGreaterThan(3 * share(start, 'shield@if-can-1'));
		expect(cleared(separate).sections).not.toContain('if');
	});

	test('a complaint without a band that plays clears nobody', () => {
		const distorted = trace(hot, evidence());
		expect(cleared(distorted)).toEqual({ sections: [], places: [] });
		expect(learnt(undefined, distorted)).toBe('AM is distorted, FM is distorted, Gram input is distorted.');
	});

	test('without an answer nobody is called likely', () => {
		expect(standings(start)[0]?.probability).toBeLessThan(0.6);
	});
});

describe.each(
	allShipped().map((resolved) => ({ name: `${resolved.flow.id} on ${resolved.plan.id}`, resolved }))
)('$name', ({ resolved }) => {
	test('standings sum to one and hold "something not listed"', () => {
		const all = standings(trace(resolved, evidence()));
		expect(all.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 12);
		expect(all.some(({ id }) => id === NOT_LISTED)).toBe(true);
	});

	test('every row of every step is a distribution off 0 and 1', () => {
		for (const step of Object.values(resolved.steps))
			for (const row of stepTable(resolved, step).table) {
				expect(row.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
				expect(Math.min(...row)).toBeGreaterThan(0.001);
			}
	});

	test('every step parts some suspects from others', () => {
		for (const [id, step] of Object.entries(resolved.steps)) {
			const { table } = stepTable(resolved, step);
			const spread = table[0]?.map(
				(_, o) => Math.max(...table.map((row) => row[o] ?? 0)) - Math.min(...table.map((row) => row[o] ?? 0))
			);
			expect(Math.max(...(spread ?? [0])), id).toBeGreaterThan(0.2);
		}
	});
});

describe('a trace', () => {
	const answers: TraceAnswer[] = [
		{ step: 'v-og', outcome: 'positive', reading: 3 },
		{ step: 'v-lift', outcome: 'zero', reading: 0.01 },
		{ step: 'v-ok', outcome: 'raised', reading: 9.5 }
	];

	test('the order of answers is irrelevant', () => {
		const forth = trace(hot, evidence(answers));
		const back = trace(hot, evidence([...answers].reverse()));
		forth.now.forEach((p, i) => expect(back.now[i]).toBeCloseTo(p, 12));
	});

	test('positive grid, zero with the capacitor lifted: the capacitor', () => {
		const [first] = standings(trace(hot, evidence(answers)));
		expect(first?.id).toBe('cc-leak');
		expect(first?.probability).toBeGreaterThan(0.85);
	});

	test('positive grid that stays with the capacitor lifted: the valve', () => {
		const [first] = standings(
			trace(hot, evidence([answers[0] as TraceAnswer, { step: 'v-lift', outcome: 'positive', reading: 2.8 }]))
		);
		expect(first?.id).toBe('ov-gas');
	});

	test('a corrected answer replaces the first one', () => {
		const corrected = trace(hot, evidence([{ step: 'v-og', outcome: 'zero' }, ...answers]));
		trace(hot, evidence(answers)).now.forEach((p, i) => expect(corrected.now[i]).toBeCloseTo(p, 12));
	});

	test('one millivolt more across an edge turns no ranking over', () => {
		const near = (reading: number, outcome: string) =>
			share(trace(hot, evidence([{ step: 'v-og', outcome, reading }])), 'cc-leak');
		expect(Math.abs(near(0.4995, 'raised') - near(0.5005, 'positive'))).toBeLessThan(0.01);
	});

	test.each(
		[hot, weakAm].flatMap((resolved) =>
			Object.entries(resolved.steps).flatMap(([id, step]) =>
				step.kind === 'measure' ? edgesOf(resolved, step).map((edge) => ({ resolved, id, step, edge })) : []
			)
		)
	)('$id: a hair across the edge at $edge turns no ranking over', ({ resolved, id, step, edge }) => {
		const expected = expectedAt(resolved.plan, step.at);
		const [below, above] = [-1e-4, 1e-4].map((hair) => {
			const reading = edge + hair * Math.max(Math.abs(edge), 1e-3);
			const outcome = judgeReading(step, reading, expected)?.outcome ?? '';
			return trace(resolved, evidence([{ step: id, outcome, reading }])).now;
		});
		below?.forEach((p, index) => expect(Math.abs(p - (above?.[index] ?? NaN))).toBeLessThan(0.01));
	});

	test('one slip of the pen never rules the true cause out', () => {
		const slipped = trace(hot, evidence([...answers, { step: 'cap-leak-coupling', outcome: 'sound' }]));
		expect(share(slipped, 'cc-leak')).toBeGreaterThan(0.02);
	});

	test('a part that was changed and proved good leaves the list, the evidence stays', () => {
		const after = trace(hot, { answers, mended: [{ suspect: 'cc-leak', was: 'good', after: 3 }] });
		expect(share(after, 'cc-leak')).toBe(0);
		expect(after.answers).toHaveLength(3);
	});

	test('a part that was really bad takes the bad readings with it that it explains', () => {
		const after = trace(hot, { answers, mended: [{ suspect: 'cc-leak', was: 'bad', after: 3 }] });
		expect(after.answers.map(({ answer }) => answer.step)).toEqual(['v-lift']);
	});

	test('after a part that was really bad, "something not listed" is back where it began', () => {
		const again: TraceAnswer[] = [...answers, { step: 'look', outcome: 'clean' }];
		const mended = [{ suspect: 'cc-leak', was: 'bad' as const, after: 4 }];
		expect(share(trace(hot, { answers: again, mended }), NOT_LISTED)).toBeCloseTo(0.04, 2);
	});

	test('work just done on a stage is a suspect from then on, and moves by what is seen after it', () => {
		const work = hot.suspects.find(({ section, suspect }) => suspect.kind === 'work' && section === 'output');
		const before = share(trace(hot, evidence(answers)), work?.id ?? '');
		const mended = [{ suspect: 'cc-leak', was: 'not-tested' as const, after: 3 }];
		const after = share(trace(hot, { answers, mended }), work?.id ?? '');
		expect(before).toBeLessThan(0.05);
		expect(after).toBeCloseTo(0.05, 9);
		const seen: TraceAnswer[] = [...answers, { step: 'changed', outcome: 'as-drawn' }];
		expect(share(trace(hot, { answers: seen, mended }), work?.id ?? '')).toBeLessThan(after);
	});

	test('each standing gives one sentence for each answer that moved it', () => {
		const t = trace(hot, evidence(answers));
		const reasons = reasonsFor(t, 'cc-leak');
		expect(reasons.map(({ step }) => step).sort()).toEqual(
			['v-lift', 'v-og', 'v-ok'].filter((s) => reasons.some((r) => r.step === s))
		);
		expect(reasons[0]?.sentence).toMatch(/\. This fault shows that .*, the other suspects .*\.$/);
		expect(reasonsFor(t, 'ov-gas').find(({ step }) => step === 'v-lift')).toMatchObject({
			speaks: 'against'
		});
	});

	test('families are named with their place', () => {
		expect(nameOf(hot.suspects.find(({ id }) => id === 'socket@output'))).toMatch(/\(output valve\)/i);
	});

	test('after every answer the shares of the sections sum to one less "not listed"', () => {
		const t = trace(hot, evidence(answers));
		const sum = Object.values(sectionStandings(t)).reduce((a, b) => a + b, 0);
		expect(sum + share(t, NOT_LISTED)).toBeCloseTo(1, 12);
	});
});

describe('advice', () => {
	const start = trace(hot, evidence());
	const situation = { power: 'unplugged' as const, answered: [], skipped: [], unavailable: [] };

	test("the author's opening comes first, then what tells most for its minutes", () => {
		const [first, second, third] = suggest(trace(weakAm, evidence()), situation);
		expect([first?.id, second?.id, third?.id]).toEqual(['settings', 'bands', 'sw-work']);
	});

	test('with a meter only, nothing that needs a generator is offered', () => {
		for (const { step, way } of suggest(start, { ...situation, instruments: ['meter'] }))
			expect(step.ways[way]?.needs.every((need) => need === 'meter')).toBe(true);
	});

	test('without an instrument its way changes, or the step goes', () => {
		const all = suggest(trace(weakAm, evidence()), situation).length;
		expect(suggest(trace(weakAm, evidence()), { ...situation, instruments: [] }).length).toBeLessThan(all);
	});

	test('a skipped step comes back last', () => {
		const order = suggest(start, { ...situation, skipped: ['v-og'] }).map(({ id }) => id);
		expect(order.indexOf('v-og')).toBe(order.length - 1);
	});

	test('cores come last', () => {
		const order = suggest(trace(weakAm, evidence()), situation);
		const cores = order.findIndex(({ step }) => step.last);
		expect(cores).toBeGreaterThan(0);
		expect(order.slice(cores).every(({ step }) => step.last)).toBe(true);
	});

	test('the same state gives the same advice', () => {
		expect(suggest(start, situation).map(({ id }) => id)).toEqual(
			suggest(trace(hot, evidence()), situation).map(({ id }) => id)
		);
	});

	test('nothing below 0.02 bit is offered', () => {
		for (const { bits } of suggest(start, situation)) expect(bits).toBeGreaterThanOrEqual(0.02);
	});

	test('each suggestion says in one sentence what it parts', () => {
		for (const s of suggest(start, situation)) expect(whySuggested(start, s)).toMatch(/\.$/);
	});

	test('a proved capacitor is proposed for repair', () => {
		const proved = trace(
			hot,
			evidence([
				{ step: 'v-og', outcome: 'positive', reading: 4 },
				{ step: 'v-lift', outcome: 'zero', reading: 0 },
				{ step: 'cap-leak-coupling', outcome: 'leaky' }
			])
		);
		const left = suggest(proved, { ...situation, answered: proved.answers.map(({ answer }) => answer) });
		const advised = repairAdvice(proved, left, 'unplugged');
		if (!advised.stop || advised.repair === undefined) throw new Error('Nothing is proposed.');
		expect(suspectsOfRepair(proved, advised.repair)[0]?.id).toBe('cc-leak');
	});
});

describe('a sign alone', () => {
	const resolved = resolveFlow(sampleLibrary(), flowOf({ symptom: {}, signs: ['fuse-blows'] }), samplePlan());

	test('lowers those whom the flow does not name, all alike, and clears none', () => {
		const likelihood = entryLikelihood(resolved);
		resolved.suspects.forEach(({ named }, index) =>
			expect(likelihood[index]).toBe(named ? 1 : LIKELIHOODS.rarely)
		);
		expect(cleared(trace(resolved, evidence()))).toEqual({ sections: [], places: [] });
	});
});
