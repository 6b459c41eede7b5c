import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';

const stored = (page: Page) =>
	page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');

test('after one visit every flow opens without a network', async ({ page, context, complaints }) => {
	// Some forty pages, one after the other.
	test.slow();
	await page.goto('./');
	await stored(page);
	await context.setOffline(true);
	await page.reload();
	const addresses = await page
		.getByRole('main')
		.getByRole('list')
		.getByRole('link')
		.evaluateAll((links) => links.map((link) => (link as HTMLAnchorElement).href));
	expect(addresses.length).toBeGreaterThan(0);
	for (const address of addresses) {
		await page.goto(address);
		await expect(page.getByRole('heading', { name: 'Sources' })).toBeVisible();
	}
	expect(complaints).toEqual([]);
});

test('without a network a wrong address is answered by the app, not by the browser', async ({
	page,
	context
}) => {
	await page.goto('./');
	await stored(page);
	await context.setOffline(true);
	await page.goto('./flow/no-such-flow/');
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('There is no such page');
});
