import { describe, expect, test } from 'vitest';
import type { Library } from '../../../src/lib/flow/library.ts';
import {
	bandsOf,
	closest,
	flowFits,
	heardOn,
	means,
	placeSuspects,
	repairKey,
	resolveFlow,
	stepsFor,
	type PlacedSuspect
} from '../../../src/lib/flow/resolve.ts';
import { Step, Suspect, type Flow } from '../../../src/lib/flow/schema.ts';
import { fits } from '../../../src/lib/receiver/index.ts';
import { WEIGHTS } from '../../../src/lib/suspects/index.ts';
import { allShipped, shippedLibrary } from '../../library.ts';
import { flowOf, sampleLibrary, samplePlan } from './small.ts';

const plan = samplePlan();

const suspectOf = (keys: Partial<Record<keyof Suspect, unknown>>): Suspect =>
	Suspect.parse({
		part: 'A part',
		failure: 'failed',
		at: 'output',
		common: 'rare',
		shows: { none: 'usually' },
		repair: { do: 'Change it.', minutes: 5 },
		proof: 'It plays.',
		source: 'common practice',
		...keys
	});

/** The small library with these suspects besides its own. */
const withSuspects = (more: Record<string, Suspect>): Library => {
	const library = sampleLibrary();
	return { ...library, suspects: { ...library.suspects, ...more } };
};

const resolve = (keys: Partial<Record<keyof Flow, unknown>>, library = sampleLibrary()) =>
	resolveFlow(library, flowOf(keys), plan);
const idsOf = (suspects: readonly PlacedSuspect[]): string[] => suspects.map(({ id }) => id);
const placed = (id: string, library = sampleLibrary()): PlacedSuspect => {
	const found = placeSuspects(library, undefined, plan).find((suspect) => suspect.id === id);
	if (!found) throw new Error(`The small set has no "${id}".`);
	return found;
};
const weightsIn = (suspects: readonly PlacedSuspect[]) =>
	Object.fromEntries(suspects.map(({ id, weight }) => [id, Number(weight.toFixed(6))]));

describe('suspects at their places', () => {
	test('a part with one place keeps its name, a family takes the name of each place', () => {
		expect(idsOf(placeSuspects(sampleLibrary(), undefined, plan))).toEqual([
			'cc-leak',
			'ov-gas',
			'socket@tuner',
			'socket@output',
			'aer-lead'
		]);
	});

	test('a suspect is in the section of its stage, unless it says otherwise', () => {
		expect(placed('cc-leak')).toMatchObject({ section: 'output', placeTitle: 'Coupling to the output grid' });
		const library = withSuspects({ fuse: suspectOf({ section: 'power-supply' }) });
		expect(placed('fuse', library).section).toBe('power-supply');
	});

	test('a suspect that this kind of set cannot have is left out', () => {
		const library = withSuspects({
			'back-bias': suspectOf({ never: { mains: ['transformer'] } }),
			dropper: suspectOf({ only: { heaters: ['series'] } }),
			'cathode-bias': suspectOf({ never: { heaters: ['series'] } }),
			selenium: suspectOf({ only: { rectifier: ['selenium'] } })
		});
		const ids = idsOf(placeSuspects(library, undefined, plan));
		expect(ids).not.toContain('back-bias');
		expect(ids).not.toContain('dropper');
		expect(ids).toContain('cathode-bias');
		// The plan does not say which rectifier it has.
		expect(ids).toContain('selenium');
	});

	test('places that the plan has not are passed over', () => {
		const library = withSuspects({
			cord: suspectOf({ at: ['output', 'dial'] }),
			motor: suspectOf({ at: 'dial' })
		});
		expect(idsOf(placeSuspects(library, undefined, plan))).toContain('cord@output');
		expect(idsOf(placeSuspects(library, undefined, plan)).filter((id) => /dial|motor/.test(id))).toEqual([]);
	});

	test('the suspects of a flow stand beside the shared ones', () => {
		const flow = flowOf({ own: { suspects: { 'bent-vane': suspectOf({ at: 'aerial' }) } } });
		expect(idsOf(placeSuspects(sampleLibrary(), flow, plan))).toContain('bent-vane');
		expect(idsOf(placeSuspects(sampleLibrary(), undefined, plan))).not.toContain('bent-vane');
	});
});

