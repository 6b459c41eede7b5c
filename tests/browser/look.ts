/**
 * `npm run look`: a picture of every page of a job, on a phone, a tablet and a desktop, by day and by night, for the
 * eye. They go to `.reports/look/`, which git leaves out.
 */
import { once } from 'node:events';
import { mkdir, rm } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { chromium, type Browser } from '@playwright/test';
import { launchArgs, readyBrowser } from '../../src/tools/browser.ts';
import { staticServer } from '../../src/tools/static-server.ts';
import { throughAllPages } from './job-steps.ts';

const SCREENS = [
	{ width: 360, height: 740, phone: true },
	{ width: 820, height: 1180, phone: true },
	{ width: 1440, height: 900, phone: false }
];
const ROOT = join(import.meta.dirname, '../..');
const FOLDER = join(ROOT, '.reports/look');

async function picture(browser: Browser, baseURL: string, screen: (typeof SCREENS)[number], night: boolean) {
	const { width, height, phone } = screen;
	const context = await browser.newContext({
		baseURL,
		viewport: { width, height },
		hasTouch: phone,
		isMobile: phone,
		colorScheme: night ? 'dark' : 'light'
	});
	const page = await context.newPage();
	let count = 0;
	await throughAllPages(page, async (name) => {
		const file = [
			String(++count).padStart(2, '0'),
			name.replaceAll(' ', '-'),
			width,
			night ? 'night' : 'day'
		];
		await page.screenshot({ path: join(FOLDER, `${file.join('-')}.png`), fullPage: true });
	});
	await context.close();
}

const found = await readyBrowser();
if (!found.ok) throw new Error(found.hint);
await rm(FOLDER, { recursive: true, force: true });
await mkdir(FOLDER, { recursive: true });
const server = staticServer(join(ROOT, 'build'), '/').listen(0, '127.0.0.1');
await once(server, 'listening');
const browser = await chromium.launch({ executablePath: found.path, args: launchArgs() });
const address = `http://localhost:${(server.address() as AddressInfo).port}/`;
for (const screen of SCREENS)
	for (const night of [false, true]) await picture(browser, address, screen, night);
await browser.close();
server.closeAllConnections();
server.close();
process.stdout.write(`${FOLDER}\n`);
