import { describe, expect, test } from 'vitest';
import { termsIn } from '../../../src/lib/flow/glossary.ts';
import { shippedLibrary } from '../../library.ts';

const library = shippedLibrary();
const glossary = library.glossary ?? {};
const told = (text: string) =>
	termsIn(glossary, text).map(({ british, american }) => `${british}: ${american}`);

/** British words whose American twin is another word: whoever uses one in a flow finds it in the glossary. From memory. */
const TWINS: Readonly<Record<string, string>> = {
	valve: 'tube',
	anode: 'plate',
	aerial: 'antenna',
	earth: 'ground',
	mains: 'line',
	loudspeaker: 'speaker',
	gram: 'phono',
	HT: 'B+',
	dropper: 'ballast',
	electrolytic: 'filter cap',
	reservoir: 'first filter capacitor',
	smoothing: 'filter',
	wavechange: 'band switch',
	spindle: 'shaft',
	'grub-screw': 'set screw',
	'dial lamp': 'pilot lamp',
	'lamp limiter': 'dim bulb tester',
	'isolating transformer': 'isolation transformer',
	'live chassis': 'hot chassis',
	'tuning indicator': 'tuning eye'
};

/** Everything that a flow shows to its reader. */
const texts = [
	...Object.values(library.steps).flatMap(({ title, text, why }) => [title, text, why]),
	...Object.values(library.flows).flatMap(({ title, about }) => [title, about]),
	...Object.values(library.suspects).flatMap(({ part, failure, proof }) => [part, failure, proof])
].join('\n');

describe('the glossary', () => {
	test('has eighty words or more, each with a sentence', () => {
		const words = Object.values(glossary);
		expect(words.length).toBeGreaterThanOrEqual(80);
		expect(words.filter(({ means }) => !means.endsWith('.'))).toEqual([]);
	});

	test('no British word or form stands in two entries', () => {
		const forms = Object.values(glossary).flatMap(({ british, forms }) => [british, ...forms]);
		const lower = forms.map((form) => form.toLowerCase());
		expect(lower.filter((form, index) => lower.indexOf(form) !== index)).toEqual([]);
	});

	test.each(Object.entries(TWINS))('%s, which flows use, is told as %s in America', (british, american) => {
		expect(texts.toLowerCase()).toContain(british.toLowerCase());
		expect(told(`Look at the ${british} first.`).join()).toContain(american);
	});

	test('each twin stands once, in the order of the text', () => {
		expect(told('Draw the valve. Valves get hot, and the anode of a valve carries HT.')).toEqual([
			'valve: tube',
			'anode: plate',
			'HT: B+'
		]);
	});

	test('"if" in a sentence is no IF, and a word within another is no word', () => {
		expect(told('See if it is earthenware.')).toEqual([]);
	});
});
