import { existsSync, mkdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Browser } from '@playwright/test';
import { launchArgs, readyBrowser } from './browser.ts';
import { served } from './static-server.ts';

/** Draws the pictures of the README from the demo, and the icons from `static/icon.svg`. Needs a built app. */

const ROOT = join(import.meta.dirname, '../..');
const BUILD = join(ROOT, 'build');
const PICTURES = join(ROOT, 'tests/browser/pictures');
/** A README is read over thin lines too. Our own choice. */
const LARGEST_BYTES = 150_000;

const SHOTS = [
	{ name: 'phone', viewport: { width: 360, height: 740 }, deviceScaleFactor: 1, isMobile: true },
	// Drawn smaller, as the README shows it.
	{ name: 'desktop', viewport: { width: 1440, height: 900 }, deviceScaleFactor: 0.6, isMobile: false }
];

/** `fill` is the share of the edge that the drawing takes: what is cut round by the system keeps clear of its edge. */
const ICONS = [
	{ name: 'icon-192', edge: 192, fill: 1 },
	{ name: 'icon-512', edge: 512, fill: 1 },
	{ name: 'icon-maskable-512', edge: 512, fill: 0.72 }
];

type Shot = (typeof SHOTS)[number];

async function photograph(browser: Browser, address: string, shot: Shot): Promise<string> {
	const context = await browser.newContext({ ...shot, colorScheme: 'light', locale: 'en-GB' });
	const page = await context.newPage();
	await page.goto(address);
	await page.getByRole('button', { name: 'Open the demo' }).click();
	await page.waitForURL(/\/job\/#/);
	await page.getByRole('region', { name: 'Step', exact: true }).getByRole('heading', { level: 1 }).waitFor();
	await page.evaluate(() => document.fonts.ready.then(() => scrollTo(0, 0)));
	const path = join(PICTURES, `${shot.name}.png`);
	await page.screenshot({ path, animations: 'disabled', caret: 'hide' });
	await context.close();
	return path;
}

async function drawIcon(browser: Browser, { name, edge, fill }: (typeof ICONS)[number]): Promise<string> {
	const page = await browser.newPage({ viewport: { width: edge, height: edge } });
	const svg = readFileSync(join(ROOT, 'static/icon.svg'), 'utf8');
	const ground = fill < 1 ? '#f6f1e6' : 'transparent';
	const size = `width:${edge * fill}px;height:${edge * fill}px`;
	await page.setContent(
		`<style>body{margin:0;display:grid;place-items:center;height:100vh;background:${ground}}svg{${size}}</style>${svg}`
	);
	const path = join(ROOT, 'static', `${name}.png`);
	await page.screenshot({ path, omitBackground: true });
	await page.close();
	return path;
}

async function drawAll(browser: Browser): Promise<string[]> {
	const pictures = await served(BUILD, async (address) => {
		const paths: string[] = [];
		for (const shot of SHOTS) paths.push(await photograph(browser, address, shot));
		return paths;
	});
	for (const icon of ICONS) pictures.push(await drawIcon(browser, icon));
	return pictures;
}

async function main(): Promise<number> {
	if (!existsSync(join(BUILD, 'index.html'))) return refuse('There is no built app yet. Run: npm run build');
	const found = await readyBrowser();
	if (!found.ok) return refuse(found.hint);
	mkdirSync(PICTURES, { recursive: true });
	const browser = await chromium.launch({ executablePath: found.path, args: launchArgs() });
	const paths = await drawAll(browser).finally(() => browser.close());
	for (const path of paths) console.log(`${statSync(path).size} bytes  ${path.slice(ROOT.length + 1)}`);
	const large = paths.filter((path) => statSync(path).size > LARGEST_BYTES);
	return large.length === 0 ? 0 : refuse(`Over ${LARGEST_BYTES} bytes: ${large.join(', ')}`);
}

function refuse(hint: string): number {
	console.error(hint);
	return 1;
}

process.exitCode = await main();
