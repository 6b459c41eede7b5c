import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { readyBrowser } from './browser.ts';
import { addUp, allWell, countPlaywright, countVitest, readTally, summaryLine, type Tally } from './summary.ts';

/** Runs every test on the built app and ends with one line that counts them. */

const ROOT = join(import.meta.dirname, '../..');
const REPORTS = join(ROOT, '.reports');

/** A runner which stops with an error although its report is clean has failed all the same. */
function run(bin: string, args: string[], env: Record<string, string>, tally: () => Tally): Tally {
	const { status } = spawnSync(process.execPath, [join(ROOT, 'node_modules', bin), ...args], {
		cwd: ROOT,
		stdio: 'inherit',
		env: { ...process.env, ...env }
	});
	const counted = tally();
	return status !== 0 && counted.failed === 0 ? { ...counted, failed: 1 } : counted;
}

function runVitest(): Tally {
	const report = join(REPORTS, 'vitest.json');
	const args = ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
	return run('vitest/vitest.mjs', args, {}, () => readTally(report, countVitest));
}

async function runPlaywright(): Promise<Tally> {
	const browser = await readyBrowser();
	if (!browser.ok) {
		console.error(browser.hint);
		return { passed: 0, failed: 1 };
	}
	const report = join(REPORTS, 'playwright.json');
	const env = { CHROMIUM_PATH: browser.path, PLAYWRIGHT_JSON_OUTPUT_FILE: report };
	const args = ['test', '-c', 'tests/browser/playwright.config.ts', '--reporter=list,json'];
	return run('@playwright/test/cli.js', args, env, () => readTally(report, countPlaywright));
}

rmSync(REPORTS, { recursive: true, force: true });
mkdirSync(REPORTS, { recursive: true });
const total = addUp([runVitest(), await runPlaywright()]);
console.log(summaryLine(total));
process.exitCode = allWell(total) ? 0 : 1;
