import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';
import { events, passGate, power, startJob, unfold } from './job-steps.ts';

const list = (page: Page) => page.getByRole('list', { name: 'Parts of the set' });
const rows = (page: Page) => list(page).locator('details');
const row = (page: Page, name: string) => rows(page).filter({ hasText: name }).first();
const head = (page: Page) => page.getByRole('heading', { level: 1 });
const COUPLER = 'Coupling capacitor to the output grid';

/** From the page of the job to its parts, as a person goes. */
async function toParts(page: Page): Promise<void> {
	await unfold(page, 'Trail');
	await page.getByRole('link', { name: 'Parts of the set' }).click();
	await expect(head(page)).toHaveText('Parts of the set');
}

async function listCapacitors(page: Page): Promise<void> {
	await page.getByRole('button', { name: /^List the \d+ capacitors$/ }).click();
	await expect(row(page, COUPLER)).toBeVisible();
	await expect(page.getByRole('button', { name: /^List the \d+ capacitors$/ })).toBeHidden();
}

async function open(page: Page, name: string): Promise<void> {
	await row(page, name).locator('summary').first().click();
	await expect(row(page, name).getByRole('group', { name: /^What was done/ })).toBeVisible();
}

async function change(page: Page, name: string, fitted: string): Promise<void> {
	await open(page, name);
	await row(page, name).getByLabel('New part').fill(fitted);
	await row(page, name).getByRole('button', { name: 'Changed' }).click();
	await expect(row(page, name).locator('summary').first()).toContainText(`fitted: ${fitted}`);
	await row(page, name).locator('summary').first().click();
}

test('every capacitor of the set gets a verdict, and what is to be changed comes to the shopping list', async ({
	page,
	complaints
}) => {
	await startJob(page);
	await toParts(page);
	await listCapacitors(page);
	await expect(row(page, COUPLER).locator('summary').first()).toContainText('Change');
	const can = row(page, 'Fixed capacitors of the IF can');
	await expect(can.locator('summary').first()).toContainText('Leave');
	await open(page, 'Fixed capacitors of the IF can');
	await expect(can).toContainText('Leave it unless there are signs');
	const shopping = page.getByRole('region', { name: 'Shopping list' });
	await expect(shopping.getByRole('row', { name: /class X/ })).toContainText('Capacitor across the mains');
	await open(page, COUPLER);
	await row(page, COUPLER).getByRole('heading', { name: 'What it is' }).click();
	await row(page, COUPLER).getByLabel('As drawn on the diagram').fill('C12');
	await row(page, COUPLER).getByLabel('Value as marked').fill('.015 mfd');
	await row(page, COUPLER)
		.getByLabel(/^Rating as marked/)
		.fill('400 V');
	await row(page, COUPLER).getByRole('button', { name: 'Keep', exact: true }).click();
	await expect(shopping.getByRole('row', { name: /15 nF, 630 V/ })).toContainText('or 22 nF');
	await expect(shopping.getByRole('row', { name: /15 nF, 630 V/ })).toContainText('C12');
	await page.reload();
	await expect(row(page, 'C12').locator('summary').first()).toContainText('.015 mfd');
	expect(complaints).toEqual([]);
});

test('a pasted list: what is doubtful is asked, what cannot be read stays', async ({ page }) => {
	await startJob(page);
	await toParts(page);
	await page.getByRole('heading', { name: 'Type or paste a list' }).click();
	const box = page.getByRole('textbox', { name: 'Parts, one a line' });
	await box.fill('C12 .05 mfd 400V paper output coupling\nC13 1k mica\nC14 47n wibble');
	await expect(page.getByText('"wibble" is no value')).toBeVisible();
	await page.getByRole('button', { name: '1,000 pF (1 nF)' }).click();
	await page.getByRole('button', { name: 'List 2 parts' }).click();
	await expect(rows(page)).toHaveCount(2);
	await expect(box).toHaveValue('C14 47n wibble');
	const listed = (await events(page)).flatMap((one) => (one.kind === 'part-listed' ? [one.data] : []));
	expect(listed).toMatchObject([
		{
			name: 'C12',
			kind: 'paper',
			duty: 'output-coupling',
			value: 5e-8,
			suspects: ['cc-leak', 'cc-open', 'cc-low']
		},
		{ name: 'C13', kind: 'mica', value: 1e-9 }
	]);
	await page.getByRole('button', { name: 'Undo', exact: true }).click();
	await expect(rows(page)).toHaveCount(1);
});

test('two changes without a listen are counted in sight; dead now puts the work first', async ({ page }) => {
	await startJob(page);
	await power(page).click();
	await page.getByRole('button', { name: 'Discharge and prove it dead' }).click();
	await passGate(page);
	await expect(power(page)).toContainText(/unplugged/i);
	await toParts(page);
	await listCapacitors(page);
	await change(page, COUPLER, '47 nF 630 V');
	await change(page, 'AVC line capacitor', '100 nF 400 V');
	await expect(row(page, COUPLER).locator('summary').first()).toContainText('without proof');
	await expect(page.getByRole('heading', { name: '2 unproved changes' })).toBeVisible();

	await page.getByRole('link', { name: 'Back to the job' }).click();
	const count = page.getByRole('link', { name: '2 unproved changes' });
	await expect(count).toBeVisible();
	await count.click();
	await expect(head(page)).toHaveText('Parts of the set');
	await page.getByRole('button', { name: 'Dead now' }).click();
	await expect(page.getByRole('heading', { name: /unproved/ })).toBeHidden();

	await page.getByRole('link', { name: 'Back to the job' }).click();
	await unfold(page, 'Suspects');
	const suspects = page.getByRole('list', { name: 'Suspects', exact: true }).locator('> li');
	// The AVC line has no suspect for the work on it: the part itself stands for it.
	await expect(suspects.nth(0)).toContainText('AVC line capacitor');
	await expect(suspects.nth(1)).toContainText('Work of an earlier hand (output');
	await unfold(page, 'Trail');
	await page.getByRole('link', { name: 'Report for print' }).click();
	const parts = page.locator('section', { has: page.getByRole('heading', { name: 'The parts' }) });
	await expect(parts).toContainText('changed, without proof');
	await expect(page.getByText('heard after it: dead now').first()).toBeVisible();
});

test('a part is changed in a set that is proved dead only, and left only with a reason', async ({ page }) => {
	await startJob(page);
	await toParts(page);
	await listCapacitors(page);
	await open(page, COUPLER);
	await expect(row(page, COUPLER).getByRole('button', { name: 'Changed' })).toBeDisabled();
	await expect(row(page, COUPLER)).toContainText('prove it dead');
	await row(page, COUPLER).getByRole('button', { name: 'Left on purpose' }).click();
	await expect(row(page, COUPLER)).toContainText('The reason is missing');
	await row(page, COUPLER).getByLabel('What was seen, or why it is left').fill('renewed last year');
	await row(page, COUPLER).getByRole('button', { name: 'Left on purpose' }).click();
	await expect(row(page, COUPLER).locator('summary').first()).toContainText(
		'left on purpose: renewed last year'
	);
});

test('nothing of the page is wider than 320 px, and axe finds nothing on it', async ({ page }) => {
	await page.setViewportSize({ width: 320, height: 700 });
	await startJob(page);
	await toParts(page);
	await listCapacitors(page);
	await open(page, COUPLER);
	await row(page, COUPLER).getByRole('heading', { name: 'What it is' }).click();
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
	const { violations } = await new AxeBuilder({ page }).analyze();
	expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
});