describe('on which bands a suspect is felt', () => {
	test('a stage of both bands on both, the aerial coil on AM alone', () => {
		expect(bandsOf(plan, placed('cc-leak'))).toEqual(['am', 'fm']);
		expect(bandsOf(plan, placed('aer-lead'))).toEqual(['am']);
		expect(bandsOf(plan, placed('socket@tuner'))).toEqual(['fm']);
	});

	test('a supply wherever it feeds a stage, a line of one band there alone', () => {
		const library = withSuspects({ dropper: suspectOf({ at: 'ht' }), 'avc-leak': suspectOf({ at: 'avc' }) });
		expect(bandsOf(plan, placed('dropper', library))).toEqual(['am', 'fm']);
		expect(bandsOf(plan, placed('avc-leak', library))).toEqual(['am']);
	});
});

describe('the complaint', () => {
	test('"all" stands for every band that is not named', () => {
		expect(heardOn(flowOf({ symptom: { all: 'distorted' } }), plan)).toEqual({
			am: 'distorted',
			fm: 'distorted'
		});
		expect(heardOn(flowOf({ symptom: { fm: 'good', all: 'hum' } }), plan)).toEqual({ am: 'hum', fm: 'good' });
	});

	test('a band that nobody speaks of is not heard, one that the set has not is passed over', () => {
		expect(heardOn(flowOf({ symptom: { am: 'weak', gram: 'good' } }), plan)).toEqual({ am: 'weak' });
	});

	test('where a sign alone leads to the flow, every part of the set takes part', () => {
		const { heard, suspects } = resolve({ symptom: {}, signs: ['fuse-blows'] });
		expect(heard).toEqual({});
		expect(idsOf(suspects)).toEqual(idsOf(placeSuspects(sampleLibrary(), undefined, plan)));
	});

	test('hypotheses that nobody named are those alone that act on a band which misbehaves', () => {
		expect(idsOf(resolve({ symptom: { am: 'weak', fm: 'good' } }).suspects)).toEqual([
			'cc-leak',
			'ov-gas',
			'socket@output',
			'aer-lead'
		]);
		expect(idsOf(resolve({ symptom: { fm: 'none', am: 'good' } }).suspects)).toEqual([
			'cc-leak',
			'ov-gas',
			'socket@tuner',
			'socket@output'
		]);
		expect(idsOf(resolve({ symptom: { all: 'distorted' } }).suspects)).toHaveLength(5);
	});
});

