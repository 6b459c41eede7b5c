import { describe, expect, test } from 'vitest';
import { offeredSteps, type Situation } from '../../../src/lib/flow/advice.ts';
import { labelOf, normalOf, outcomesOf } from '../../../src/lib/flow/evidence.ts';
import { fillCalculation } from '../../../src/lib/flow/fill.ts';
import type { ResolvedFlow } from '../../../src/lib/flow/resolve.ts';
import type { Instrument } from '../../../src/lib/flow/terms.ts';
import { bestWay } from '../../../src/lib/flow/trace.ts';
import { whereIs } from '../../../src/lib/flow/where.ts';
import { fits } from '../../../src/lib/receiver/index.ts';
import { allShipped, shippedLibrary } from '../../library.ts';
import { allPairs, walkThrough } from './library-walk.ts';

const library = shippedLibrary();

/** Flow -> what it is on each plan that it fits. */
const byFlow = new Map<string, ResolvedFlow[]>();
for (const resolved of allShipped())
	byFlow.set(resolved.flow.id, [...(byFlow.get(resolved.flow.id) ?? []), resolved]);

const nameOf = ({ flow, plan }: ResolvedFlow, words: string) => `${flow.id} on ${plan.id}: ${words}`;

/** Every sentence that a person reads at a step, with the name of the place where it stands. */
function sentencesOf({ steps }: ResolvedFlow): [place: string, words: unknown][] {
	return Object.entries(steps).flatMap(([id, step]): [string, unknown][] => [
		[`${id} title`, step.title],
		[`${id} text`, step.text],
		[`${id} why`, step.why],
		...step.ways.flatMap(({ text }): [string, unknown][] =>
			text === undefined ? [] : [[`${id} way`, text]]
		),
		...outcomesOf(step).map((outcome): [string, unknown] => [`${id} ${outcome}`, labelOf(step, outcome)])
	]);
}

/** A name in braces, a word of the program or a place left open is no sentence of the trade. */
const UNRESOLVED = /[{}<>]|\b(undefined|null|NaN|TODO)\b|\b(step|place|section):/;

describe.each([...byFlow])('%s', (_, flows) => {
	test('every answer of every step is given once on every plan, through the gates, and no step stands before what it needs', () => {
		for (const resolved of flows) {
			const { pairs, faults } = walkThrough(resolved);
			expect(faults).toEqual([]);
			const never = allPairs(resolved).filter((pair) => !pairs.has(pair));
			expect(never.map((pair) => nameOf(resolved, pair))).toEqual([]);
		}
	});

	test('every word is there, and every sum fills itself from this plan', () => {
		for (const resolved of flows) {
			const open = sentencesOf(resolved).filter(
				([, words]) => typeof words !== 'string' || words.trim() === '' || UNRESOLVED.test(words)
			);
			expect(open.map(([place]) => nameOf(resolved, place))).toEqual([]);
			for (const [id, step] of Object.entries(resolved.steps)) {
				const { given } = fillCalculation(id, step, { plan: resolved.plan, readings: {} });
				const figures = Object.values(given).filter((value) => typeof value === 'number');
				expect(figures.every(Number.isFinite), nameOf(resolved, id)).toBe(true);
				if ('at' in step && step.at)
					expect(whereIs(resolved.plan, step.at)?.title, nameOf(resolved, id)).toMatch(/\S/);
			}
		}
	});

	test('a step under power shows a caution for its power state in this very set', () => {
		for (const resolved of flows) {
			const bare = Object.entries(resolved.steps).filter(([, step]) => {
				const shown = step.cautions.filter((id) => fits(resolved.plan.traits, library.cautions[id]?.only));
				return (
					step.power !== 'unplugged' && !shown.some((id) => library.cautions[id]?.covers.includes(step.power))
				);
			});
			expect(bare.map(([id]) => nameOf(resolved, id))).toEqual([]);
		}
	});

	test('with a plain meter and nothing else, every step that this bench can do comes up', () => {
		for (const resolved of flows) expect(neverOffered(resolved, ['meter'])).toEqual([]);
	});
});

/** Steps which this bench can do and to which it never comes, every other one answered as on a sound set. */
function neverOffered(resolved: ResolvedFlow, instruments: readonly Instrument[]): string[] {
	const answered: Situation['answered'][number][] = [];
	for (;;) {
		const situation: Situation = { power: 'unplugged', answered, skipped: [], unavailable: [], instruments };
		const offered = offeredSteps(resolved, situation);
		if (offered.length === 0) break;
		answered.push(...offered.map(({ id, step }) => ({ step: id, outcome: normalOf(step) })));
	}
	const done = new Set(answered.map(({ step }) => step));
	const offeredAtAll = Object.entries(resolved.steps).filter(
		([, step]) =>
			bestWay(step, instruments) !== undefined && (!step['by-choice'] || resolved.flow.procedure === true)
	);
	return offeredAtAll.filter(([id]) => !done.has(id)).map(([id]) => nameOf(resolved, id));
}
