import type { CDPSession, Page } from '@playwright/test';
import { FileWriter } from '../../src/lib/job/file.ts';
import { expect, test } from './bench.ts';
import { everything } from './job-steps.ts';
import { curedEntries, logOf, seed } from './seed-jobs.ts';

/** Long work on files, stopped by its button: nothing half is left anywhere. */

const WHEN = '2026-02-03T04:05:06.000Z';
const FLOW = 'weak-on-am-fine-on-fm';

/** A device so slow that a button can be pressed meanwhile, whatever this machine is. */
async function slowDown(page: Page): Promise<CDPSession> {
	const session = await page.context().newCDPSession(page);
	await session.send('Emulation.setCPUThrottlingRate', { rate: 12 });
	return session;
}
const asFast = (session: CDPSession) => session.send('Emulation.setCPUThrottlingRate', { rate: 1 });

async function openKeep(page: Page): Promise<void> {
	await page.goto('./keep/');
	await expect(page.getByRole('heading', { name: 'From a file' })).toBeVisible();
}

/** Presses Stop once the work has come further than its beginning. */
async function stopMidway(page: Page, work: string): Promise<void> {
	await expect(page.getByText(new RegExp(`^${work}: [1-9]\\d? %$`))).toBeVisible({ timeout: 60_000 });
	await page.getByRole('button', { name: 'Stop' }).click();
}

test('an export that is stopped saves nothing and counts as no copy; begun again it is whole', async ({
	page
}) => {
	await page.goto('./');
	let seq = 1;
	const logs = Array.from({ length: 2000 }, (_, index) => {
		const log = logOf(`job${index}`, curedEntries(`Set ${index}`, FLOW, 'avc-leak'), seq);
		seq += log.length;
		return log;
	});
	await seed(page, logs);
	await openKeep(page);
	await expect(page.getByText('One file with all 2,000 jobs')).toBeVisible();
	const downloads: string[] = [];
	page.on('download', (download) => downloads.push(download.suggestedFilename()));
	const session = await slowDown(page);
	await page.getByRole('button', { name: 'Save everything to a file' }).click();
	await stopMidway(page, 'Writing the file');
	await expect(page.getByText('Stopped. No file was written.')).toBeVisible();
	await asFast(session);
	await expect(page.getByText('No copy of everything has been saved yet.')).toBeVisible();
	await expect(page.getByRole('region', { name: 'Job by job' }).getByRole('listitem').first()).toContainText(
		'no copy yet'
	);
	expect(downloads).toEqual([]);
	const saving = page.waitForEvent('download');
	await page.getByRole('button', { name: 'Save everything to a file' }).click();
	await saving;
	await expect(page.getByText(/^Last copy of everything: \d/)).toBeVisible();
	expect(downloads).toHaveLength(1);
});

test('a file of many jobs that is stopped, while it is read or while it is taken in, leaves nothing behind', async ({
	page
}) => {
	const writer = new FileWriter({ flow: async () => undefined, picture: async () => undefined });
	const parts = [writer.head(WHEN)];
	for (let index = 0; index < 2000; index++) {
		const notes = Array.from({ length: 6 }, (_, note) => ['noted', { text: `Note ${note}` }] as const);
		parts.push(await writer.job(logOf(`job${index}`, [['started', {}], ...notes], 1 + 7 * index)));
	}
	const file = {
		name: 'many.json',
		mimeType: 'application/json',
		buffer: Buffer.from([...parts, writer.end()].join(''))
	};
	await page.goto('./');
	await page.getByText('No job in this browser yet').waitFor();
	await openKeep(page);
	const told = page.getByRole('region', { name: 'From a file' }).getByRole('status');
	const session = await slowDown(page);
	await page.getByLabel('Job file').setInputFiles(file);
	await stopMidway(page, 'Reading the file');
	await expect(told).toHaveText('many.json was not taken in: Stopped. Nothing was taken in.');
	await asFast(session);
	await page.getByLabel('Job file').setInputFiles(file);
	await page.getByRole('button', { name: 'Take in all 2,000' }).click({ timeout: 60_000 });
	await slowDown(page);
	await stopMidway(page, 'Taking in');
	await expect(told).toHaveText('many.json was not taken in: Stopped. Nothing was taken in.', {
		timeout: 60_000
	});
	expect(await everything(page)).toEqual({ events: [], flows: [], pictures: [] });
	await page.goto('./');
	await expect(page.getByText('No job in this browser yet')).toBeVisible();
});
