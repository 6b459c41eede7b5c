import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';

const flowLinks = (page: Page) => page.getByRole('main').getByRole('list').getByRole('link');

/** Opens the first flow of the list and answers with its title. */
async function openFirstFlow(page: Page): Promise<string> {
	const link = flowLinks(page).first();
	const title = (await link.textContent()) ?? '';
	await link.click();
	await expect(page).toHaveURL(/\/flow\/[a-z0-9-]+\/$/);
	return title;
}

test('the first page lists what a set does, with the number of suspects and steps', async ({ page }) => {
	await page.goto('./');
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('What does the set do?');
	expect(await flowLinks(page).count()).toBeGreaterThan(0);
	const row = page.getByRole('main').getByRole('listitem').first();
	await expect(row).toContainText(/\d+ suspects?/);
	await expect(row).toContainText(/\d+ steps?/);
});

test('codes and licensed practice are named on the first page', async ({ page }) => {
	await page.goto('./');
	await expect(page.getByRole('complementary')).toContainText('licensed practice come first');
});

test('a symptom opens its flow with steps, suspects and sources', async ({ page, complaints }) => {
	await page.goto('./');
	const title = await openFirstFlow(page);
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(title);
	await expect(page.getByRole('heading', { name: /^\d+ steps?$/ })).toBeVisible();
	await expect(page.getByRole('heading', { name: /^\d+ suspects?$/ })).toBeVisible();
	await expect(page.getByRole('heading', { name: 'Sources' })).toBeVisible();
	expect(complaints).toEqual([]);
});

test('a flow page loaded by its address holds its text before any script runs', async ({ page, request }) => {
	await page.goto('./');
	const title = await openFirstFlow(page);
	expect(await (await request.get(page.url())).text()).toContain(`<title>${title}`);
});

test('an address that leads nowhere says so and shows the way back', async ({ page }) => {
	await page.goto('./flow/no-such-flow/');
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('There is no such page');
	await page.getByRole('link', { name: 'Choose a symptom' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('What does the set do?');
});

for (const colorScheme of ['light', 'dark'] as const) {
	test(`axe finds nothing on either page by ${colorScheme} theme`, async ({ page }) => {
		await page.emulateMedia({ colorScheme });
		await page.goto('./');
		expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
		await openFirstFlow(page);
		expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
	});
}

test('nothing runs off a screen of 320 px', async ({ page }) => {
	await page.setViewportSize({ width: 320, height: 640 });
	const overflow = () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
	await page.goto('./');
	expect(await overflow()).toBe(0);
	await openFirstFlow(page);
	expect(await overflow()).toBe(0);
});

test('a symptom is reached and opened by keyboard alone', async ({ page }) => {
	await page.goto('./');
	const first = flowLinks(page).first();
	for (let press = 0; press < 12; press++) {
		await page.keyboard.press('Tab');
		if (await first.evaluate((link) => link === document.activeElement)) break;
	}
	await expect(first).toBeFocused();
	await page.keyboard.press('Enter');
	await expect(page).toHaveURL(/\/flow\//);
});
