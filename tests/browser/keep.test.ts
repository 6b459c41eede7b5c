import { readFile } from 'node:fs/promises';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';
import { answer, everything, startJob } from './job-steps.ts';
import { jpeg, JPEG } from './picture-files.ts';

const title = (page: Page) => page.getByRole('heading', { level: 1 });
const jobs = (page: Page) => page.getByRole('region', { name: 'Job by job' }).getByRole('listitem');
const found = (page: Page) => page.getByRole('group', { name: 'What the file holds' });
const told = (page: Page) => page.getByRole('region', { name: 'From a file' }).getByRole('status');

async function openKeep(page: Page): Promise<void> {
	await page.goto('./keep/');
	await expect(title(page)).toHaveText('Your data');
	await expect(page.getByRole('heading', { name: 'From a file' })).toBeVisible();
}

async function saveAll(page: Page): Promise<string> {
	const waiting = page.waitForEvent('download');
	await page.getByRole('button', { name: 'Save everything to a file' }).click();
	const download = await waiting;
	expect(download.suggestedFilename()).toMatch(/^valvetrail-\d{4}-\d\d-\d\d\.valvetrail\.json$/);
	await expect(page.getByText(/^Last copy of everything: \d/)).toBeVisible();
	return readFile(await download.path(), 'utf8');
}

const takeIn = (page: Page, text: string, name = 'everything.json') =>
	page
		.getByLabel('Job file')
		.setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

/** Two jobs, one with a picture. */
async function twoJobs(page: Page): Promise<void> {
	await startJob(page, { playing: true });
	await page.getByLabel('Picture this step, file').setInputFiles({
		name: 'bench.jpg',
		mimeType: JPEG,
		buffer: await jpeg(page, 900, 700)
	});
	await expect(page.getByText('Picture kept.')).toBeVisible();
	await answer(page);
	await startJob(page);
}

test('everything goes out as one file and comes into another browser, entry for entry and picture for picture', async ({
	page,
	browser,
	baseURL,
	complaints
}) => {
	await twoJobs(page);
	await openKeep(page);
	await expect(page.getByText('No copy of everything has been saved yet.')).toBeVisible();
	await expect(jobs(page)).toHaveText([/no copy yet/, /no copy yet/]);
	const text = await saveAll(page);
	await expect(jobs(page)).toHaveText([/nothing entered since/, /nothing entered since/]);
	const before = await everything(page);
	expect(before.pictures).toHaveLength(1);

	const context = await browser.newContext({ baseURL: baseURL! });
	const other = await context.newPage();
	await openKeep(other);
	await takeIn(other, text);
	await expect(found(other)).toContainText('2 jobs and 1 picture: 2 are new');
	await other.getByRole('button', { name: 'Take in all 2' }).click();
	await expect(told(other)).toHaveText('2 jobs taken in.');
	expect(await everything(other)).toEqual(before);
	await jobs(other).first().waitFor();
	expect((await new AxeBuilder({ page: other }).analyze()).violations).toEqual([]);
	await context.close();
	expect(complaints).toEqual([]);
});

test('a file taken in where its jobs are already: only what differs, or all as copies; nothing is overwritten', async ({
	page
}) => {
	await twoJobs(page);
	await openKeep(page);
	const text = await saveAll(page);
	const before = await everything(page);
	await takeIn(page, text);
	await expect(found(page)).toContainText('2 are here already with the same entries');
	await found(page).getByRole('button', { name: 'Take in nothing' }).click();
	await expect(found(page)).toBeHidden();
	expect(await everything(page)).toEqual(before);
	await takeIn(page, text);
	await found(page).getByRole('button', { name: 'Take in all 2, as copies' }).click();
	await expect(told(page)).toHaveText('2 jobs taken in, 2 of them as copies of jobs that are here.');
	await expect(jobs(page)).toHaveCount(4);
	const after = await everything(page);
	expect(after.events).toHaveLength(2 * before.events.length);
	expect(after.events).toEqual(expect.arrayContaining(before.events));
	expect(after.pictures).toEqual(before.pictures);
});

