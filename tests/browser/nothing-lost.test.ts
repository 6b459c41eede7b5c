import type { Page } from '@playwright/test';
import type { JobEvent } from '../../src/lib/job/events.ts';
import { expect, test } from './bench.ts';
import {
	answer,
	events,
	everything,
	heading,
	onward,
	openStep,
	power,
	press,
	startJob,
	unfold
} from './job-steps.ts';
import { OwnBrowser } from './own-browser.ts';

/** What was on disk is there, entry for entry; what follows was written since. */
async function nothingLost(page: Page, before: Awaited<ReturnType<typeof events>>, added: readonly string[]) {
	const now = await events(page);
	expect(now.slice(0, before.length)).toEqual(before);
	expect(now.slice(before.length).map(({ kind }) => kind)).toEqual(added);
}

/** A set that was left under power is off, not proved dead, as its job is opened again; another one adds nothing. */
function reopening(log: readonly JobEvent[]): string[] {
	const last = log.findLast((event) => event.kind === 'power');
	return last?.kind === 'power' && ['limiter', 'live'].includes(last.data.to) ? ['power'] : [];
}

/** Entries that the page writes to disk stay in the drive's own memory for a while, unless it is told to wait. */
async function watchWrites(page: Page): Promise<void> {
	await page.addInitScript(() => {
		const writes: string[] = [];
		Object.assign(window, { writes });
		const begin = IDBDatabase.prototype.transaction;
		IDBDatabase.prototype.transaction = function (...given) {
			const begun = begin.apply(this, given);
			if (begun.mode === 'readwrite') writes.push((begun as { durability?: string }).durability ?? 'unknown');
			return begun;
		};
	});
}

test('every write waits for the disk: the browser itself calls the transactions strict', async ({ page }) => {
	await watchWrites(page);
	await startJob(page, { playing: true });
	await answer(page);
	const writes = await page.evaluate(() => (window as unknown as { writes: string[] }).writes);
	expect(writes.length).toBeGreaterThan(3);
	expect(new Set(writes)).toEqual(new Set(['strict']));
});

test('a browser killed at the moment of an answer has it on disk, and comes up at the same step', async ({
	served
}) => {
	const browser = new OwnBrowser();
	try {
		const page = await browser.start();
		await page.goto(served);
		await page.goto(`${served}start/`);
		await page.getByRole('radio', { name: 'AM/FM set with shared valves' }).check();
		for (const [band, word] of [
			['AM', 'Weak'],
			['FM', 'Good']
		] as const)
			await page.getByRole('group', { name: band, exact: true }).getByRole('radio', { name: word }).check();
		await page.getByRole('checkbox', { name: /running on full mains/ }).check();
		await page.getByRole('button', { name: 'Weak on AM, fine on FM' }).click();
		await expect(heading(page)).toHaveText(/^Check every switch/);
		await answer(page);
		const [url, before] = [page.url(), await events(page)];
		const step = await answer(page);
		await browser.kill();

		const again = await browser.start();
		await again.goto(url);
		await expect(heading(again)).toHaveText(step);
		await expect(power(again)).toContainText('Off, not proved dead');
		const after = await events(again);
		expect(after.slice(0, before.length)).toEqual(before);
		const since = after.slice(before.length).map(({ kind }) => kind);
		expect(since.filter((kind) => kind === 'answered')).toHaveLength(1);
		expect(since.at(-1)).toBe('power');
	} finally {
		await browser.remove();
	}
});

test('a page that crashes loses no entry', async ({ page, context }) => {
	await startJob(page, { playing: true });
	const step = await answer(page);
	const [url, before] = [page.url(), await events(page)];
	const devices = await context.newCDPSession(page);
	const crashed = page.waitForEvent('crash');
	void devices.send('Page.crash').catch(() => undefined);
	await crashed;
	const again = await context.newPage();
	await again.goto(url);
	await expect(heading(again)).toHaveText(step);
	await nothingLost(again, before, reopening(before));
});

/** Keep notes until the page says that there is no room, or until one is kept; answers with those that were kept. */
async function writeUntil(page: Page, end: 'refused' | 'kept'): Promise<string[]> {
	const kept: string[] = [];
	const field = page.getByLabel('Note', { exact: true });
	await expect(async () => {
		const text = `note ${kept.length}`;
		await field.fill(text);
		await page.getByRole('button', { name: 'Keep the note' }).click();
		// A kept note leaves its field; the alert may still be the one of the note before.
		const isKept = await expect(field)
			.toHaveValue('', { timeout: 5000 })
			.then(
				() => true,
				() => false
			);
		if (isKept) kept.push(text);
		// The browser looks only now and then how much room there is.
		expect(isKept ? 'kept' : 'refused').toBe(end);
	}).toPass({ timeout: 80_000, intervals: [2000] });
	return kept;
}

