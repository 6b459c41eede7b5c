import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from './bench.ts';

test('a valve is found by its American name, and its sheet draws the base', async ({ page, complaints }) => {
	await page.goto('./');
	await page.getByRole('link', { name: 'Valves', exact: true }).click();
	await page.getByRole('searchbox').fill('6bq5');
	await page.getByRole('link', { name: 'EL84' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('EL84');
	const drawing = page.getByRole('img', { name: 'Base noval (B9A) seen from the wiring side' });
	await expect(drawing).toBeVisible();
	await page.getByRole('button', { name: 'See it from the valve side' }).click();
	await expect(page.getByRole('img', { name: 'seen from the valve side' })).toBeVisible();
	await expect(page.getByText('48 mA').first()).toBeVisible();
	expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
	expect(complaints).toEqual([]);
});

test('pins from memory are marked as unchecked, and no pin is shown as HT in the drawing', async ({
	page
}) => {
	await page.goto('./valves/#50C5');
	await expect(page.getByText("Check them against the maker's sheet before you probe.")).toBeVisible();
	await expect(page.getByRole('table', { name: 'What each pin carries, unchecked' })).toBeVisible();
	await expect(page.getByText('carries HT')).toHaveCount(0);
});

test('a name that is nearly right leads to the valve', async ({ page }) => {
	await page.goto('./valves/#EL48');
	await page.getByRole('link', { name: 'EL84' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('EL84');
});

test('nothing found says what to try', async ({ page }) => {
	await page.goto('./valves/');
	await page.getByRole('searchbox').fill('transistor');
	await expect(page.getByText('No valve goes by “transistor”')).toBeVisible();
});
