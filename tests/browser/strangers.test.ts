import { open } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { FORMAT, FileWriter, VERSION } from '../../src/lib/job/file.ts';
import { MOST_EVENTS } from '../../src/lib/job/file-limits.ts';
import type { EventData, JobEvent } from '../../src/lib/job/events.ts';
import { expect, test } from './bench.ts';
import { everything, heading, startJob, unfold } from './job-steps.ts';
import { logOf } from './seed-jobs.ts';

/** Files and pictures from somebody who means harm: they run nothing, reach nothing, and leave everything as it was. */

const WHEN = '2026-02-03T04:05:06.000Z';
const SCRIPT = '<img src=x onerror="window.ran=1"><script>window.ran=1</script>';
const HEAD = `${JSON.stringify({ format: FORMAT, version: VERSION, exported: WHEN })}\n`;

const told = (page: Page) => page.getByRole('region', { name: 'From a file' }).getByRole('status');

const intake = (title: string): EventData['intake'] => ({
	title,
	plan: 'am-fm-shared',
	symptom: { am: 'weak', fm: 'good' },
	history: [],
	instruments: ['meter'],
	playing: true
});

async function fileOf(logs: readonly JobEvent[][]): Promise<string> {
	const writer = new FileWriter({ flow: async () => undefined, picture: async () => undefined });
	const jobs: string[] = [];
	for (const log of logs) jobs.push(await writer.job(log));
	return [writer.head(WHEN), ...jobs, writer.end()].join('');
}

const oneJob = (title: string) =>
	fileOf([
		logOf(
			'stranger',
			[
				['started', {}],
				['intake', intake(title)],
				['noted', { text: SCRIPT }]
			],
			1
		)
	]);

const give = (page: Page, text: string) =>
	page
		.getByLabel('Job file')
		.setInputFiles({ name: 'stranger.json', mimeType: 'application/json', buffer: Buffer.from(text) });

/** One job of our own, and the page that takes files in; every address that is asked for is noted. */
async function ready(page: Page): Promise<string[]> {
	const asked: string[] = [];
	page.on('request', (request) => asked.push(request.url()));
	await startJob(page, { playing: true });
	await page.goto('./keep/');
	await expect(page.getByRole('heading', { name: 'Job by job' })).toBeVisible();
	asked.length = 0;
	return asked;
}

const outside = (asked: readonly string[], baseURL: string | undefined) =>
	asked.filter((url) => !url.startsWith(baseURL ?? '') && !/^(blob|data):/.test(url));

