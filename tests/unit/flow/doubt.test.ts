import { describe, expect, test } from 'vitest';
import { doubtsOf } from '../../../src/lib/flow/doubt.ts';
import { inTheWay, settlersOf } from '../../../src/lib/flow/settle.ts';
import { suggest, type Situation } from '../../../src/lib/flow/advice.ts';
import { thinWords } from '../../../src/lib/flow/thin.ts';
import { resolveFlow } from '../../../src/lib/flow/resolve.ts';
import { NOT_LISTED, trace, type Evidence, type TraceAnswer } from '../../../src/lib/flow/trace.ts';
import { answerEffects, shareWords, whyNotFirst, whySuggested } from '../../../src/lib/flow/why.ts';
import { tiny } from '../job/tiny.ts';

const faint = resolveFlow(tiny, tiny.flows['am-faint']!, tiny.plans['tiny']!);
const distorted = resolveFlow(tiny, tiny.flows['distorted']!, tiny.plans['tiny']!);
const evidence = (answers: TraceAnswer[] = [], more: Partial<Evidence> = {}): Evidence => ({
	answers,
	mended: [],
	...more
});
const said = (...pairs: [step: string, outcome: string][]): TraceAnswer[] =>
	pairs.map(([step, outcome]) => ({ step, outcome }));
const situation: Situation = { power: 'live', answered: [], skipped: [], unavailable: [] };

describe('answers that do not go together', () => {
	test('without answers there is no doubt, and one alone contradicts nothing', () => {
		expect(doubtsOf(trace(faint, evidence()), 'live')).toEqual([]);
		expect(doubtsOf(trace(faint, evidence(said(['hear-am', 'weak']))), 'live')).toEqual([]);
	});

	test('an open aerial coil and a low anode: the reading that the others hardly foretell is named, and to be taken again', () => {
		const now = trace(faint, evidence(said(['coil-ohms', 'open'], ['anode-volts', 'low'])));
		const [doubt] = doubtsOf(now, 'live');
		expect(doubt).toMatchObject({ kind: 'conflict', repeat: { step: 'anode-volts', minutes: 2 } });
		expect(doubt?.sentence).toMatch(
			/do not fit well together.*under 1 in 20: Volts on the output anode: low.*Take it again/
		);
	});

	test('of two answers that shut each other out the one that is quicker to take again is named: no change of power', () => {
		const now = trace(faint, evidence(said(['coil-ohms', 'open'], ['grid-volts', 'positive'])));
		const shut = [
			[0.01, 0.98, 0.01, 0.01, 0.05],
			[0.98, 0.01, 0.01, 0.01, 0.05]
		];
		const clash = {
			...now,
			entry: [0.48, 0.48, 0.01, 0.01, 0.02],
			answers: now.answers.map((answer, index) => ({ ...answer, likelihood: shut[index]! }))
		};
		expect(doubtsOf(clash, 'live')[0]?.repeat?.step).toBe('grid-volts');
		expect(doubtsOf(clash, 'unplugged')[0]?.repeat?.step).toBe('coil-ohms');
	});

	test('where nobody in question shows one of the answers, two faults are thought of', () => {
		const now = trace(
			faint,
			evidence(said(['hear-am', 'weak'], ['coil-ohms', 'open'], ['grid-volts', 'zero']))
		);
		const odd = {
			...now,
			answers: now.answers.map((answer, index) =>
				index === 2 ? { ...answer, likelihood: answer.likelihood.map(() => 0.08) } : answer
			)
		};
		const [doubt] = doubtsOf(odd, 'live');
		expect(doubt).toMatchObject({ kind: 'nobody-fits', repeat: { step: 'grid-volts' } });
		expect(doubt?.sentence).toContain('think of two faults');
	});

	test('answers that fit are left alone', () => {
		const now = trace(
			faint,
			evidence(
				said(['hear-am', 'weak'], ['coil-ohms', 'open'], ['grid-volts', 'zero'], ['anode-volts', 'right'])
			)
		);
		expect(doubtsOf(now, 'live')).toEqual([]);
	});

	test('when every suspect has been changed the fault lies outside the list, and the page says where to look', () => {
		const mended = faint.suspects.map(({ id }) => ({ suspect: id, was: 'good' as const, after: 0 }));
		const now = trace(faint, evidence(said(['hear-am', 'weak']), { mended }));
		const [doubt] = doubtsOf(now, 'live');
		expect(doubt).toMatchObject({ kind: 'outside', repeat: { step: 'hear-am' } });
		expect(doubt?.sentence).toContain('Every suspect on the list is cleared or has been changed.');
		expect(doubt?.sentence).toContain('another complaint may fit better');
	});
});

