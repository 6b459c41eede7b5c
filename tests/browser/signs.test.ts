import { expect, test } from './bench.ts';
import { AC_DC, AM_FM, heading } from './job-steps.ts';

const noticed = (name: string) => ({ name, exact: true });

test('a blown fuse leads to its flow, and the job keeps what was noticed', async ({ page }) => {
	await page.goto('./start/');
	await page.getByRole('radio', { name: AC_DC }).check();
	await page.getByText('What else do you notice?').click();
	await page.getByRole('checkbox', noticed('The fuse blows')).check();
	await expect(page.getByText('This complaint has a flow:')).toBeVisible();
	await page.getByRole('button', { name: 'The fuse blows, or the limiter lamp stays bright' }).click();
	await expect(page).toHaveURL(/\/job\/?#\w+$/);
	await expect(heading(page)).toBeVisible();
	await page.goto(page.url().replace('/job', '/report'));
	// On the owner's page and on the bench sheet.
	await expect(page.getByRole('listitem').filter({ hasText: 'The fuse blows.' })).toHaveCount(2);
});

test('a sign of another kind of set is not offered', async ({ page }) => {
	await page.goto('./start/');
	await page.getByRole('radio', { name: AC_DC }).check();
	await page.getByText('What else do you notice?').click();
	await expect(page.getByRole('checkbox', noticed('It tingles or gives a shock'))).toBeVisible();
	// This family has no mains transformer that could run hot.
	await expect(page.getByRole('checkbox', noticed('The mains transformer runs hot'))).toHaveCount(0);
});

test('the signs fit a phone and are reached by keyboard', async ({ page }) => {
	await page.setViewportSize({ width: 360, height: 740 });
	await page.goto('./start/');
	await page.getByRole('radio', { name: AC_DC }).check();
	const summary = page.locator('summary', { hasText: 'What else do you notice?' });
	await summary.focus();
	await page.keyboard.press('Enter');
	await page.keyboard.press('Tab');
	await page.keyboard.press('Space');
	await expect(page.getByText('1 noted')).toBeVisible();
	expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
});

test('a complaint is chosen by how it is noticed; of what nothing points to only the nearest stand in sight', async ({
	page
}) => {
	await page.goto('./start/');
	await page.getByRole('radio', { name: AM_FM }).check();
	const complaint = page.getByRole('region', { name: 'Complaint' });
	await expect(complaint.getByRole('button')).toHaveCount(0);
	for (const band of ['AM', 'FM'])
		await page
			.getByRole('group', { name: band, exact: true })
			.getByRole('radio', { name: band === 'AM' ? 'Hum' : 'Nothing' })
			.check();
	await expect(complaint.getByText('Choose the one that comes nearest')).toBeVisible();
	await expect(complaint.getByRole('button')).toHaveCount(5);
	await expect(complaint.getByRole('button', { name: 'FM dead, AM fine' })).toBeVisible();
	await complaint.locator('summary', { hasText: 'At the dial' }).click();
	await complaint.getByRole('button', { name: 'Stations wander off as it warms' }).click();
	await expect(page).toHaveURL(/\/job\/?#\w+$/);
});
