import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';

const job = (page: Page) => page.getByRole('region', { name: 'Jobs' }).getByRole('listitem');
const openDemo = (page: Page) => page.getByRole('button', { name: 'Open the demo' });
const DAY = 24 * 60 * 60 * 1000;

/** Opens the demo from the first page; answers with the step that it is left at. */
async function demo(page: Page): Promise<string> {
	await page.goto('./');
	await openDemo(page).click();
	await expect(page).toHaveURL(/\/job\/#/);
	await expect(page.getByRole('button', { name: 'Go to this step' })).toBeVisible();
	return (await page.getByRole('heading', { level: 1 }).textContent()) ?? '';
}

test('the demo opens from the first page at a step that is worth taking', async ({ page, complaints }) => {
	await demo(page);
	await expect(page.getByText('Demo: invented set').first()).toBeVisible();
	await expect(page.locator('.warn')).toHaveCount(0);
	const trail = page.getByRole('complementary', { name: 'Trail' });
	if (!(await trail.getByText('−8.6 V').isVisible())) await trail.locator('summary').first().click();
	await expect(trail.getByText('−8.6 V')).toBeVisible();
	await expect(trail.getByText('The oscillator runs at 1.47 MHz')).toBeVisible();
	await expect(trail.getByText('Loud for a second after switching on')).toBeVisible();
	expect(complaints).toEqual([]);
});

test('the demo is a job like any other: listed, taken up again and deleted', async ({ page, complaints }) => {
	await demo(page);
	await page.goto('./');
	await expect(job(page)).toHaveCount(1);
	await expect(job(page)).toContainText('Demo: invented set');
	// Once there are jobs, the demo stands below them.
	const [list, button] = [await job(page).boundingBox(), await openDemo(page).boundingBox()];
	expect(button?.y).toBeGreaterThan(list?.y ?? Infinity);
	await job(page)
		.getByRole('button', { name: /^Delete Demo/ })
		.click();
	await job(page).getByRole('button', { name: 'Delete it' }).click();
	await expect(job(page)).toHaveCount(0);
	await expect(page.getByText('No job in this browser yet')).toBeVisible();
	expect(complaints).toEqual([]);
});

test('after thirty days the job says where it was left, and begins with the proof that the set is dead', async ({
	page,
	complaints
}) => {
	await page.clock.install({ time: new Date('2026-03-01T18:00:00Z') });
	const step = await demo(page);
	await page.clock.setSystemTime(Date.parse('2026-03-01T18:00:00Z') + 30.1 * DAY);
	await page.reload();
	const card = page.getByRole('region', { name: 'Step', exact: true });
	await expect(card.getByRole('heading', { level: 1 })).toHaveText('Demo: invented set, AM and FM');
	await expect(card).toContainText('Last worked on 30 days ago');
	await expect(card).toContainText('Make sure that the plug is out');
	await expect(card.getByRole('listitem')).toHaveCount(3);
	await expect(card.getByRole('listitem').last()).toContainText('−4.2 V');
	await expect(card).toContainText(`${step}, about`);
	await expect(card).toContainText(/Begun.*Trace the fault/);
	await expect(card).toContainText(/Still to do.*Soak and safety test/);
	await expect(card.getByRole('button').first()).toHaveText('First make it safe');
	await card.getByRole('button', { name: 'First make it safe' }).click();
	const readings = page.getByRole('region', { name: 'Power' }).getByRole('textbox');
	await readings.nth(0).fill('40');
	await readings.nth(1).fill('2');
	await readings.nth(1).press('Enter');
	await expect(page.getByText('discharge again').first()).toBeVisible();
	await readings.nth(0).fill('1.5');
	await readings.nth(0).press('Enter');
	await expect(page.getByRole('button', { name: /^Power: Unplugged/ })).toBeVisible();
	await page.reload();
	await expect(card).not.toContainText('Last worked on');
	expect(complaints).toEqual([]);
});

test('within a day the job goes on without asking', async ({ page }) => {
	await page.clock.install({ time: new Date('2026-03-01T18:00:00Z') });
	const step = await demo(page);
	await page.clock.setSystemTime(Date.parse('2026-03-01T18:00:00Z') + 0.9 * DAY);
	await page.reload();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(step);
});
