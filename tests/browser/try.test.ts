import { readFileSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';
import { heading, openStep } from './job-steps.ts';

/** A flow from a file: what stands in it, what it does, and that it can do nothing else. */

const FLOW = readFileSync('flows/distorted.yaml', 'utf8');
const TITLE = 'Distorted in my own words';
const mine = FLOW.replace(/^id: .*$/m, 'id: my-own-flow').replace(/^title: .*$/m, `title: ${TITLE}`);

const give = (page: Page, text: string, name = 'mine.yaml') =>
	page
		.locator('input[type=file]')
		.setInputFiles({ name, mimeType: 'text/yaml', buffer: Buffer.from(text, 'utf8') });

const findings = (page: Page) => page.getByRole('list', { name: 'Findings' }).getByRole('listitem');

/** Addresses outside the app that the page asks for. */
function outside(page: Page, baseURL: string | undefined): string[] {
	const asked: string[] = [];
	page.on('request', (request) => {
		const url = request.url();
		if (baseURL && !url.startsWith(baseURL) && !/^(data|blob):/.test(url)) asked.push(url);
	});
	return asked;
}

async function open(page: Page): Promise<void> {
	await page.goto('./try/');
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Try a flow');
	await expect(page.getByLabel('Complaint')).toBeVisible({ timeout: 30_000 });
}

test('the page is found from the first page and from the page of a flow', async ({ page }) => {
	await page.goto('./');
	await expect(page.getByRole('link', { name: /Try a flow of your own/ })).toHaveAttribute(
		'href',
		/\/try\/$/
	);
	await page.goto('./flow/distorted/');
	await page.getByRole('link', { name: 'Step through it, or play it as a trial' }).click();
	await expect(page.getByLabel('Complaint')).toHaveValue('distorted', { timeout: 30_000 });
});

test('a flow is stepped through without a job, each step with all its answers', async ({
	page,
	complaints
}) => {
	await page.goto('./try/#flow=distorted');
	const steps = page.getByRole('navigation', { name: 'Steps' });
	await expect(steps).toContainText(/Step 1 of \d+/, { timeout: 30_000 });
	await steps.getByRole('button', { name: 'Next step' }).click();
	await expect(steps).toContainText('Step 2 of');
	expect(await page.getByRole('list', { name: 'Outcomes' }).getByRole('listitem').count()).toBeGreaterThan(1);
	expect(complaints).toEqual([]);
});

test('a fault in a dropped flow is shown at its line, and mending it opens the flow', async ({
	page,
	complaints
}) => {
	test.slow();
	await open(page);
	await give(page, mine.replace(/^uses:$/m, 'uses:\n  - no-such-step'));
	await expect(findings(page).first()).toContainText('no-such-step', { timeout: 60_000 });
	const line = mine.split('\n').findIndex((text) => text === 'uses:') + 2;
	await expect(findings(page).first()).toContainText(`mine.yaml, line ${line},`);
	await give(page, mine);
	await expect(page.getByRole('heading', { name: 'Your flow' })).toBeVisible({ timeout: 60_000 });
	await expect(page.getByLabel('Complaint')).toHaveValue('my-own-flow');
	expect(complaints).toEqual([]);
});

test('a trial job plays the dropped flow in memory only, and is gone when it is ended', async ({
	page,
	complaints
}) => {
	test.slow();
	await open(page);
	await give(page, mine);
	await page.getByRole('button', { name: 'Play it as a trial job' }).click({ timeout: 60_000 });
	await expect(page.getByText('Trial job.')).toBeVisible();
	await expect(page.getByText(`Trial of "${TITLE}"`).first()).toBeVisible();
	await openStep(page);
	await expect(heading(page)).toBeVisible();
	await page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name: 'Sums' }).click();
	await expect(page).toHaveURL(/\/sums\/$/);
	await page.goBack();
	await expect(page.getByText('Trial job.')).toBeVisible();
	const databases = await page.evaluate(async () => (await indexedDB.databases()).map(({ name }) => name));
	expect(databases).not.toContain('valvetrail');
	await page.getByRole('button', { name: 'End the trial' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Try a flow');
	await page.goto('./');
	await expect(page.getByRole('region', { name: 'Jobs' }).getByRole('listitem')).toHaveCount(0);
	expect(complaints).toEqual([]);
});

test('script, images and links in the words of a flow stay words, and nothing is fetched', async ({
	page,
	baseURL,
	complaints
}) => {
	test.slow();
	const asked = outside(page, baseURL);
	const evil = [
		'<script>globalThis.ran = true</script>',
		'<img src="https://example.invalid/a.png" onerror="globalThis.ran = true">',
		'![picture](https://example.invalid/b.png)',
		'[run](javascript:globalThis.ran=true)'
	].join(' ');
	await open(page);
	await give(page, mine.replace(/^about:[^\n]*(\n\s+[^\n]*)*/m, `about: '${evil}'`));
	await expect(page.getByText('<script>globalThis.ran')).toBeVisible({ timeout: 60_000 });
	await expect(page.locator('main img, main script, main a[href^="javascript"]')).toHaveCount(0);
	expect(await page.evaluate(() => 'ran' in globalThis)).toBe(false);
	expect(asked).toEqual([]);
	expect(complaints).toEqual([]);
});

test('a file of a megabyte, aliases and __proto__ are refused, each with a sentence', async ({
	page,
	complaints
}) => {
	test.slow();
	await open(page);
	await give(page, `${mine}# ${'x'.repeat(1_000_000)}`);
	await expect(page.getByRole('alert')).toContainText('"mine.yaml" is larger than 200 kB');
	await give(page, 'a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n');
	await expect(findings(page).first()).toContainText('Anchors and aliases are not used here', {
		timeout: 60_000
	});
	await give(page, `${mine}__proto__:\n  polluted: 1\n`);
	await expect(findings(page).first()).toContainText('There is no key "__proto__" here', { timeout: 60_000 });
	expect(await page.evaluate(() => 'polluted' in {})).toBe(false);
	expect(complaints).toEqual([]);
});

test('the way of the advice is drawn with links into a list that says the same', async ({
	page,
	complaints
}) => {
	test.setTimeout(240_000);
	await page.goto('./flow/distorted/');
	await page.getByRole('button', { name: 'Work out the way' }).click();
	const drawing = page.getByRole('region', { name: 'Drawing of the way' });
	await expect(drawing).toBeVisible({ timeout: 200_000 });
	const entries = page.getByRole('list', { name: 'The way as a list' }).locator(':scope > li');
	expect(await drawing.getByRole('link').count()).toBe(await entries.count());
	await drawing.getByRole('link').first().press('Enter');
	await expect(page).toHaveURL(/#way-1$/);
	expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
	expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
	expect(complaints).toEqual([]);
});
