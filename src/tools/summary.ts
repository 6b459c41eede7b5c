import { existsSync, readFileSync } from 'node:fs';

/** Adds up the JSON reports of the test runners. */

export interface Tally {
	passed: number;
	failed: number;
}

/** The part of Vitest's JSON report that is counted. */
interface VitestReport {
	numPassedTests: number;
	numFailedTests: number;
	/** False also for a file that could not be loaded, in which no test was counted. */
	success: boolean;
}

/** The part of Playwright's JSON report that is counted. */
interface PlaywrightReport {
	stats: { expected: number; flaky: number; unexpected: number };
	/** What went wrong outside any test. */
	errors: unknown[];
}

/** A run that failed outside its tests counts as one failure more. */
const withTrouble = (tally: Tally, trouble: boolean): Tally =>
	trouble && tally.failed === 0 ? { ...tally, failed: 1 } : tally;

export const countVitest = ({ numPassedTests, numFailedTests, success }: VitestReport): Tally =>
	withTrouble({ passed: numPassedTests, failed: numFailedTests }, !success);

export const countPlaywright = ({ stats, errors }: PlaywrightReport): Tally =>
	withTrouble({ passed: stats.expected + stats.flaky, failed: stats.unexpected }, errors.length > 0);

/** Reads one report; a runner that left none, or an empty one, has failed. */
export function readTally<Report>(file: string, count: (report: Report) => Tally): Tally {
	if (!existsSync(file)) return { passed: 0, failed: 1 };
	const tally = count(JSON.parse(readFileSync(file, 'utf8')) as Report);
	return withTrouble(tally, tally.passed + tally.failed === 0);
}

export const addUp = (tallies: readonly Tally[]): Tally => ({
	passed: tallies.reduce((sum, tally) => sum + tally.passed, 0),
	failed: tallies.reduce((sum, tally) => sum + tally.failed, 0)
});

/** The last line of `npm test`. */
export const summaryLine = ({ passed, failed }: Tally): string => `${passed} passed, ${failed} failed`;

export const allWell = ({ passed, failed }: Tally): boolean => passed > 0 && failed === 0;
