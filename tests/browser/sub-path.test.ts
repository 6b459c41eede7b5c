import { expect, test } from './bench.ts';

test.use({ under: '/radio/bench/' });

test('below a sub-path the flows open, and open again without a network', async ({
	page,
	context,
	complaints
}) => {
	await page.goto('./');
	await page.getByRole('main').getByRole('list').getByRole('link').first().click();
	await expect(page).toHaveURL(/\/radio\/bench\/flow\/[a-z0-9-]+\/$/);
	await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
	await context.setOffline(true);
	await page.reload();
	await expect(page.getByRole('heading', { name: 'Sources' })).toBeVisible();
	await page.getByRole('link', { name: 'All symptoms' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('What does the set do?');
	expect(complaints).toEqual([]);
});