test('a broken file is refused with line and reason, and what is here stays as it is', async ({ page }) => {
	await twoJobs(page);
	await openKeep(page);
	const text = await saveAll(page);
	const before = await everything(page);
	const lines = text.trimEnd().split('\n');
	const picture = lines.findIndex((line) => line.startsWith('{"picture":'));
	const page2 = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"></svg>').toString(
		'base64'
	);
	const wrong = lines.with(
		picture,
		JSON.stringify({ ...(JSON.parse(lines[picture] ?? '') as object), data: page2 })
	);
	for (const [broken, words] of [
		[lines.slice(0, -1).join('\n'), /everything\.json was not taken in: line \d+\. The file breaks off here/],
		[text.slice(0, text.length / 2), /was not taken in: line \d+/],
		[wrong.join('\n'), /was not taken in: picture sha256:.*neither a WebP nor a JPEG/],
		['{"milk": 2}', /was not taken in: the beginning\. This is not a job/]
	] as const) {
		await takeIn(page, broken);
		await expect(told(page)).toContainText(words);
		expect(await everything(page)).toEqual(before);
	}
});

test('a file that the device has no room for is refused before it is read', async ({ page }) => {
	await page.addInitScript(() => {
		StorageManager.prototype.estimate = () => Promise.resolve({ quota: 11e6, usage: 10e6 });
	});
	await startJob(page);
	await openKeep(page);
	const before = await everything(page);
	await takeIn(page, 'x'.repeat(3_000_000));
	await expect(told(page)).toContainText(
		'everything.json was not taken in: it has 3 MB, and the browser gives this page 1 MB more.'
	);
	expect(await everything(page)).toEqual(before);
});

test('a browser that can share is asked for its way; what is shared counts as a copy', async ({ page }) => {
	await page.addInitScript(() => {
		Object.assign(navigator, {
			canShare: ({ files }: { files: File[] }) => files[0]?.name.endsWith('.txt'),
			share: ({ files }: { files: File[] }) => {
				Object.assign(window, { shared: files[0]?.name });
				return Promise.resolve();
			}
		});
	});
	await startJob(page);
	await openKeep(page);
	await page.getByRole('button', { name: 'Save everything to a file' }).click();
	await expect(page.getByText(/The file is ready: 1 job/)).toBeVisible();
	await expect(page.getByText('No copy of everything has been saved yet.')).toBeVisible();
	await page.getByRole('button', { name: 'Share the file' }).click();
	await expect(page.getByText(/^Last copy of everything: \d/)).toBeVisible();
	expect(await page.evaluate(() => (window as { shared?: string }).shared)).toMatch(
		/\.valvetrail\.json\.txt$/
	);
});

test('a job that has gone on for weeks without a copy is told in one line, which can be put away', async ({
	page
}) => {
	const start = new Date('2026-03-01T10:00:00Z');
	await page.clock.install({ time: start });
	await startJob(page);
	const line = page.getByRole('link', { name: 'One job has entries that no copy holds' });
	const list = page.getByRole('region', { name: 'Jobs' }).getByRole('listitem');
	await page.goto('./');
	await expect(list).toHaveCount(1);
	await expect(line).toBeHidden();
	await page.clock.setFixedTime(new Date('2026-03-20T10:00:00Z'));
	await page.goto('./');
	await expect(line).toBeVisible();
	await page.getByRole('button', { name: 'Not now' }).click();
	await expect(line).toBeHidden();
	await page.clock.setFixedTime(new Date('2026-03-25T10:00:00Z'));
	await page.goto('./');
	await expect(list).toHaveCount(1);
	await expect(line).toBeHidden();
	await page.clock.setFixedTime(new Date('2026-05-01T10:00:00Z'));
	await page.goto('./');
	await line.click();
	await expect(title(page)).toHaveText('Your data');
});

test('nothing of the page runs off a screen of 320 px, and axe finds nothing by night', async ({ page }) => {
	await page.emulateMedia({ colorScheme: 'dark' });
	await startJob(page);
	await page.setViewportSize({ width: 320, height: 640 });
	await openKeep(page);
	await jobs(page).first().waitFor();
	expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
	expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
});
