import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { readyBrowser } from './browser.ts';
import {
	addUp,
	allWell,
	countPlaywright,
	countVitest,
	readTally,
	summaryLine,
	type Tally
} from './summary.ts';

/** Builds the app, runs every test and ends with one line that counts them. */

const ROOT = join(import.meta.dirname, '../..');
const REPORTS = join(ROOT, '.reports');
const FAILED: Tally = { passed: 0, failed: 1 };

/** Runs a package's command in this terminal; whether it ended well. */
function run(bin: string, args: string[], env: Record<string, string> = {}): boolean {
	const { status } = spawnSync(process.execPath, [join(ROOT, 'node_modules', bin), ...args], {
		cwd: ROOT,
		stdio: 'inherit',
		env: { ...process.env, ...env }
	});
	return status === 0;
}

/** A runner which ends badly although its report is clean has failed all the same. */
const judge = (endedWell: boolean, tally: Tally): Tally =>
	endedWell || tally.failed > 0 ? tally : { ...tally, failed: 1 };

function runVitest(): Tally {
	const report = join(REPORTS, 'vitest.json');
	const args = ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
	return judge(run('vitest/vitest.mjs', args), readTally(report, countVitest));
}

/** The browser tests look at the built app; without one they have failed. */
async function runPlaywright(isBuilt: boolean): Promise<Tally> {
	if (!isBuilt) return FAILED;
	const browser = await readyBrowser();
	if (!browser.ok) {
		console.error(browser.hint);
		return FAILED;
	}
	const report = join(REPORTS, 'playwright.json');
	const env = { CHROMIUM_PATH: browser.path, PLAYWRIGHT_JSON_OUTPUT_FILE: report };
	const args = ['test', '-c', 'tests/browser/playwright.config.ts', '--reporter=list,json'];
	return judge(run('@playwright/test/cli.js', args, env), readTally(report, countPlaywright));
}

/** The advice against its goals, those that are the same on every machine: one test more. */
const runBench = (): Tally =>
	run('tsx/dist/cli.mjs', ['tests/bench/bench.ts', '--short']) ? { passed: 1, failed: 0 } : FAILED;

rmSync(REPORTS, { recursive: true, force: true });
mkdirSync(REPORTS, { recursive: true });
const isBuilt = run('vite/bin/vite.js', ['build']);
const total = addUp([runVitest(), runBench(), await runPlaywright(isBuilt)]);
console.log(summaryLine(total));
process.exitCode = allWell(total) ? 0 : 1;
