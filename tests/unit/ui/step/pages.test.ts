import { describe, expect, test } from 'vitest';
import { powerGate } from '../../../../src/lib/flow/compile.ts';
import Answers from '../../../../src/lib/ui/step/Answers.svelte';
import NothingLeft from '../../../../src/lib/ui/step/NothingLeft.svelte';
import PickUp from '../../../../src/lib/ui/step/PickUp.svelte';
import PowerBadge from '../../../../src/lib/ui/step/PowerBadge.svelte';
import PowerGate from '../../../../src/lib/ui/step/PowerGate.svelte';
import StepCard from '../../../../src/lib/ui/step/StepCard.svelte';
import Trail from '../../../../src/lib/ui/step/Trail.svelte';
import { markup, words } from './shown.ts';

const nothing = () => {};
const caution = { title: 'One hand', text: 'Keep the other behind your back.', source: ['common practice'] };

describe('a step', () => {
	const card = {
		title: 'Grid volts of the output valve',
		text: 'Measure on DC.',
		why: 'A leak lifts the grid.',
		instruments: ['Multimeter'],
		power: 'live' as const,
		minutes: 3,
		place: { title: 'Grid of the output valve', pin: 'EL84, pin 2' },
		normal: 'at zero',
		cautions: [caution]
	};

	test('the question is the heading, and no other heading of its rank stands beside it', () =>
		expect(
			markup(StepCard, card)
				.match(/<h1.*?<\/h1>/g)
				?.join()
		).toMatch(/>Grid volts of the output valve<\/h1>$/));
	test('it says state, place with pin, instrument and what a sound set shows', () => {
		const text = words(StepCard, card);
		for (const part of ['Live, on full supply', 'EL84, pin 2', 'Multimeter', 'at zero', 'about 3'])
			expect(text).toContain(part);
	});
	test('a caution is short until it is asked for, and in full after a change of power', () => {
		expect(markup(StepCard, card)).not.toMatch(/<details[^>]* open/);
		expect(markup(StepCard, { ...card, short: false })).toMatch(/<details[^>]* open/);
	});
	test('hazard marks stand at charged or live parts only', () => {
		expect(markup(StepCard, card)).toMatch(/<details class="[^"]*danger/);
		expect(markup(StepCard, { ...card, power: 'unplugged' })).not.toMatch(/<details class="[^"]*danger/);
	});
});

describe('answers', () => {
	const props = {
		answers: [
			{ id: 'a', label: 'Dark', normal: true },
			{ id: 'b', label: 'Red' }
		],
		onanswer: nothing,
		oncannottell: nothing,
		onskip: nothing
	};
	test('each has its digit, and not sure, cannot tell and skip have keys too', () =>
		expect(
			markup(Answers, props)
				.match(/aria-keyshortcuts="."/g)
				?.slice(0, 5)
		).toEqual([
			'aria-keyshortcuts="1"',
			'aria-keyshortcuts="2"',
			'aria-keyshortcuts="n"',
			'aria-keyshortcuts="0"',
			'aria-keyshortcuts="s"'
		]));
	test('with the keys off no digit is promised', () => {
		expect(markup(Answers, { ...props, keys: false })).not.toMatch(/<kbd|aria-keyshortcuts/);
	});
	test('cannot tell asks for the reason', () => expect(words(Answers, props)).toContain('Cannot reach it'));
});

