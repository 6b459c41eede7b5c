import { defineConfig, devices } from '@playwright/test';
import { launchArgs, readyBrowser } from '../../src/tools/browser.ts';

const browser = await readyBrowser();
if (!browser.ok) throw new Error(browser.hint);

const launchOptions = { executablePath: browser.path, args: launchArgs() };

export default defineConfig({
	testDir: '.',
	outputDir: '../../test-results',
	// For a machine of two cores that has other work: a page is never hurried, only waited for.
	timeout: 120_000,
	expect: { timeout: 15_000 },
	forbidOnly: true,
	// A page that lost a race on a loaded machine is tried once more, and listed as flaky.
	retries: 1,
	fullyParallel: true,
	workers: '100%',
	projects: [
		{ name: 'desktop', use: { ...devices['Desktop Chrome'], launchOptions } },
		{ name: 'phone', use: { ...devices['Pixel 7'], launchOptions } }
	]
});
