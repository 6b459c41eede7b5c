import { describe, expect, test } from 'vitest';
import { readCase } from '../../../src/lib/job/case.ts';
import { scoreCase } from '../../../src/lib/job/score.ts';
import { workThrough } from '../../../src/lib/job/work-through.ts';
import { shippedLibrary } from '../../library.ts';

const library = shippedLibrary();

function caseOf(lines: string) {
	const head = `id: t1
title: A case for the test
source: {title: Written for this test, kind: worked}
plan: am-fm-shared
complaint: Nothing
`;
	const read = readCase('case.yaml', head + lines);
	if (!read.ok) throw new Error(JSON.stringify(read.findings));
	return read.case;
}

function worked(lines: string) {
	const result = workThrough(library, caseOf(lines));
	if (!result.ok) throw new Error(result.problem.message);
	return result.worked;
}

const ALIGNING = 'flow: align-fm\n';

describe('a procedure worked through on a case', () => {
	test('with nothing found every step comes once, and it ends as told', () => {
		const { asked, asTold, opens } = worked(`${ALIGNING}answers: []\nends: through\n`);
		expect(asked).toEqual(expect.arrayContaining(['pointer-marks', 'zero-fm-detector', 'fm-seal']));
		expect([asTold, opens]).toEqual([true, undefined]);
	});

	test('a finding stops it and names the flow that traces it', () => {
		const { asked, opens, asTold } = worked(
			`${ALIGNING}answers:\n  - {step: fm-symmetry, outcome: apart}\nends: {opens: fm-distorted}\n`
		);
		expect([asked.at(-1), opens, asTold]).toEqual(['fm-symmetry', 'fm-distorted', true]);
	});

	test('one that should have gone through and was stopped is not as told', () => {
		const { asTold } = worked(
			`${ALIGNING}answers:\n  - {step: fm-symmetry, outcome: apart}\nends: through\n`
		);
		expect(asTold).toBe(false);
	});

	test('findings in another order than the work are missed', () => {
		const { missed, asTold } = worked(
			`${ALIGNING}answers:\n  - {step: fm-seal, outcome: done}\n  - {step: fm-symmetry, outcome: equal}\nends: through\n`
		);
		expect([missed, asTold]).toEqual([['fm-symmetry'], false]);
	});

	test('a flow that traces a fault ends in a cause, and is told so', () => {
		const played = caseOf('flow: distorted\nanswers: []\nends: through\n');
		expect(workThrough(library, played)).toMatchObject({
			ok: false,
			problem: { path: ['ends'], remedy: expect.stringContaining('cause:') as string }
		});
	});

	test('a procedure has no cause to be ranked', () => {
		expect(scoreCase(library, caseOf(`${ALIGNING}answers: []\nends: through\n`))).toMatchObject({
			ok: false,
			problem: { path: ['ends'] }
		});
	});
});

test('a case comes to a cause or to an end, never to both or to neither', () => {
	const lines = `id: t1
title: A case
source: {title: Written for this test, kind: worked}
plan: am-fm-shared
complaint: Nothing
answers: []
`;
	const cause = 'cause: {suspect: cc-leak, section: output}\n';
	for (const end of ['', `${cause}ends: through\n`])
		expect(readCase('case.yaml', lines + end)).toMatchObject({
			ok: false,
			findings: [{ remedy: expect.stringContaining('ends:') as string }]
		});
	for (const end of [cause, 'ends: through\n'])
		expect(readCase('case.yaml', lines + end)).toMatchObject({ ok: true });
});
