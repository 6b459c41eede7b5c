import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readCase } from '../../src/lib/job/case.ts';
import { playAll } from '../../src/lib/job/play.ts';
import { scoreCase } from '../../src/lib/job/score.ts';
import { shippedLibrary } from '../library.ts';

// The whole library takes seconds to read: once, outside the time of any test.
const library = shippedLibrary();
const files = readdirSync('tests/cases').filter((name) => name.endsWith('.yaml'));

function load(name: string) {
	const read = readCase(`tests/cases/${name}`, readFileSync(`tests/cases/${name}`, 'utf8'));
	if (!read.ok) throw new Error(JSON.stringify(read.findings, null, '\t'));
	return read.case;
}

describe.each(files.map((file) => ({ file, played: load(file) })))('$file $played.title', ({ played }) => {
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
});

test('each shipped flow that traces a fault is played by at least one case', () => {
	const played = new Set(files.map((file) => load(file).flow));
	const traced = Object.values(library.flows).filter(({ procedure }) => !procedure);
	expect(traced.map(({ id }) => id).filter((id) => !played.has(id))).toEqual([]);
});
