import { expect, test } from 'vitest';
import { asKnown, growingFold } from '../../../src/lib/job/growing.ts';

/** A fold that joins letters, and the letters that it was really asked to join. */
function letters() {
	const fold = growingFold<object, { letter: string }, string>();
	const joined: string[] = [];
	const owner = {};
	const run = (list: { letter: string }[], name = 'plain') =>
		fold(
			owner,
			name,
			list,
			() => name,
			(word, { letter }, place) => {
				joined.push(letter + place);
				return word + letter;
			}
		);
	return { run, joined };
}

const [a, b, c, d] = ['a', 'b', 'c', 'd'].map((letter) => ({ letter })) as [
	{ letter: string },
	{ letter: string },
	{ letter: string },
	{ letter: string }
];

test('only what was added is worked out', () => {
	const { run, joined } = letters();
	expect(run([a, b])).toBe('plainab');
	expect(run([a, b, c])).toBe('plainabc');
	expect(run([a, b, c])).toBe('plainabc');
	expect(joined).toEqual(['a0', 'b1', 'c2']);
});

test('an entry that comes in between is worked out with all that follow', () => {
	const { run, joined } = letters();
	run([a, c]);
	expect(run([a, b, c])).toBe('plainabc');
	expect(joined).toEqual(['a0', 'c1', 'b1', 'c2']);
});

test('a shorter list, another name or an entry that only looks the same keeps nothing that is wrong', () => {
	const { run } = letters();
	run([a, b, c]);
	expect(run([a])).toBe('plaina');
	expect(run([])).toBe('plain');
	expect(run([a, d], 'other ')).toBe('other ad');
	expect(run([{ letter: 'a' }, b])).toBe('plainab');
});

test('of a long list the latest states are kept: one more entry is one step, one far back plays it anew', () => {
	const { run, joined } = letters();
	const long = Array.from({ length: 300 }, (_, index) => ({ letter: String(index % 10) }));
	const word = (list: { letter: string }[]) => `plain${list.map(({ letter }) => letter).join('')}`;
	expect(run(long)).toBe(word(long));
	joined.length = 0;
	const grown = [...long, a];
	expect(run(grown)).toBe(word(grown));
	expect(joined).toEqual(['a300']);
	const late = grown.toSpliced(290, 0, b);
	expect(run(late)).toBe(word(late));
	expect(joined).toHaveLength(1 + 12);
	const early = late.toSpliced(10, 0, c);
	expect(run(early)).toBe(word(early));
	expect(joined).toHaveLength(1 + 12 + 303);
});

test('a log that was read anew has the entries known before as the same objects', () => {
	const known = [{ id: 'bench.1' }, { id: 'bench.2' }];
	const read = asKnown(known, [{ id: 'bench.1' }, { id: 'bench.2' }, { id: 'bench.3' }]);
	expect(read).toEqual([{ id: 'bench.1' }, { id: 'bench.2' }, { id: 'bench.3' }]);
	expect(read[0]).toBe(known[0]);
});
