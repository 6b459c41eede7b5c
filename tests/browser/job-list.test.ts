import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import type { JobEvent } from '../../src/lib/job/events.ts';
import { expect, test } from './bench.ts';
import { events, heading, startJob, stepPane, unfold, WEAK_AM, AM_FM } from './job-steps.ts';
import { curedEntries, logOf, seed } from './seed-jobs.ts';

const jobs = (page: Page) => page.getByRole('region', { name: 'Jobs' });
const rows = (page: Page) => jobs(page).getByRole('listitem');
const find = (page: Page) => page.getByLabel('Find a job');
const FLOW = 'weak-on-am-fine-on-fm';

/** Jobs of many sets: each 20th is open, each 50th has a note of its own, the causes go round. */
function manyJobs(count: number): JobEvent[][] {
	const parts = ['sw-dirty@am-aerial', 'avc-leak', 'lo-stop'];
	let seq = 1;
	return Array.from({ length: count }, (_, index) => {
		const whole = curedEntries(`Set ${index + 1}`, FLOW, parts[index % parts.length]!);
		const entries = index % 20 === 0 ? whole.slice(0, -1) : whole;
		const noted =
			index % 50 === 0
				? [...entries, ['noted', { text: `Knob number ${index} is cracked` }] as const]
				: entries;
		const log = logOf(`job${index}`, noted, seq, index % 300);
		seq += log.length;
		return log;
	});
}

async function overflow(page: Page) {
	await page.setViewportSize({ width: 320, height: 640 });
	expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
}

async function clean(page: Page) {
	const { violations } = await new AxeBuilder({ page }).analyze();
	expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
}

test('of many jobs ten are drawn, a search finds the one by note, part or number, and more are shown on demand', async ({
	page,
	complaints
}) => {
	test.slow();
	await page.goto('./');
	await expect(jobs(page)).toContainText('No job in this browser yet');
	await seed(page, manyJobs(1200));
	await page.reload();
	await expect(rows(page)).toHaveCount(10);
	await find(page).fill('cracked knob number 1150');
	await expect(jobs(page).getByRole('status')).toHaveText('1 of 1,200 jobs');
	await expect(rows(page)).toHaveCount(1);
	await expect(rows(page)).toContainText('Set 1151');
	// The valve is known by the kind of set.
	await find(page).fill('ecc85 set 777');
	await expect(rows(page)).toHaveCount(1);
	await find(page).fill('');
	await jobs(page).getByRole('radio', { name: 'Open' }).check();
	await expect(jobs(page).getByRole('status')).toHaveText('60 of 1,200 jobs');
	await page.getByRole('button', { name: 'Show 50 more of 50' }).click();
	await expect(rows(page)).toHaveCount(60);
	await find(page).fill('no such words');
	await expect(jobs(page)).toContainText('No job holds these words');
	expect(complaints).toEqual([]);
	await clean(page);
	await overflow(page);
});

test('rows that an older program wrote are made again from their events, and are found by their notes', async ({
	page
}) => {
	await page.goto('./');
	await seed(page, manyJobs(51));
	await page.evaluate(async () => {
		const opened = indexedDB.open('valvetrail');
		await new Promise((done) => (opened.onsuccess = done));
		const store = opened.result.transaction('jobs', 'readwrite').objectStore('jobs');
		const all = store.getAll();
		await new Promise((done) => (all.onsuccess = done));
		for (const { version: _, facts: __, flows: ___, minutes: ____, ...old } of all.result) store.put(old);
		await new Promise((done) => (store.transaction.oncomplete = done));
		opened.result.close();
	});
	await page.reload();
	await expect(rows(page)).toHaveCount(10);
	await find(page).fill('knob number 50');
	await expect(rows(page)).toHaveCount(1);
	await expect(rows(page)).toContainText('Set 51');
});

test('a new job takes kind of set and service volts from an earlier one, and nothing of its trail', async ({
	page
}) => {
	await page.goto('./');
	const [log] = manyJobs(1);
	const withSheet = log!.map((event) =>
		event.kind === 'intake' ? { ...event, data: { ...event.data, service: { 'output.anode': 241 } } } : event
	) as JobEvent[];
	await seed(page, [withSheet]);
	await page.reload();
	await page.getByRole('link', { name: 'New job for a set like Set 1' }).click();
	await expect(page.getByText('A set like "Set 1".')).toBeVisible();
	await expect(page.getByRole('radio', { name: AM_FM })).toBeChecked();
	await page.getByRole('group', { name: 'AM', exact: true }).getByRole('radio', { name: 'Weak' }).check();
	await page.getByRole('group', { name: 'FM', exact: true }).getByRole('radio', { name: 'Good' }).check();
	await page.getByRole('button', { name: WEAK_AM }).click();
	await expect(heading(page)).toBeVisible();
	const written = await events(page);
	expect(written.map(({ kind }) => kind)).toEqual(['started', 'intake', 'flow-opened']);
	expect(written).toMatchObject([
		{ data: { like: 'job0' } },
		{ data: { plan: 'am-fm-shared', service: { 'output.anode': 241 } } },
		{}
	]);
	await page.goto('./start/');
	await unfold(page, 'A set like an earlier one');
	await page.getByLabel('Find the earlier job').fill('set 1');
	await page.getByRole('button', { name: /^Set 1/ }).click();
	await page.getByRole('button', { name: 'Start without it' }).click();
	await expect(page.getByText('A set like "Set 1".')).toBeHidden();
});

