import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readCase } from '../../src/lib/job/case.ts';
import { playAll } from '../../src/lib/job/play.ts';
import { scoreCase } from '../../src/lib/job/score.ts';
import { workThrough } from '../../src/lib/job/work-through.ts';
import { shippedLibrary } from '../library.ts';

// The whole library takes seconds to read: once, outside the time of any test.
const library = shippedLibrary();
const files = readdirSync('tests/cases').filter((name) => name.endsWith('.yaml'));

function load(name: string) {
	const read = readCase(`tests/cases/${name}`, readFileSync(`tests/cases/${name}`, 'utf8'));
	if (!read.ok) throw new Error(JSON.stringify(read.findings, null, '\t'));
	return read.case;
}

const cases = files.map((file) => ({ file, played: load(file) }));

describe.each(cases.filter(({ played }) => played.ends === undefined))(
	'$file $played.title',
	({ played }) => {
		test('plays to its end as it is told', () => {
			expect(playAll(library, played)).toMatchObject({ ok: true });
		});

		test('asked blind, the real cause is among the first three', () => {
			const result = scoreCase(library, played);
			if (!result.ok) throw new Error(result.problem.message);
			expect(result.score.rank, JSON.stringify(result.score)).toBeGreaterThan(0);
			expect(result.score.rank, JSON.stringify(result.score)).toBeLessThanOrEqual(3);
		});

		test('nothing is asked twice', () => {
			const result = scoreCase(library, played);
			if (!result.ok) throw new Error(result.problem.message);
			expect(new Set(result.score.asked).size).toBe(result.score.asked.length);
		});
	}
);

describe.each(cases.filter(({ played }) => played.ends !== undefined))(
	'$file $played.title',
	({ played }) => {
		test('worked through on a set that is sound but for this, it ends as it is told', () => {
			const result = workThrough(library, played);
			if (!result.ok) throw new Error(result.problem.message);
			const { opens, missed, asked } = result.worked;
			expect({ opens, missed }).toEqual({
				opens: played.ends === 'through' ? undefined : played.ends?.opens,
				missed: []
			});
			expect(result.worked.asTold).toBe(true);
			expect(new Set(asked).size).toBe(asked.length);
		});
	}
);

test('each shipped flow, procedures too, is played by at least one case', () => {
	const played = new Set(cases.map(({ played: { flow } }) => flow));
	expect(Object.keys(library.flows).filter((id) => !played.has(id))).toEqual([]);
});