describe('how much each suspect weighs', () => {
	test('a family is divided over its places, so that no place counts twice', () => {
		const { suspects } = resolve({ suspects: { socket: 'common', 'cc-leak': 'rare' } });
		expect(weightsIn(suspects)).toMatchObject({
			'socket@tuner': WEIGHTS.common / 2,
			'socket@output': WEIGHTS.common / 2,
			'cc-leak': WEIGHTS.rare
		});
	});

	test('a place with a word of its own leaves the word of its family to the others', () => {
		const { suspects } = resolve({ suspects: { socket: 'common', 'socket@output': 'rare' } });
		expect(weightsIn(suspects)).toMatchObject({
			'socket@tuner': WEIGHTS.common,
			'socket@output': WEIGHTS.rare
		});
	});

	test('"in" keeps a family to some sections or stages; elsewhere it is not listed', () => {
		const { suspects } = resolve({ suspects: { socket: { common: 'common', in: ['output'] } } });
		const at = (id: string) => suspects.find((suspect) => suspect.id === id);
		expect(at('socket@output')).toMatchObject({ named: true, weight: WEIGHTS.common });
		expect(at('socket@tuner')).toMatchObject({ named: false, weight: WEIGHTS['not listed'] });
	});

	test('"only" keeps a word to the sets that it is meant for; in others the suspect is not listed', () => {
		const meant = (heaters: string) =>
			resolve({ suspects: { 'cc-leak': { common: 'common', only: { heaters: [heaters] } } } }).suspects.find(
				({ id }) => id === 'cc-leak'
			);
		expect(meant('parallel')).toMatchObject({ named: true, weight: WEIGHTS.common });
		expect(meant('series')).toMatchObject({ named: false, weight: WEIGHTS['not listed'] });
	});

	test('a suspect that the flow does not name enters as not listed', () => {
		const { suspects } = resolve({ suspects: { 'cc-leak': 'very common' } });
		expect(suspects.filter(({ named }) => named).map(({ id }) => id)).toEqual(['cc-leak']);
		expect(weightsIn(suspects)).toEqual({
			'cc-leak': WEIGHTS['very common'],
			'ov-gas': WEIGHTS['not listed'],
			'socket@tuner': WEIGHTS['not listed'] / 2,
			'socket@output': WEIGHTS['not listed'] / 2,
			'aer-lead': WEIGHTS['not listed']
		});
	});

	test('a family that acts on one place of this complaint has its whole weight there', () => {
		const { suspects } = resolve({ symptom: { am: 'noise', fm: 'good' }, suspects: { socket: 'common' } });
		expect(weightsIn(suspects)).toMatchObject({ 'socket@output': WEIGHTS.common });
	});

	test('a suspect that the flow names takes part even where it is not heard', () => {
		const fault = { am: 'weak', fm: 'good' };
		expect(idsOf(resolve({ symptom: fault, suspects: { 'socket@tuner': 'rare' } }).suspects)).toContain(
			'socket@tuner'
		);
		const library = withSuspects({ lamp: suspectOf({ at: 'output', bands: ['fm'] }) });
		expect(idsOf(resolve({ symptom: fault, suspects: { lamp: 'rare' } }, library).suspects)).toContain(
			'lamp'
		);
		expect(idsOf(resolve({ symptom: fault }, library).suspects)).not.toContain('lamp');
	});

	test('the word "not listed" may be given by the flow itself', () => {
		const { suspects } = resolve({ suspects: { 'ov-gas': 'not listed' } });
		expect(suspects.find(({ id }) => id === 'ov-gas')).toMatchObject({
			named: true,
			weight: WEIGHTS['not listed']
		});
	});
});

describe('the key that speaks of a suspect', () => {
	const socket = placed('socket@output');

	test.each([
		['socket@output', true],
		['socket', true],
		['place:output', true],
		['section:output', true],
		['socket@tuner', false],
		['place:tuner', false],
		['section:audio', false],
		['output', false]
	])('"%s" means the socket of the output valve: %s', (key, meant) => {
		expect(means(key, socket)).toBe(meant);
	});

	test('its own place before its family, before its stage, before its section', () => {
		const keys = ['section:output', 'place:output', 'socket', 'socket@output'];
		expect(closest(keys, socket)).toBe('socket@output');
		expect(closest(keys.slice(0, 3), socket)).toBe('socket');
		expect(closest(keys.slice(0, 2), socket)).toBe('place:output');
		expect(closest(keys.slice(0, 1), socket)).toBe('section:output');
		expect(closest(['cc-leak', 'section:audio'], socket)).toBeUndefined();
	});
});

