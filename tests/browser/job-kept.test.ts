import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import type { Library } from '../../src/lib/flow/library.ts';
import { hashOf } from '../../src/lib/job/snapshot.ts';
import { expect, test } from './bench.ts';
import {
	answer,
	events,
	heading,
	kinds,
	onward,
	openStep,
	power,
	press,
	startJob,
	stepPane,
	takePoint,
	unfold
} from './job-steps.ts';

const stored = (page: Page) =>
	page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');

test('from the second load on a job is begun, answered and opened again without a network', async ({
	page,
	context,
	complaints
}) => {
	await page.goto('./');
	await stored(page);
	await context.setOffline(true);
	await startJob(page, { playing: true });
	await answer(page);
	await page.reload();
	await expect(heading(page)).toHaveText(/^Compare the AM bands/);
	await answer(page);
	expect((await kinds(page)).filter((kind) => kind === 'answered')).toHaveLength(2);
	await page.getByRole('link', { name: 'Sums' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
	expect(complaints).toEqual([]);
});

test('Back leaves the job and Forward comes to the same step; another job opens by its address', async ({
	page
}) => {
	await startJob(page, { playing: true });
	const first = page.url();
	await answer(page);
	await page.goBack();
	await expect(page).toHaveURL(/start/);
	await page.goForward();
	await expect(heading(page)).toHaveText(/^Compare the AM bands/);
	await startJob(page);
	await expect(heading(page)).toHaveText(/^Check every switch/);
	await page.evaluate((hash) => (location.hash = hash), new URL(first).hash);
	await expect(heading(page)).toHaveText(/^Compare the AM bands/);
	await page.evaluate(() => (location.hash = 'nobody'));
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('No job here');
	await page.goBack();
	await expect(heading(page)).toHaveText(/^Compare the AM bands/);
});

test('a page killed between two answers opens at the same step, the set taken as off, nothing lost', async ({
	page,
	context
}) => {
	await startJob(page, { playing: true });
	await answer(page);
	await openStep(page);
	await expect(power(page)).toContainText('Live');
	await answer(page);
	const [url, kept, step] = [page.url(), await events(page), (await heading(page).textContent()) ?? ''];
	await page.close({ runBeforeUnload: false });

	const again = await context.newPage();
	await again.goto(url);
	await expect(heading(again)).toHaveText(step);
	await expect(power(again)).toContainText('Off, not proved dead');
	const now = await events(again);
	expect(now.slice(0, kept.length)).toEqual(kept);
	expect(now.slice(kept.length)).toMatchObject([{ kind: 'power', data: { to: 'off' } }]);
});

test('two tabs on one job: what is answered in one stands in the other', async ({ page, context }) => {
	await startJob(page, { playing: true });
	const second = await context.newPage();
	await second.goto(page.url());
	await expect(heading(second)).toHaveText(/^Check every switch/);
	await answer(page);
	await expect(heading(second)).toHaveText(/^Compare the AM bands/);
	const next = await answer(second);
	await expect(heading(page)).toHaveText(next);
	await unfold(page, 'Trail');
	await expect(page.getByRole('complementary', { name: 'Trail' })).toContainText('Alike everywhere');
	const [here, there] = [await events(page), await events(second)];
	expect(here).toEqual(there);
	expect(new Set(here.map(({ id }) => id)).size).toBe(here.length);
});

test('12..5 is named with its cure beside the field, and stays typed', async ({ page }) => {
	await startJob(page, { playing: true });
	const field = page.getByLabel('DC volts');
	await answer(page);
	await takePoint(page, 'Oscillator grid');
	await expect(heading(page)).toHaveText('Is the oscillator running?');
	await field.fill('12..5');
	await press(page, 'Record');
	await expect(stepPane(page)).toContainText('two points');
	await expect(field).toHaveValue('12..5');
	await expect(field).toBeFocused();
	await expect(field).toHaveAttribute('aria-invalid', 'true');
	const count = (await events(page)).length;
	await field.fill('-12.5');
	await onward(page, () => press(page, 'Record'));
	expect((await events(page)).slice(count)).toMatchObject([
		{ kind: 'answered', data: { outcome: 'runs', reading: { typed: '-12.5', value: -12.5 } } }
	]);
});

const notice = (page: Page) => page.getByRole('region', { name: 'Jobs' }).getByRole('status');
const rows = (page: Page) => page.getByRole('region', { name: 'Jobs' }).getByRole('listitem');
const takeIn = (page: Page, name: string, text: string) =>
	page
		.getByLabel('Job file')
		.setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

/** Save the only job of the list to a file. */
async function saved(page: Page): Promise<string> {
	const waiting = page.waitForEvent('download');
	await page.getByRole('button', { name: /^Save a copy of/ }).click();
	const text = await readFile(await (await waiting).path(), 'utf8');
	await expect(rows(page)).toContainText('copy saved');
	return text;
}

/** Delete the only job of the list. */
async function remove(page: Page): Promise<void> {
	await page.getByRole('button', { name: /^Delete AM/ }).click();
	await page.getByRole('button', { name: 'Delete it' }).click();
	await expect(rows(page)).toHaveCount(0);
}

test('a job is saved, deleted after a warning, and taken in again with every entry', async ({
	page,
	complaints
}) => {
	await startJob(page, { playing: true });
	await answer(page);
	const [url, kept] = [page.url(), await events(page)];
	await page.goto('./');
	const text = await saved(page);
	await page.getByRole('button', { name: /^Delete AM/ }).click();
	await expect(page.getByRole('button', { name: 'Save a copy first' })).toBeVisible();
	await page.getByRole('button', { name: 'Keep it' }).click();
	await expect(rows(page)).toHaveCount(1);
	await remove(page);

	await takeIn(page, 'job.json', text);
	await expect(page).toHaveURL(url);
	await expect(heading(page)).toHaveText(/^Compare the AM bands/);
	expect(await events(page)).toEqual(kept);
	expect(complaints).toEqual([]);
});

test('a foreign file and a torn one are refused with place and reason, and the list stays as it was', async ({
	page
}) => {
	await startJob(page, { playing: true });
	await page.goto('./');
	const text = await saved(page);
	const before = await rows(page).allTextContents();
	await takeIn(page, 'shopping.json', '{"milk": 2}');
	await expect(notice(page)).toContainText(/shopping\.json was not taken in: .+\. .+/);
	const foreign = await notice(page).textContent();
	await takeIn(page, 'torn.json', text.slice(0, text.length / 3));
	await expect(notice(page)).toContainText(/torn\.json was not taken in: line \d+\. .*breaks off/);
	expect(await notice(page).textContent()).not.toBe(foreign);
	expect(await rows(page).allTextContents()).toEqual(before);
});

/** The same job as an older program left it: one step was called otherwise, so its flow has another hash. */
async function olderFile(text: string): Promise<string> {
	const lines = text.trimEnd().split('\n');
	const at = lines.findIndex((line) => line.startsWith('{"flow":'));
	const { flow, library } = JSON.parse(lines[at] ?? '') as { flow: string; library: Library };
	const before = JSON.parse(JSON.stringify(library).replaceAll(NOW, THEN)) as Library;
	lines[at] = JSON.stringify({ flow, library: before });
	return lines.join('\n').replaceAll(flow, await hashOf(before, crypto.subtle));
}
const NOW = 'Compare the AM bands and the whole dial';
const THEN = 'Go through all AM bands';

test('an old job replays from its own flow and says that the flow has changed', async ({ page }) => {
	await startJob(page, { playing: true });
	await answer(page);
	await expect(heading(page)).toHaveText(NOW);
	await page.goto('./');
	const old = await olderFile(await saved(page));
	await remove(page);
	await takeIn(page, 'old.json', old);
	await expect(heading(page)).toHaveText(THEN);
	await expect(page.getByText('has changed since this job opened it')).toBeVisible();
	await answer(page);
	await expect(heading(page)).not.toHaveText(
		/^(Check every switch|Compare the AM bands|Go through all AM bands)/
	);
});

test('a browser that keeps nothing is said to on the page, which works all the same', async ({ page }) => {
	await page.addInitScript(() => {
		indexedDB.open = () => {
			throw new DOMException('refused', 'SecurityError');
		};
	});
	await page.goto('./');
	await expect(notice(page)).toContainText('This browser keeps nothing');
	await startJob(page, { playing: true });
	await expect(page.getByRole('alert')).toContainText('This browser keeps nothing');
	await answer(page);
	await answer(page);
	await expect(heading(page)).not.toHaveText(
		/^(Check every switch|Compare the AM bands|Go through all AM bands)/
	);
});

test('with the device full the entry is said to be lost, and what came before is safe', async ({ page }) => {
	await startJob(page, { playing: true });
	await answer(page);
	await openStep(page);
	const kept = await events(page);
	await page.evaluate(() => {
		const full = () => {
			throw new DOMException('full', 'QuotaExceededError');
		};
		Object.assign(IDBObjectStore.prototype, { add: full, put: full });
	});
	await press(page, /as in a sound set/);
	await expect(page.getByRole('alert')).toContainText('no room left');
	await expect(heading(page)).toHaveText(/^Compare the AM bands/);
	expect(await events(page)).toEqual(kept);
	await page.reload();
	await answer(page);
	await expect(heading(page)).not.toHaveText(
		/^(Check every switch|Compare the AM bands|Go through all AM bands)/
	);
});