test('causes of closed jobs are tallied, count in a new trace when they are let in, and are told on the suspect', async ({
	page,
	complaints
}) => {
	await page.goto('./tally/');
	await expect(page.getByText('No job is closed yet.')).toBeVisible();
	await seed(page, manyJobs(12));
	await page.reload();
	const table = page.getByRole('table');
	await expect(table.getByRole('row')).toHaveCount(4);
	await expect(page.getByText('11 jobs')).toBeVisible();
	await page.getByRole('checkbox', { name: /Let them count/ }).check();
	await clean(page);
	await startJob(page);
	const [last] = (await events(page)).slice(-1);
	expect(last).toMatchObject({
		kind: 'experience',
		data: { flow: FLOW, proved: { 'avc-leak': 4 }, untested: {} }
	});
	await unfold(page, 'Suspects');
	const list = page.getByRole('list', { name: 'Suspects', exact: true });
	const leak = list.getByRole('listitem').filter({ hasText: /AVC/ }).first();
	await leak.locator('summary').first().click();
	await expect(leak).toContainText(/In your 11 jobs with this complaint it was the cause in/);
	await unfold(page, 'My bench');
	await page.getByRole('button', { name: 'Leave my closed jobs out of this trace' }).click();
	await expect(page.getByRole('button', { name: 'Let my closed jobs count in this trace' })).toBeVisible();
	await expect(leak).not.toContainText('In your 11 jobs');
	expect(complaints).toEqual([]);
	await page.goto('./tally/');
	await expect(table).toBeVisible();
	await overflow(page);
});

test('the whole job stands as a list: each part leads to its place, one is set by hand and given back to the log', async ({
	page,
	complaints
}) => {
	await startJob(page);
	await unfold(page, 'The whole job');
	const fold = page
		.locator('details', { has: page.locator('summary', { hasText: 'The whole job' }) })
		.first();
	await expect(fold.getByRole('listitem')).toHaveCount(11);
	await expect(fold.getByRole('button', { name: /^Trace the fault/ })).toContainText('begun');
	await fold.getByRole('button', { name: /^Soak and safety test/ }).click();
	await expect(heading(page)).toHaveText(/^Look over the finished work/);
	await fold.getByRole('button', { name: /^Trace the fault/ }).click();
	await expect(heading(page)).toHaveText(/^Check every switch/);
	await fold.getByRole('button', { name: /^Make it safe/ }).click();
	await expect(heading(page)).toHaveText('Discharge, then prove it dead');
	await fold.getByRole('link', { name: 'Set a part of the job by hand' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('The whole job');
	await expect(page.getByRole('button', { name: 'Set by hand: Make it safe' })).toHaveCount(0);
	await page.getByRole('button', { name: 'Set by hand: Alignment' }).click();
	await page.getByLabel('Why, in your words').fill('The dial is right');
	await clean(page);
	await page.getByRole('button', { name: 'Not needed' }).click();
	const row = page.getByRole('listitem').filter({ hasText: /^\s*Alignment/ });
	await expect(row).toContainText('Said by hand: The dial is right');
	expect((await events(page)).at(-1)).toMatchObject({
		kind: 'phase',
		data: { phase: 'alignment', state: 'not-needed', reason: 'The dial is right' }
	});
	await page.getByRole('button', { name: 'Let the log speak: Alignment' }).click();
	await expect(row).toContainText('Comes last');
	await overflow(page);
	await page.getByRole('button', { name: /^Alignment/ }).click();
	await expect(heading(page)).toBeVisible();
	expect((await events(page)).at(-1)).toMatchObject({ kind: 'flow-opened', data: { flow: 'align-am' } });
	expect(complaints).toEqual([]);
});

test('one tap makes the text that helpers ask for; it is read, changed and copied', async ({
	page,
	context,
	complaints
}) => {
	await context.grantPermissions(['clipboard-read', 'clipboard-write']);
	await page.goto('./');
	await page.getByRole('button', { name: 'Open the demo' }).click();
	await expect(heading(page)).toBeVisible();
	await unfold(page, 'Trail');
	await page.getByRole('link', { name: 'Ask others' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Ask others');
	const field = page.getByLabel('Text', { exact: true });
	const text = await field.inputValue();
	for (const part of [
		'AM/FM set with shared valves',
		'ECC85',
		'AM is faint, FM plays well',
		'It stood unused for years',
		'10 MΩ on volts',
		'Mains: 231 V',
		'−8.6 V',
		'−4.2 V',
		'what would you measure next?'
	])
		expect(text).toContain(part);
	expect(text).not.toMatch(/Demo|Loud for a second/);
	expect(text.split(/\s+/).length).toBeLessThan(300);
	await expect(page.getByText('Take names and places out.')).toContainText('Take names');
	await expect(page.getByText(/Left out already: the title, 1 note/)).toBeVisible();
	await field.fill(`${text}\n- Is the trimmer to blame?`);
	await page.getByRole('button', { name: 'Copy the text' }).click();
	await expect(page.getByRole('status').last()).toHaveText('Copied. Paste it where you ask.');
	expect(await page.evaluate(() => navigator.clipboard.readText())).toContain('Is the trimmer to blame?');
	await clean(page);
	await page.getByRole('button', { name: 'Write it anew' }).click();
	await expect(field).toHaveValue(text);
	await overflow(page);
	expect(complaints).toEqual([]);
});

test('where the page may not copy, the text is marked for the hand', async ({ page }) => {
	await page.addInitScript(() => Object.defineProperty(navigator, 'clipboard', { value: undefined }));
	await startJob(page);
	await unfold(page, 'Trail');
	await page.getByRole('link', { name: 'Ask others' }).click();
	await page.getByRole('button', { name: 'Copy the text' }).click();
	await expect(page.getByRole('status').last()).toContainText('The text is marked');
	expect(
		await page.evaluate(() => {
			const field = document.activeElement as HTMLTextAreaElement;
			return field.selectionEnd - field.selectionStart;
		})
	).toBeGreaterThan(100);
	await expect(stepPane(page)).toHaveCount(0);
});