test('a script in title and note is text in list, job, trail, report and question; nothing runs, nothing is fetched', async ({
	page,
	baseURL,
	complaints
}) => {
	const asked = await ready(page);
	await give(page, await oneJob(SCRIPT));
	await expect(page).toHaveURL(/\/job\/?#stranger$/);
	await expect(heading(page)).toBeVisible();
	await expect(page.getByText(SCRIPT).first()).toBeVisible();
	await unfold(page, 'Trail');
	await expect(page.getByText(`Note: ${SCRIPT}`)).toBeVisible();
	const read = async () => {
		await expect(page.getByRole('heading', { level: 1 }).first()).toBeVisible();
		expect(await page.locator('main img, main script').count()).toBe(0);
	};
	await page.getByRole('link', { name: 'Report for print' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(SCRIPT);
	await read();
	await page.goto('./ask/#stranger');
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Ask others');
	await read();
	await page.goto('./');
	await expect(page.getByRole('link', { name: SCRIPT }).first()).toBeVisible();
	await read();
	expect(await page.evaluate(() => (window as { ran?: number }).ran)).toBeUndefined();
	expect(outside(asked, baseURL)).toEqual([]);
	expect(complaints).toEqual([]);
});

test('evil job files are refused whole, each with place, reason and cure', async ({ page, baseURL }) => {
	const asked = await ready(page);
	const before = await everything(page);
	const good = await oneJob('Table set');
	const lines = good.trimEnd().split('\n');
	const note = lines.findIndex((line) => line.includes('"noted"'));
	const withLine = (line: string) => lines.with(note, line).join('\n');
	const svg = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" onload="window.ran=1"/>').toString(
		'base64'
	);
	const picture = JSON.stringify({ picture: `sha256:${'0'.repeat(64)}`, type: 'image/webp', data: svg });
	for (const [file, words] of [
		[
			withLine(lines[note]!.replace('{"text":', '{"__proto__":{"ran":1},"text":')),
			/line 5\. It has a key "__proto__"/
		],
		[
			[lines[0], picture, ...lines.slice(1)].join('\n'),
			/picture sha256:0+\. It is neither a WebP nor a JPEG/
		],
		[`${HEAD}${'['.repeat(1_000_000)}`, /line 2\. It holds more than 40 brackets within each other/],
		[withLine(lines[note]!.replace('"noted"', '"ran"')), /knows no entry of the kind "ran"/],
		[withLine(`{"event":${'{"a":'.repeat(60)}1${'}'.repeat(60)}}`), /more than 40 brackets/],
		[`${HEAD}"${'x'.repeat(9_000_000)}"\n`, /line 2\. .*longer than any/],
		['<html><script>window.ran=1</script></html>', /damaged|not a job/]
	] as const) {
		await give(page, file);
		await expect(told(page)).toContainText('stranger.json was not taken in:');
		await expect(told(page)).toContainText(words);
		expect(await everything(page)).toEqual(before);
	}
	expect(
		await page.evaluate(() => (window as { ran?: number }).ran ?? ({} as { ran?: number }).ran)
	).toBeUndefined();
	expect(outside(asked, baseURL)).toEqual([]);
});

test('a job of a million entries is refused at the limit', async ({ page }, info) => {
	await ready(page);
	const before = await everything(page);
	const [first] = logOf('flood', [['started', {}]], 1);
	const line = (seq: number) =>
		`{"event":{"id":"f.${seq}","job":"flood","bench":"f","seq":${seq},"parents":["f.${seq - 1}"],"kind":"noted","data":{"text":"x"},"at":"${WHEN}"}}\n`;
	const path = info.outputPath('flood.json');
	const file = await open(path, 'w');
	await file.write(
		`${HEAD}{"job":"flood"}\n${JSON.stringify({ event: { ...first, id: 'f.1', bench: 'f' } })}\n`
	);
	for (let from = 2; from < 1e6; from += 50_000)
		await file.write(Array.from({ length: 50_000 }, (_, index) => line(from + index)).join(''));
	await file.close();
	await page.getByLabel('Job file').setInputFiles(path);
	await expect(told(page)).toContainText(`more than ${MOST_EVENTS} entries in one job`, { timeout: 60_000 });
	expect(await everything(page)).toEqual(before);
});

test('a file of 500 MB is refused without being read into memory', async ({ page }, info) => {
	await ready(page);
	const before = await everything(page);
	for (const [name, head, words] of [
		['old.json', '{"format":"other"', 'It is larger than 20 MB'],
		['new.json', HEAD, 'longer than any that this program writes']
	] as const) {
		const path = info.outputPath(name);
		const file = await open(path, 'w');
		await file.write(head);
		// Empty to its end: it takes no room on the disk of this machine.
		await file.truncate(500e6);
		await file.close();
		await page.getByLabel('Job file').setInputFiles(path);
		await expect(told(page)).toContainText(`${name} was not taken in:`, { timeout: 60_000 });
		await expect(told(page)).toContainText(words);
		expect(await everything(page)).toEqual(before);
	}
});

test('pictures that are none, or far too large, are refused beside the button, and nothing is kept', async ({
	page
}, info) => {
	await startJob(page, { playing: true });
	const before = await everything(page);
	const pane = page.getByRole('region', { name: 'Pictures of this step' });
	const choose = page.getByLabel('Picture this step, file');
	const svg =
		'<svg xmlns="http://www.w3.org/2000/svg" onload="window.ran=1"><script>window.ran=1</script></svg>';
	await choose.setInputFiles({ name: 'x.webp', mimeType: 'image/webp', buffer: Buffer.from(svg) });
	await expect(pane.getByRole('alert')).toContainText('cannot read the file as a picture');
	// A head that claims 65,000 by 65,000 pixels, and nothing behind it.
	const claim = Buffer.from('iVBORw0KGgoAAAANSUhEUgAA/egAAP3oCAIAAAA=', 'base64');
	await choose.setInputFiles({ name: 'x.png', mimeType: 'image/png', buffer: claim });
	await expect(pane.getByRole('alert')).toContainText('cannot read the file as a picture');
	const path = info.outputPath('huge.jpg');
	const file = await open(path, 'w');
	await file.truncate(500e6);
	await file.close();
	await choose.setInputFiles(path);
	await expect(pane.getByRole('alert')).toContainText('more than 60 MB. Take the picture with fewer pixels');
	expect(await page.evaluate(() => (window as { ran?: number }).ran)).toBeUndefined();
	expect(await everything(page)).toEqual(before);
});