describe('a power gate', () => {
	const gate = {
		power: 'live' as const,
		to: 'unplugged' as const,
		prepared: false,
		limiterPassed: true,
		cautions: [{ ...caution, title: 'Discharge', covers: ['unplugged' as const] }],
		live: false,
		battery: false,
		hasMeter: true,
		refuse: (to: Parameters<typeof powerGate>[1]) => powerGate({ power: 'live', limiterPassed: true }, to),
		onpower: nothing,
		onprepared: nothing,
		onleave: nothing
	};

	test('it asks one thing: switch off first, no readings yet', () => {
		const shown = markup(PowerGate, gate);
		expect(shown).toContain('Switch off and pull the plug');
		expect(shown).not.toContain('<input');
	});
	test('a dead set is proved by two typed readings, by no box to tick', () => {
		const shown = markup(PowerGate, { ...gate, power: 'off' });
		expect(shown.match(/<input/g)).toHaveLength(2);
		expect(shown).not.toMatch(/type="(checkbox|number|radio)"/);
		expect(shown).toContain('Dead is below 10 V.');
	});
	test('the caution of the state stands there in full', () =>
		expect(words(PowerGate, gate)).toContain('Keep the other behind your back.'));
	test('without a meter there is a reason and a way back, and no way on', () => {
		const shown = markup(PowerGate, { ...gate, hasMeter: false });
		expect(shown).toContain('only a meter shows that they are empty');
		expect(shown.match(/<button/g)).toHaveLength(1);
	});
	test('a live chassis is named on the way to the mains: the lamp does not isolate', () =>
		expect(words(PowerGate, { ...gate, power: 'off', to: 'limiter', live: true })).toContain(
			'A lamp does not isolate it'
		));
	test('a battery set is brought up on a limited supply, and no lamp is spoken of', () => {
		const shown = words(PowerGate, { ...gate, power: 'off', to: 'limiter', battery: true });
		expect(shown).toContain('Feed the filaments alone first');
		expect(shown).not.toMatch(/lamp|plug in/i);
	});
	test('the limiter tells what the lamp will do', () =>
		expect(words(PowerGate, { ...gate, power: 'off', to: 'limiter' })).toContain('That is no short.'));
});

test('the power badge tells why full mains are closed, and asks no readings before the gate', () => {
	const refuse = (to: Parameters<typeof powerGate>[1]) =>
		powerGate({ power: 'off', limiterPassed: false }, to);
	const shown = markup(PowerBadge, { power: 'off', refuse, onchoose: nothing });
	expect(shown).toContain('Bring the set up on the limiter first');
	expect(shown.match(/ disabled/g)).toHaveLength(1);
});

describe('the trail', () => {
	test('what was undone stays, struck out and called so', () => {
		const line = { id: '1', text: 'Crackles: yes', when: '10:02', undone: true };
		expect(markup(Trail, { lines: [line] })).toMatch(/<s>Crackles: yes<\/s> <strong>undone<\/strong>/);
	});
	test('an empty one says what will stand in it', () =>
		expect(words(Trail, { lines: [] })).toContain('Each answer, reading and change'));
});

test('nothing more to learn lists what is left with what would settle it, and changes no part that nobody named', () => {
	const left = [
		{
			id: 'a',
			name: 'Trimmer: open',
			word: 'probably',
			number: '65 %',
			settles: 'Measure 3 to 30 pF.',
			steps: [
				{
					id: 'sweep',
					title: 'Sweep the dial',
					inTheWay: 'wants an AM signal generator, which is not on this bench'
				}
			],
			changeable: true
		},
		{
			id: 'b',
			name: 'Something not listed here',
			word: 'unlikely',
			number: '5 %',
			settles: '',
			steps: [],
			changeable: false
		}
	];
	const text = words(NothingLeft, {
		left,
		closed: [],
		onsuspect: nothing,
		ontake: nothing,
		onanother: nothing,
		ongiveup: nothing
	});
	expect(text).toContain('Measure 3 to 30 pF.');
	expect(text).toContain('Sweep the dial: wants an AM signal generator, which is not on this bench');
	expect(text).toContain('It lies outside the list');
	expect(text.match(/Prove and change this part/g)).toHaveLength(1);
});

test('after weeks a set counts as charged, three findings are recalled, and the first move makes it safe', () => {
	const findings = ['one', 'two', 'three', 'four'].map((text) => ({ id: text, text: `finding ${text}` }));
	const text = words(PickUp, {
		title: 'Table set',
		away: '30 days',
		place: 'At the grid',
		findings,
		phases: { begun: ['Trace the fault'], toDo: ['Alignment', 'Report'] },
		onsafe: nothing,
		ongoon: nothing
	});
	expect(text).toContain('Off, not proved dead');
	expect(text).toMatch(/Begun\s+Trace the fault\s+Still to do\s+Alignment; Report/);
	expect(text.match(/finding \w+/g)).toEqual(['finding two', 'finding three', 'finding four']);
	expect(text.indexOf('First make it safe')).toBeLessThan(text.indexOf('Go on where I was'));
});
