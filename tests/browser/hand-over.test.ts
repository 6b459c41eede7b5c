import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';
import { everything, heading, startJob, unfold } from './job-steps.ts';

/** What leaves the page: text to the clipboard, text and files to another app. */

interface HandedOn {
	text?: string;
	files?: { name: string; type: string; content: string }[];
}

/** A device with a share sheet. What the page hands to it is kept; `choice` is what its owner does there. */
async function withShareSheet(page: Page, choice: 'takes' | 'closes' | 'refuses' = 'takes'): Promise<void> {
	await page.addInitScript((does) => {
		const handed: unknown[] = [];
		Object.assign(window, { handed, asked: 0 });
		Object.assign(navigator, {
			canShare: ({ files = [] }: ShareData) => files.every(({ type }) => type === 'application/json'),
			share: async ({ text, files }: ShareData) => {
				(window as unknown as { asked: number }).asked++;
				if (does === 'closes') throw new DOMException('closed', 'AbortError');
				if (does === 'refuses') throw new DOMException('no app for it', 'DataError');
				const read = files?.map(async (file) => ({
					name: file.name,
					type: file.type,
					content: await file.text()
				}));
				handed.push({ ...(text ? { text } : {}), ...(read ? { files: await Promise.all(read) } : {}) });
			}
		});
	}, choice);
}

/** How often the share sheet came up. */
const asked = (page: Page) => page.evaluate(() => (window as unknown as { asked: number }).asked);
const handed = (page: Page) => page.evaluate(() => (window as unknown as { handed: HandedOn[] }).handed);

async function toAsk(page: Page): Promise<void> {
	await startJob(page);
	await unfold(page, 'Trail');
	await page.getByRole('link', { name: 'Ask others' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Ask others');
}

const field = (page: Page) => page.getByLabel('Text', { exact: true });
const told = (page: Page) => page.getByRole('status').last();

test('the clipboard gets the text as it stands in the field, a change by hand included', async ({
	page,
	context
}) => {
	await context.grantPermissions(['clipboard-read', 'clipboard-write']);
	await toAsk(page);
	const written = await field(page).inputValue();
	await page.getByRole('button', { name: 'Copy the text' }).click();
	await expect(told(page)).toHaveText('Copied. Paste it where you ask.');
	expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(written);
	const more = `${written}\nThe dial lamp is dark too.`;
	await field(page).fill(more);
	await page.getByRole('button', { name: 'Copy the text' }).click();
	await expect.poll(() => page.evaluate(() => navigator.clipboard.readText())).toBe(more);
});

test('the share sheet gets the same text; closed again, nothing is said to be handed on', async ({
	page
}) => {
	await withShareSheet(page);
	await toAsk(page);
	await field(page).fill(`${await field(page).inputValue()}\nThe dial lamp is dark too.`);
	const text = await field(page).inputValue();
	await page.getByRole('button', { name: 'Share it' }).click();
	await expect(told(page)).toHaveText('Handed on.');
	expect(await handed(page)).toEqual([{ text }]);
});

for (const [choice, words] of [
	['closes', ''],
	['refuses', 'It could not be handed on. Copy it instead.']
] as const)
	test(`a share sheet that its owner or the device ${choice}: the text stays, and nothing is called handed on`, async ({
		page
	}) => {
		await withShareSheet(page, choice);
		await toAsk(page);
		const text = await field(page).inputValue();
		await page.getByRole('button', { name: 'Share it' }).click();
		await expect.poll(() => asked(page)).toBe(1);
		await expect(told(page)).toHaveText(words);
		await expect(field(page)).toHaveValue(text);
	});

test('the share sheet gets the file that would have been saved, and it can be taken in', async ({
	page,
	browser,
	baseURL
}) => {
	await withShareSheet(page);
	await startJob(page);
	const before = await everything(page);
	await page.goto('./keep/');
	await page.getByRole('button', { name: 'Save everything to a file' }).click();
	await page.getByRole('button', { name: 'Share the file' }).click();
	await expect(page.getByText(/^Last copy of everything: \d/)).toBeVisible();
	const [shared] = await handed(page);
	const [file] = shared?.files ?? [];
	expect(file?.type).toBe('application/json');
	expect(file?.name).toMatch(/^valvetrail-\d{4}-\d\d-\d\d\.valvetrail\.json$/);
	const context = await browser.newContext({ baseURL: baseURL! });
	const other = await context.newPage();
	await other.goto('./keep/');
	await expect(other.getByRole('heading', { name: 'From a file' })).toBeVisible();
	await other.getByLabel('Job file').setInputFiles({
		name: file!.name,
		mimeType: file!.type,
		buffer: Buffer.from(file!.content)
	});
	await expect(other).toHaveURL(/\/job\/?#\w+$/);
	await expect(heading(other)).toBeVisible();
	expect(await everything(other)).toEqual(before);
	await context.close();
});

for (const [choice, words] of [
	['closes', ''],
	['refuses', 'It could not be shared. Save the file instead.']
] as const)
	test(`a share sheet that its owner or the device ${choice} makes no copy: the file waits, and can be saved instead`, async ({
		page
	}) => {
		await withShareSheet(page, choice);
		await startJob(page);
		await page.goto('./keep/');
		await page.getByRole('button', { name: 'Save everything to a file' }).click();
		await page.getByRole('button', { name: 'Share the file' }).click();
		await expect.poll(() => asked(page)).toBe(1);
		const out = page.getByRole('region', { name: 'A copy of everything' });
		await expect(out).toContainText(words);
		await expect(out).not.toContainText('Shared.');
		await expect(page.getByText('No copy of everything has been saved yet.')).toBeVisible();
		const saving = page.waitForEvent('download');
		await page.getByRole('button', { name: 'Save the file' }).click();
		await saving;
		await expect(page.getByText(/^Last copy of everything: \d/)).toBeVisible();
	});