describe('what would settle a suspect', () => {
	const answered = new Set<string>();

	test('the steps that part it clearly from the others, the most telling first', () => {
		const settlers = settlersOf(trace(faint, evidence()), 'aerial-open', { answered });
		expect(settlers.map(({ step }) => step)).toContain('coil-ohms');
		expect(settlers.map(({ bits }) => bits)).toEqual(settlers.map(({ bits }) => bits).sort((a, b) => b - a));
		expect(settlers.map(({ step }) => step)).not.toContain('grid-lifted');
	});

	test('a step that was answered, and "something not listed", settle nothing more', () => {
		const now = trace(faint, evidence());
		expect(
			settlersOf(now, 'aerial-open', { answered: new Set(['coil-ohms']) }).map(({ step }) => step)
		).not.toContain('coil-ohms');
		expect(settlersOf(now, NOT_LISTED, { answered })).toEqual([]);
	});

	test('what the bench lacks is named', () => {
		expect(inTheWay({ lacks: ['generator', 'oscilloscope'] })).toBe(
			'wants AM signal generator and oscilloscope, which is not on this bench'
		);
		expect(inTheWay({ lacks: [], reason: 'cannot reach it' })).toBe('left out before: cannot reach it');
		expect(inTheWay({ lacks: [] })).toBe('');
	});
});

describe('why a step', () => {
	const now = trace(distorted, evidence());
	const offered = suggest(now, situation);

	test('each answer says who rises, and what it clears', () => {
		const grid = offered.find(({ id }) => id === 'grid-volts')!;
		const effects = answerEffects(now, grid);
		expect(effects.map(({ outcome }) => outcome).sort()).toEqual(['positive', 'zero']);
		const positive = effects.find(({ outcome }) => outcome === 'positive')!;
		expect(positive.then).toContain('coupling capacitor: leaky: up to 95 %.');
		const sum = effects.reduce((total, { chance }) => total + chance, 0);
		expect(sum).toBeCloseTo(1, 1);
	});

	test('a band that is listened to says how much of what is left lies on its way', () => {
		const hear = suggest(trace(faint, evidence()), situation).find(({ id }) => id === 'hear-am');
		if (hear)
			expect(whySuggested(trace(faint, evidence()), hear)).toMatch(/of what is left lies on the way|agree/);
		expect(shareWords(0.5)).toBe('about half');
		expect(shareWords(0.02)).toBe('hardly anything');
		expect(shareWords(0.99)).toBe('nearly all');
	});

	test('the runner-up is told by its minutes, what it tells and its power', () => {
		const [first, other] = offered;
		expect(first && other).toBeTruthy();
		const told = whyNotFirst(
			first!,
			{ ...other!, minutes: first!.minutes + 4, bits: first!.bits / 3 },
			'live'
		);
		expect(told).toMatch(/^Takes 4 min more, tells far less/);
		const cold = { ...other!, step: { ...other!.step, power: 'unplugged' as const } };
		expect(whyNotFirst(first!, cold, 'live')).toContain('wants the set unplugged');
	});

	test('the author`s own question is named as such', () => {
		const [first, other] = offered;
		expect(whyNotFirst({ ...first!, by: 'opening' }, other!, 'live')).toContain(
			'The flow asks its own question first'
		);
	});
});

describe('thin evidence', () => {
	test('fewer than three answers are thin', () => {
		expect(thinWords(trace(faint, evidence(said(['hear-am', 'weak']))))).toContain('Answer more steps');
	});
	test('three answers of which two were not sure are thin too', () => {
		const answers = said(['hear-am', 'weak'], ['coil-ohms', 'open'], ['grid-volts', 'zero']);
		expect(thinWords(trace(faint, evidence(answers)))).toBe('');
		const unsure = answers.map((answer, index) => ({ ...answer, sure: index > 1 }));
		expect(thinWords(trace(faint, evidence(unsure)))).toContain('2 of the 3 answers');
	});
});