test('a device that is really full says so and keeps what was there; with room again the entry is taken', async ({
	page,
	context,
	served
}) => {
	await startJob(page, { playing: true });
	await answer(page);
	await unfold(page, 'Trail');
	const before = await events(page);
	const devices = await context.newCDPSession(page);
	const origin = new URL(served).origin;
	await devices.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
	const notes = await writeUntil(page, 'refused');
	await expect(page.getByRole('alert').filter({ hasText: 'no room left' })).toBeVisible();
	await expect(page.getByLabel('Note', { exact: true })).toHaveValue(`note ${notes.length}`);
	await nothingLost(
		page,
		before,
		notes.map(() => 'noted')
	);
	await devices.send('Storage.overrideQuotaForOrigin', { origin });
	const more = await writeUntil(page, 'kept');
	expect(more.length).toBeGreaterThan(0);
	await nothingLost(
		page,
		before,
		[...notes, ...more].map(() => 'noted')
	);
});

test('a clock set back by a year changes neither the order nor the step', async ({ page }) => {
	await page.clock.install({ time: new Date('2026-05-01T10:00:00Z') });
	await startJob(page, { playing: true });
	await answer(page);
	const before = await events(page);
	await page.clock.setFixedTime(new Date('2025-05-01T10:00:00Z'));
	await openStep(page);
	const step = await answer(page);
	const after = await events(page);
	expect(after.slice(0, before.length)).toEqual(before);
	expect(after.at(-1)).toMatchObject({ kind: 'answered', parents: [after.at(-2)?.id] });
	expect(after.at(-1)!.at < before[0]!.at).toBe(true);
	await page.reload();
	await expect(heading(page)).toHaveText(step);
	await nothingLost(page, after, ['power']);
	await page.goto('./');
	await expect(page.getByRole('region', { name: 'Jobs' }).getByRole('listitem')).toHaveCount(1);
});

/** Notes written one after the other, as fast as the page takes them. */
async function writeNotes(page: Page, from: string, count: number): Promise<void> {
	await unfold(page, 'Trail');
	for (let number = 1; number <= count; number++) {
		await page.getByLabel('Note', { exact: true }).fill(`${from} ${number}`);
		await page.getByRole('button', { name: 'Keep the note' }).click();
		await expect(page.getByLabel('Note', { exact: true })).toHaveValue('');
	}
}

test('two tabs that write at the same time lose no entry of either', async ({ page, context }) => {
	await startJob(page, { playing: true });
	const second = await context.newPage();
	await second.goto(page.url());
	await expect(heading(second)).toHaveText(/^Check every switch/);
	const before = await events(page);
	await Promise.all([writeNotes(page, 'left', 4), writeNotes(second, 'right', 4)]);
	await nothingLost(
		page,
		before,
		Array.from({ length: 8 }, () => 'noted')
	);
	const after = await events(page);
	const notes = after.flatMap((event) => (event.kind === 'noted' ? [event.data.text] : []));
	expect(notes.sort()).toEqual(
		['left', 'right'].flatMap((from) => [1, 2, 3, 4].map((number) => `${from} ${number}`))
	);
	expect(after.slice(1).every(({ parents }, index) => parents[0] === after[index]?.id)).toBe(true);
	for (const tab of [page, second])
		await expect(tab.getByRole('complementary', { name: 'Trail' })).toContainText('right 4');
});

test('a database that the browser closed, as when a phone wakes up, is opened again under the next answer', async ({
	page,
	complaints
}) => {
	await page.addInitScript(() => {
		const opened: IDBDatabase[] = [];
		Object.assign(window, { closeAll: () => opened.splice(0).map((database) => database.close()).length });
		const open = IDBFactory.prototype.open;
		IDBFactory.prototype.open = function (...given) {
			const request = open.apply(this, given);
			request.addEventListener('success', () => opened.push(request.result));
			return request;
		};
	});
	await startJob(page, { playing: true });
	await answer(page);
	await openStep(page);
	const before = await events(page);
	const closed = await page.evaluate(() => (window as unknown as { closeAll: () => number }).closeAll());
	expect(closed).toBeGreaterThan(0);
	await onward(page, () => press(page, /as in a sound set/));
	await nothingLost(page, before, ['answered']);
	// The database tells that it was opened again, and nothing else is amiss.
	expect(complaints.filter((text) => !text.includes('Need to reopen db'))).toEqual([]);
});

test.describe('without a stored app', () => {
	test.use({ serviceWorkers: 'block' });

	test('a flow that changes under an open job is told of; the job goes on with its own, entry for entry', async ({
		page
	}) => {
		await startJob(page, { playing: true });
		await answer(page);
		await expect(heading(page)).toHaveText(/^Compare the AM bands/);
		const before = await everything(page);
		await page.route('**/library.json', async (route) => {
			const answered = await route.fetch();
			const text = (await answered.text()).replaceAll('Compare the AM bands', 'Go through the AM bands');
			await route.fulfill({ response: answered, body: text });
		});
		await page.reload();
		await expect(page.getByText('has changed since this job opened it')).toBeVisible();
		await expect(heading(page)).toHaveText(/^Compare the AM bands/);
		const after = await everything(page);
		expect(after.flows).toEqual(before.flows);
		expect(after.events).toEqual(expect.arrayContaining(before.events));
		await answer(page);
		expect((await events(page)).map(({ kind }) => kind)).toContain('answered');
	});
});