describe('steps that a set can take', () => {
	const step = (keys: Record<string, unknown>): Step =>
		Step.parse({
			kind: 'observe',
			title: 'Look',
			text: 'Look at it.',
			why: 'It tells.',
			power: 'live',
			minutes: 1,
			source: 'common practice',
			...(keys['kind']
				? {}
				: { outcomes: { one: { label: 'One' }, other: { label: 'Other' } }, normal: 'one' }),
			...keys
		});
	const taken = (steps: Record<string, Step>) =>
		Object.keys(stepsFor({ ...sampleLibrary(), steps }, flowOf({ uses: Object.keys(steps) }), plan));

	test('its traits fit, and its test point and band exist', () => {
		expect(
			taken({
				plain: step({}),
				'live-only': step({ only: { chassis: ['live'] } }),
				'not-live': step({ never: { chassis: ['live'] } }),
				'at-grid': step({ at: 'output.grid' }),
				'at-nowhere': step({ at: 'mixer.grid' }),
				'on-fm': step({ kind: 'listen', band: 'fm' }),
				'on-gram': step({ kind: 'listen', band: 'gram' }),
				'into-aerial': step({ kind: 'inject', band: 'am', at: 'aerial.socket' })
			})
		).toEqual(['plain', 'not-live', 'at-grid', 'on-fm', 'into-aerial']);
	});

	test('the order is that of the flow, its own steps last', () => {
		const flow = flowOf({ uses: ['listen-fm', 'rock-valves'], own: { steps: { tap: step({}) } } });
		expect(Object.keys(stepsFor(sampleLibrary(), flow, plan))).toEqual(['listen-fm', 'rock-valves', 'tap']);
	});

	test('a flow fits a set that has its bands and its traits', () => {
		expect(flowFits(flowOf({ bands: ['am', 'fm'] }), plan)).toBe(true);
		expect(flowFits(flowOf({ bands: ['gram'] }), plan)).toBe(false);
		expect(flowFits(flowOf({ only: { chassis: ['live'] } }), plan)).toBe(false);
		expect(flowFits(flowOf({ never: { chassis: ['live'] } }), plan)).toBe(true);
	});
});

describe('one repair', () => {
	test('mends the suspects that carry the same word, and else the part alone', () => {
		const library = withSuspects({
			'ift-open': suspectOf({ repair: { do: 'Rewind it.', minutes: 60, same: 'can' } }),
			'ift-short': suspectOf({ repair: { do: 'Rewind it.', minutes: 60, same: 'can' } })
		});
		expect(repairKey(placed('ift-open', library))).toBe(repairKey(placed('ift-short', library)));
		expect(repairKey(placed('socket@output'))).not.toBe(repairKey(placed('socket@tuner')));
	});
});

describe('the shipped flows', () => {
	test.each(
		allShipped().map((resolved) => ({ name: `${resolved.flow.id} on ${resolved.plan.id}`, resolved }))
	)(
		'$name: every named word is shared out whole, and every other suspect acts on a bad band',
		({ resolved: { flow, suspects, heard, plan: set } }) => {
			const sum = (list: PlacedSuspect[]) => list.reduce((total, { weight }) => total + weight, 0);
			const inThisSet = ([, said]: [string, Flow['suspects'][string]]) =>
				typeof said === 'string' || fits(set.traits, said.only);
			const keys = Object.entries(flow.suspects)
				.filter(inThisSet)
				.map(([key]) => key);
			for (const key of keys) {
				const said = flow.suspects[key];
				const scope = typeof said === 'object' ? said.in : undefined;
				const meant = suspects.filter(
					(s) => closest(keys, s) === key && (!scope || scope.includes(s.section) || scope.includes(s.place))
				);
				if (meant.length && said) {
					expect(sum(meant), key).toBeCloseTo(WEIGHTS[typeof said === 'string' ? said : said.common], 9);
				}
			}
			for (const suspect of suspects) {
				expect(suspect.weight, suspect.id).toBeGreaterThan(0);
				// A flow that a sign alone leads to speaks of no band: every part of the set takes part.
				const bySign = Object.keys(heard).length === 0;
				const felt = bandsOf(set, suspect).some((band) => bySign || (heard[band] && heard[band] !== 'good'));
				expect(felt || suspect.named, suspect.id).toBe(true);
			}
			expect(new Set(idsOf(suspects)).size).toBe(suspects.length);
		}
	);

	test('every shared suspect stands somewhere in a plan, or waits for a set with other traits', () => {
		const library = shippedLibrary();
		const plans = Object.values(library.plans);
		const somewhere = new Set(
			plans.flatMap((set) => placeSuspects(library, undefined, set).map(({ family }) => family))
		);
		const nowhere = Object.keys(library.suspects).filter((id) => !somewhere.has(id));
		const excluded = nowhere.filter((id) => library.suspects[id]?.only || library.suspects[id]?.never);
		expect(nowhere).toEqual(excluded);
	});
});
