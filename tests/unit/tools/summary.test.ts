import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import {
	addUp,
	allWell,
	countPlaywright,
	countVitest,
	readTally,
	summaryLine
} from '../../../src/tools/summary.ts';

const vitest = (numPassedTests: number, numFailedTests: number, success: boolean) => ({
	numPassedTests,
	numFailedTests,
	success
});
const playwright = (expected: number, unexpected: number, errors: unknown[] = []) => ({
	stats: { expected, unexpected, flaky: 0 },
	errors
});

describe('a report', () => {
	test('gives the passed and failed of Vitest', () =>
		expect(countVitest(vitest(12, 2, false))).toEqual({ passed: 12, failed: 2 }));
	test('gives the passed and failed of Playwright', () =>
		expect(countPlaywright(playwright(8, 1))).toEqual({ passed: 8, failed: 1 }));
	test('counts a test file that could not be loaded', () =>
		expect(countVitest(vitest(12, 0, false))).toEqual({ passed: 12, failed: 1 }));
	test('counts what went wrong outside any browser test', () =>
		expect(countPlaywright(playwright(8, 0, [{ message: 'no server' }]))).toEqual({ passed: 8, failed: 1 }));
	test('counts a browser test which passed only when repeated', () => {
		expect(countPlaywright({ stats: { expected: 1, flaky: 1, unexpected: 0 }, errors: [] }).passed).toBe(2);
	});
});

describe('a report file', () => {
	let folder: string;
	beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'valvetrail-'))));
	afterEach(() => rmSync(folder, { recursive: true }));

	const tally = (report?: object) => {
		const file = join(folder, 'report.json');
		if (report) writeFileSync(file, JSON.stringify(report));
		return readTally(file, countVitest);
	};

	test('that was never written is a failure', () => expect(tally()).toEqual({ passed: 0, failed: 1 }));
	test('of no test at all is a failure', () =>
		expect(tally(vitest(0, 0, true))).toEqual({ passed: 0, failed: 1 }));
	test('is read as it stands', () => expect(tally(vitest(3, 0, true))).toEqual({ passed: 3, failed: 0 }));
});

describe('the last line', () => {
	const total = addUp([
		{ passed: 12, failed: 1 },
		{ passed: 8, failed: 0 }
	]);

	test('adds the runners up', () => expect(summaryLine(total)).toBe('20 passed, 1 failed'));
	test('with a failure in it stops the job', () => expect(allWell(total)).toBe(false));
	test('without any test stops the job', () => expect(allWell({ passed: 0, failed: 0 })).toBe(false));
	test('with passed tests only lets it go on', () => expect(allWell({ passed: 20, failed: 0 })).toBe(true));
});
