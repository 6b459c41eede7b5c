import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';

/** The next step is searched for in a worker: under the app's own strict rules, without a network, below a sub-path. */

const heading = (page: Page) => page.getByRole('heading', { level: 1 });

test.use({ under: '/radio/bench/' });

/** Titles of the next steps, as each is put off as not possible. */
async function nextSteps(page: Page, count: number): Promise<string[]> {
	await page.goto('./');
	await page.getByRole('button', { name: 'Open the demo' }).click();
	const impossible = page.getByRole('button', { name: 'Not possible here' });
	await impossible.waitFor();
	const titles: string[] = [];
	for (let step = 0; step < count; step++) {
		const title = (await heading(page).textContent()) ?? '';
		titles.push(title);
		await impossible.click();
		await expect(heading(page)).not.toHaveText(title);
	}
	return titles;
}

/** A page does not wait for long; here it does, so that a busy machine shows the whole search too. */
const waitForWhole = (page: Page) =>
	page.addInitScript(() => {
		const plain = window.setTimeout.bind(window);
		const patient = (deed: () => void, delay = 0) =>
			plain(deed, delay >= 100 && delay <= 1000 ? 60_000 : delay);
		Object.assign(window, { setTimeout: patient });
	});

test('the advice comes from the worker, and without workers it is the same', async ({ page, complaints }) => {
	await waitForWhole(page);
	await page.goto('./');
	const started = page.waitForEvent('worker');
	const beside = await nextSteps(page, 3);
	expect((await started).url()).toContain('/workers/advice-worker-');
	await page.addInitScript(() => Reflect.deleteProperty(window, 'Worker'));
	expect(await nextSteps(page, 3)).toEqual(beside);
	expect(complaints).toEqual([]);
});

test('below a sub-path and without a network the worker advises all the same', async ({
	page,
	context,
	complaints
}) => {
	await page.goto('./');
	await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
	await context.setOffline(true);
	const started = page.waitForEvent('worker');
	const steps = await nextSteps(page, 2);
	expect((await started).url()).toContain('/radio/bench/');
	expect(new Set(steps).size).toBe(2);
	expect(complaints).toEqual([]);
});
