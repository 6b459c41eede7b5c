import { describe, expect, test } from 'vitest';
import { suggest, type Situation } from '../../../src/lib/flow/advice.ts';
import { matchFlows, proceduresFor } from '../../../src/lib/flow/match.ts';
import { flowFits, resolveFlow, type ResolvedFlow } from '../../../src/lib/flow/resolve.ts';
import { trace } from '../../../src/lib/flow/trace.ts';
import { INSTRUMENTS, type Instrument } from '../../../src/lib/flow/terms.ts';
import { normalOf } from '../../../src/lib/flow/evidence.ts';
import { fits } from '../../../src/lib/receiver/index.ts';
import { shippedLibrary } from '../../library.ts';

const library = shippedLibrary();
const plans = Object.values(library.plans);
const instruments = Object.keys(INSTRUMENTS) as Instrument[];

const worked: [name: string, resolved: ResolvedFlow][] = plans.flatMap((plan) =>
	proceduresFor(library, plan).map((flow): [string, ResolvedFlow] => [
		`${flow.id} on ${plan.id}`,
		resolveFlow(library, flow, plan)
	])
);

/** The steps as they come up when each is answered as in a sound set. */
function walked(resolved: ResolvedFlow): string[] {
	const answered: { step: string; outcome: string }[] = [];
	for (;;) {
		const situation: Situation = { power: 'unplugged', answered, skipped: [], unavailable: [], instruments };
		const first = suggest(trace(resolved, { answers: [], mended: [] }), situation)[0];
		if (!first) return answered.map(({ step }) => step);
		answered.push({ step: first.id, outcome: normalOf(first.step) });
	}
}

describe('work in a fixed order', () => {
	test('waking, both alignments and the closing tests are there', () => {
		const ids = new Set(worked.map(([, { flow }]) => flow.id));
		expect([...ids].sort()).toEqual([
			'align-am',
			'align-fm',
			'closing-battery-set',
			'closing-tests',
			'wake-after-storage',
			'wake-battery-set'
		]);
	});

	test.each(worked)('%s: every step comes, in the order of the author', (_, resolved) => {
		const order = resolved.flow.opening.filter((id) => resolved.steps[id]);
		const walk = walked(resolved);
		expect([...walk].sort()).toEqual(Object.keys(resolved.steps).sort());
		// What the last answer names by `next` comes at once; all else keeps its order.
		const named = new Set(
			Object.values(resolved.steps).flatMap((step) =>
				'outcomes' in step ? [step.outcomes[normalOf(step)]?.next ?? ''] : []
			)
		);
		const plain = (ids: string[]) => ids.filter((id) => !named.has(id));
		expect(plain(walk)).toEqual(plain(order));
	});

	test.each(worked)(
		'%s: nothing gets full mains before the limiter, nor the limiter before the cold checks',
		(_, resolved) => {
			if (!resolved.flow.id.startsWith('wake-')) return;
			const powers = walked(resolved).map((id) => resolved.steps[id]?.power);
			const rank = { unplugged: 0, limiter: 1, live: 2 } as const;
			const ranks = powers.map((power) => rank[power ?? 'unplugged']);
			expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
		}
	);

	test('a procedure is no complaint: what is heard never leads to one', () => {
		for (const plan of plans)
			expect(matchFlows(library, plan, {}).filter(({ flow }) => flow.procedure)).toEqual([]);
	});

	test('what is found on the way leads to a trace that this set can have and is no procedure', () => {
		const opened = worked.flatMap(([, { plan, steps }]) =>
			Object.values(steps).flatMap((step) =>
				'outcomes' in step
					? Object.values(step.outcomes).flatMap(({ opens }) => (opens ? [{ opens, plan }] : []))
					: []
			)
		);
		expect(opened.length).toBeGreaterThan(0);
		const wrong = opened.filter(({ opens, plan }) => {
			const flow = library.flows[opens];
			return !flow || flow.procedure === true || !flowFits(flow, plan);
		});
		expect(wrong.map(({ opens, plan }) => `${opens} on ${plan.id}`)).toEqual([]);
	});

	test('a set without mains is woken and closed without a word of the mains', () => {
		const battery = worked.filter(([, { plan }]) => plan.traits.mains === 'battery');
		expect(battery.map(([, { flow }]) => flow.id)).toEqual([
			'align-am',
			'closing-battery-set',
			'wake-battery-set'
		]);
		const shown = battery.flatMap(([, { steps, plan }]) =>
			Object.values(steps).flatMap(({ cautions }) =>
				cautions.filter((id) => fits(plan.traits, library.cautions[id]?.only))
			)
		);
		expect(shown).toContain('battery-supplies');
		for (const mains of [
			'first-power',
			'limiter-does-not-isolate',
			'direct-mains',
			'mains-lead',
			'live-chassis'
		])
			expect(shown).not.toContain(mains);
	});

	test('every battery valve is risked last: its holder is proved first, and HT comes after the filaments', () => {
		const [, waking] = worked.find(([, { flow }]) => flow.id === 'wake-battery-set') ?? [];
		const order = waking ? walked(waking) : [];
		const firstPowers = ['wake-filament-line', 'wake-stray-ht', 'wake-filaments-in', 'wake-battery-minutes'];
		expect(order.filter((id) => waking?.steps[id]?.power === 'limiter')).toEqual(firstPowers);
		expect(order.indexOf('wake-battery-plug')).toBeLessThan(order.indexOf('wake-filament-line'));
	});

	test.each([
		['am-fm-shared', ['fm-meter-total', 'peak-fm-if']],
		['am-fm-discriminator', ['fm-meter-limiter', 'peak-fm-limiter']]
	])('%s: the FM IF is peaked where this detector shows its signal', (planId, expected) => {
		const [, aligning] =
			worked.find(([, { flow, plan }]) => flow.id === 'align-fm' && plan.id === planId) ?? [];
		const peaking = ['fm-meter-total', 'fm-meter-limiter', 'peak-fm-if', 'peak-fm-limiter'];
		expect(aligning && walked(aligning).filter((id) => peaking.includes(id))).toEqual(expected);
	});

	test('the current of exposed metal is asked for last', () => {
		const closing = worked.filter(([, { flow }]) => flow.id === 'closing-tests');
		expect(closing.map(([, resolved]) => walked(resolved).at(-1))).toEqual(closing.map(() => 'i-chas'));
	});
});
