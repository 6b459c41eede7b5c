import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** Finds a Chromium for the browser tests, or installs one. */

/** What a Chromium is started with: no sandbox for root, which has none, and no network of its own. */
export const launchArgs = (): string[] => [
	...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
	'--disable-gpu',
	'--disable-quic',
	'--disable-background-networking',
	'--disable-component-update',
	'--disable-sync',
	'--no-first-run'
];

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'microsoft-edge'];

const USUAL_PLACES = [
	'/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
	'/Applications/Chromium.app/Contents/MacOS/Chromium',
	'/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
	'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
	'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
	'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe'
];

export type Found = { ok: true; path: string } | { ok: false; hint: string };

/** What the search looks at, so that a test can make it up. */
export interface Surroundings {
	env: Record<string, string | undefined>;
	runs: (file: string) => boolean;
	/** Where Playwright would keep its own browser. */
	playwright: () => string;
}

function runs(file: string): boolean {
	try {
		accessSync(file, constants.X_OK);
		return true;
	} catch {
		return false;
	}
}

function onPath({ env, runs }: Surroundings): string | undefined {
	const folders = (env['PATH'] ?? '').split(delimiter).filter(Boolean);
	return NAMES.flatMap((name) => folders.map((folder) => join(folder, name))).find(runs);
}

/** A browser that is already there; `undefined` where there is none. */
export function findBrowser(around: Surroundings): Found | undefined {
	const named = around.env['CHROMIUM_PATH'];
	if (named) {
		if (around.runs(named)) return { ok: true, path: named };
		return { ok: false, hint: `CHROMIUM_PATH names ${named}, which cannot be run. Correct it or unset it.` };
	}
	const path = onPath(around) ?? USUAL_PLACES.find(around.runs) ?? [around.playwright()].find(around.runs);
	return path ? { ok: true, path } : undefined;
}

const succeeds = (command: string, args: string[], minutes: number): boolean =>
	spawnSync(command, args, {
		stdio: ['ignore', 'inherit', 'inherit'],
		timeout: minutes * 60_000,
		env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
		shell: process.platform === 'win32'
	}).status === 0;

/** Debian's own package first: networks that refuse a download often have a package mirror. */
function installBrowser(): void {
	const isRoot = process.getuid?.() === 0;
	console.log('No Chromium found: installing one for the browser tests ...');
	const byPackage =
		isRoot &&
		existsSync('/usr/bin/apt-get') &&
		succeeds('apt-get', ['update'], 5) &&
		succeeds('apt-get', ['install', '-y', '--no-install-recommends', 'chromium'], 15);
	if (!byPackage) succeeds('npx', ['playwright', 'install', 'chromium'], 10);
}

/** A browser to test with, installed if need be. */
export async function readyBrowser(): Promise<Found> {
	const { chromium } = await import('@playwright/test');
	const around: Surroundings = { env: process.env, runs, playwright: () => chromium.executablePath() };
	const found = findBrowser(around);
	if (found) return found;
	installBrowser();
	const hint =
		'No Chromium was found and none could be installed. Install Chromium or Chrome, or point CHROMIUM_PATH at one.';
	return findBrowser(around) ?? { ok: false, hint };
}
