import { expect, test } from 'vitest';
import { readCase } from '../../../src/lib/job/case.ts';
import { reportCase } from '../../../src/lib/job/play-case.ts';
import { shippedLibrary } from '../../library.ts';

const library = shippedLibrary();

function play(lines: string) {
	const read = readCase(
		'case.yaml',
		`id: t1
title: A case for the test
source: {title: Written for this test, kind: worked}
plan: am-fm-shared
complaint: Something
cause: {suspect: cc-leak, section: output}
${lines}`
	);
	if (!read.ok) throw new Error(JSON.stringify(read.findings));
	return reportCase(library, read.case);
}

interface Told {
	flows: { flow: string; fits: boolean }[];
	complaints: { flow: string; standings: { id: string }[]; state: string }[];
}
function told(lines: string): Told {
	const result = play(lines);
	if (!result.ok) throw new Error(result.problem.message);
	return result.report as Told;
}

test('FM faint and AM good, no flow named: the flow of that complaint comes first', () => {
	const { flows } = told('heard: {fm: weak, am: good}\nanswers: []\n');
	expect(flows[0]).toMatchObject({ flow: 'fm-weak-am-fine', fits: true });
	expect(flows.some(({ fits }) => !fits)).toBe(true);
});

test('nothing heard and no flow named: what to write is said', () => {
	expect(play('answers: []\n')).toMatchObject({
		ok: false,
		problem: { path: ['flow'], remedy: expect.stringContaining('heard') as string }
	});
});

test('two complaints of one set are traced side by side, and an answer counts in both', () => {
	const flows = 'flow: weak-on-am-fine-on-fm\nsecond-flow: hum-on-everything\n';
	const without = told(`${flows}answers: []\n`).complaints;
	const { complaints } = told(`${flows}answers:\n  - {step: settings, outcome: right}\n`);
	expect(complaints.map(({ flow }) => flow)).toEqual(['weak-on-am-fine-on-fm', 'hum-on-everything']);
	for (const i of [0, 1]) expect(complaints[i]?.standings).not.toEqual(without[i]?.standings);
});

test('a second complaint that has no flow is told at its place', () => {
	expect(play('flow: hum-on-everything\nsecond-flow: purple\nanswers: []\n')).toMatchObject({
		ok: false,
		problem: { path: ['second-flow'] }
	});
});
