import { describe, expect, test } from 'vitest';
import { readCase } from '../../../src/lib/job/case.ts';
import { playAll, report } from '../../../src/lib/job/play.ts';
import { shippedLibrary } from '../../library.ts';

// The whole library takes seconds to read: once, outside the time of any test.
const library = shippedLibrary();

const head = `id: t1
title: A case for the test
source: {title: Written for this test, kind: worked}
flow: distorted-output-valve-hot
plan: am-fm-shared
complaint: Distorted
cause: {suspect: cc-leak, section: output}
`;

function play(answers: string, before = head) {
	const read = readCase('case.yaml', `${before}answers:\n${answers}`);
	if (!read.ok) throw new Error(JSON.stringify(read.findings));
	const result = playAll(library, read.case);
	return { result, locate: read.document.locate };
}

function problem(answers: string, before = head) {
	const { result, locate } = play(answers, before);
	if (result.ok) throw new Error('The case was played.');
	return { ...result.problem, ...locate(result.problem.path) };
}

describe('a case with a mistake says where, what, and how to mend it', () => {
	test('unknown step', () => {
		expect(problem('  - {step: v-ogg, outcome: zero}\n')).toMatchObject({
			line: 9,
			column: 12,
			message: expect.stringContaining('"v-ogg"'),
			remedy: expect.stringContaining('v-og')
		});
	});

	test('unknown outcome', () => {
		expect(problem('  - {step: v-og, outcome: purple}\n')).toMatchObject({
			line: 9,
			message: expect.stringContaining('"purple"'),
			remedy: expect.stringContaining('positive')
		});
	});

	test('a reading with two points', () => {
		const found = problem('  - {step: v-og, reading: "12..5"}\n');
		expect(found).toMatchObject({ line: 9, message: expect.stringContaining('"12..5"') });
		expect(found.remedy).toMatch(/point/);
	});

	test('a reading in the wrong unit', () => {
		const found = problem('  - {step: v-og, reading: "12 mA"}\n');
		expect(found.message).toContain('DC volts');
		expect(found.remedy).toMatch(/volt|V/);
	});

	test('a reading where nothing is measured', () => {
		expect(problem('  - {step: glance, reading: "12 V"}\n').message).toContain('Nothing is measured');
	});

	test('unknown flow, plan and suspect', () => {
		expect(problem('  []\n', head.replace('distorted-output-valve-hot', 'hums')).message).toContain(
			'no flow "hums"'
		);
		expect(problem('  []\n', head.replace('am-fm-shared', 'trf')).message).toContain(
			'no receiver plan "trf"'
		);
		expect(problem('  - {repair: flux, symptom: cured, part-was: bad}\n').message).toContain('"flux"');
	});

	test('a flow on a plan that lacks its bands', () => {
		const before = head
			.replace('distorted-output-valve-hot', 'weak-on-am-fine-on-fm')
			.replace('am-fm-shared', 'am-acdc-five');
		expect(problem('  []\n', before).message).toContain('does not fit the plan');
	});

	test('an unknown key, with line and column', () => {
		const read = readCase('case.yaml', `${head}answers: []\nmodel: x\n`);
		expect(read).toMatchObject({ ok: false, findings: [{ code: 'unknown-key', line: 9, column: 1 }] });
	});

	test('an answer in no known form', () => {
		const read = readCase('case.yaml', `${head}answers:\n  - {stop: v-og}\n`);
		if (read.ok) throw new Error('It was read.');
		expect(read.findings[0]).toMatchObject({
			line: 9,
			remedy: expect.stringMatching(/Write|Remove|Compare/)
		});
	});
});

describe('the sum of a step', () => {
	test('is filled from earlier readings and the plan, and its verdict is the outcome', () => {
		// 60 V at the audio anode and 30 Mohm into 470 kohm lift the grid to 0.93 V.
		const { result } = play(
			'  - {step: v-af, reading: "60 V"}\n  - {step: cap-leak-coupling, calculate: {R_leak_ohm: 30 M}}\n'
		);
		if (!result.ok) throw new Error(result.problem.message);
		expect(result.play.run.snapshot.context.answers[1]).toMatchObject({
			step: 'cap-leak-coupling',
			outcome: 'leaky'
		});
	});

	test('names the input that is missing', () => {
		const found = problem('  - {step: cap-leak-coupling, calculate: {R_leak_ohm: 30 M}}\n');
		expect(found.message).toMatch(/V_feed|volts/);
	});

	test('a step without a sum says so', () => {
		expect(problem('  - {step: glance, calculate: {}}\n').message).toContain('has no sum');
	});
});

describe('the report of a play', () => {
	const told =
		'  - {step: v-og, reading: "+3 V"}\n  - {step: v-lift, reading: "0 V"}\n  - {step: cap-leak-coupling, reading: "30 Mohm"}\n';

	test('names state, standings, what is cleared, and the next step with its place and outcomes', () => {
		const { result } = play(told);
		if (!result.ok) throw new Error(result.problem.message);
		const told1 = report(result.play);
		expect(told1).toMatchObject({ state: 'choosing', power: 'unplugged', conflicts: [] });
		expect(told1.standings[0]).toMatchObject({ id: 'cc-leak', section: 'Output', word: 'almost certainly' });
		expect(told1.cleared).toContain('loudspeaker');
		expect(told1.step?.outcomes.length).toBeGreaterThan(1);
		expect(told1.step?.why.length).toBeGreaterThan(20);
		expect(told1.repair).toMatchObject({ suspect: 'cc-leak' });
	});

	test('answers that contradict each other are named, with the one to repeat', () => {
		const { result } = play(
			`  - {step: v-og, reading: "+3 V"}\n  - {step: v-lift, reading: "0 V"}\n  - {step: cap-leak-coupling, reading: "50 Gohm"}\n`
		);
		if (!result.ok) throw new Error(result.problem.message);
		expect(report(result.play).conflicts[0]).toMatch(/Take it again/);
	});

	test('a repair that did not cure leaves the part out and the evidence in', () => {
		const { result } = play(`${told}  - {repair: cc-leak, symptom: unchanged, part-was: good}\n`);
		if (!result.ok) throw new Error(result.problem.message);
		const ids = report(result.play).standings.map(({ id }) => id);
		expect(ids).not.toContain('cc-leak');
	});

	test('service volts of the set decide what a cathode reading means', () => {
		const before = `${head}set: {service: {output.cathode: "12 V"}}\n`;
		const { result } = play('  - {step: v-ok, reading: "12 V"}\n', before);
		if (!result.ok) throw new Error(result.problem.message);
		expect(result.play.run.snapshot.context.answers[0]?.outcome).toBe('as-sheet');
	});
});
