import { existsSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { chromium, type Locator, type Page } from '@playwright/test';
import type { Library } from '../../src/lib/flow/library.ts';
import type { ResolvedFlow } from '../../src/lib/flow/resolve.ts';
import { launchArgs, readyBrowser } from '../../src/tools/browser.ts';
import { served } from '../../src/tools/static-server.ts';
import { quantile, type Row } from './row.ts';
import { EVENTS, JOBS, patternJob, seedJobs, type Pattern } from './storage-seed.ts';

/** What a life at the bench costs: the built app in a real browser on thousands of jobs. */

const ROUNDS = 7;

const median = (times: readonly number[]) => quantile(times, 0.5);

/** Longest time that the page was held up, in milliseconds, since it was last asked. Runs in the page. */
function watchBlocks(): void {
	let [longest, before] = [0, performance.now()];
	setInterval(() => {
		const now = performance.now();
		longest = Math.max(longest, now - before);
		before = now;
	}, 5);
	Object.assign(window, {
		longestBlock: () => {
			const found = longest;
			longest = 0;
			return found;
		}
	});
}

/** Notes how long each writing transaction takes. Runs in the page, before anything else. */
function watchWrites(): void {
	const writes: number[] = [];
	Object.assign(window, { writes });
	const open = IDBDatabase.prototype.transaction;
	IDBDatabase.prototype.transaction = function (stores, mode, options) {
		const begun = performance.now();
		const transaction = open.call(this, stores, mode, options);
		if (mode === 'readwrite')
			transaction.addEventListener('complete', () => writes.push(performance.now() - begun));
		return transaction;
	};
}

/** From a press on what is named first until what is named last stands on the page. Runs in the page. */
function timeUntil([press, until]: readonly [press: string, until: string]): Promise<number> {
	const pressed = document.querySelector<HTMLElement>(press);
	const begun = performance.now();
	return new Promise((done) => {
		const look = () => {
			if (!document.querySelector(until)) return;
			watcher.disconnect();
			done(performance.now() - begun);
		};
		const watcher = new MutationObserver(look);
		watcher.observe(document.body, { subtree: true, childList: true });
		pressed?.click();
	});
}

/** From a letter in the search until its answer is drawn. Runs in the page. */
function timeSearch(words: string): Promise<number> {
	const field = document.querySelector<HTMLInputElement>('[aria-label="Jobs"] input[type="search"]');
	const rows = () => document.querySelector('[aria-label="Jobs"] ul')?.textContent;
	const before = rows();
	if (!field) return Promise.resolve(Number.NaN);
	const begun = performance.now();
	return new Promise((done) => {
		const watcher = new MutationObserver(() => {
			if (rows() === before) return;
			watcher.disconnect();
			done(performance.now() - begun);
		});
		watcher.observe(document.body, { subtree: true, childList: true, characterData: true });
		field.value = words;
		field.dispatchEvent(new Event('input', { bubbles: true }));
	});
}

const HOME = 'header a';
const LIST = '[aria-label="Jobs"] li a';
const KEEP = '.device a[href*="keep"]';
const STEP = '[aria-label="Step"] h1';

interface Times {
	list: number[];
	search: number[];
	opened: number[];
	kept: number[];
	export: Work & { megabytes: number };
	/** The file checked where its jobs are already, and where there are none. */
	lookInto: Work;
	checked: Work;
	takenIn: Work;
}

/** Long work on a file, with the longest time that the page was held up by it, in milliseconds. */
interface Work {
	seconds: number;
	longest: number;
}

const longestBlock = (page: Page) =>
	page.evaluate(() => (window as unknown as { longestBlock: () => number }).longestBlock());

/** From the page of the data back to the list, and from the list into a job. */
async function timeOpening(page: Page): Promise<Pick<Times, 'list' | 'opened'>> {
	const [list, opened]: [number[], number[]] = [[], []];
	for (let round = 0; round < ROUNDS; round++) {
		await page.locator(KEEP).click();
		await page.getByRole('heading', { name: 'Job by job' }).waitFor();
		list.push(await page.evaluate(timeUntil, [HOME, LIST] as const));
		opened.push(await page.evaluate(timeUntil, [LIST, STEP] as const));
		await page.locator(HOME).first().click();
		await page.locator(LIST).first().waitFor();
	}
	return { list, opened };
}

async function timeSearches(page: Page): Promise<number[]> {
	const field = page.getByRole('region', { name: 'Jobs' }).getByRole('searchbox');
	if ((await field.count()) === 0) return [];
	const times: number[] = [];
	for (const words of ['4321', 'Set no. 17', 'weak 99', 'no. 250'].slice(0, ROUNDS)) {
		await field.fill('');
		await page.waitForTimeout(500);
		times.push(await page.evaluate(timeSearch, words));
	}
	await field.fill('');
	return times;
}

/** Answers in one of the jobs, each timed until the browser calls it durable. */
async function timeWrites(page: Page): Promise<number[]> {
	await page.locator(LIST).first().click();
	await page.locator(STEP).first().waitFor();
	const field = page.getByLabel('Note', { exact: true });
	if (!(await field.isVisible())) await page.locator('summary', { hasText: 'Trail' }).click();
	await page.evaluate(() => ((window as unknown as { writes: number[] }).writes.length = 0));
	for (let round = 0; round < ROUNDS; round++) {
		await field.fill(`note ${round}`);
		await page.getByRole('button', { name: 'Keep the note' }).click();
		await page.waitForTimeout(400);
	}
	return page.evaluate(() => (window as unknown as { writes: number[] }).writes);
}

/** How long a deed takes until what it ends with stands on the page. */
async function timeWork(page: Page, deed: () => Promise<void>, end: Locator): Promise<Work> {
	await longestBlock(page);
	const begun = performance.now();
	await deed();
	await end.waitFor({ timeout: 600_000 });
	return { seconds: (performance.now() - begun) / 1000, longest: await longestBlock(page) };
}

const foundIn = (page: Page) => page.getByRole('group', { name: 'What the file holds' });
const choose = (page: Page, path: string) => page.getByLabel('Job file').setInputFiles(path);

/** On a device that has no job yet. */
async function timeTakeIn(page: Page, path: string): Promise<Pick<Times, 'checked' | 'takenIn'>> {
	const address = page.url();
	const other = await page.context().browser()!.newPage();
	await watched(other);
	await other.goto(address);
	await other.getByRole('heading', { name: 'From a file' }).waitFor();
	const checked = await timeWork(other, () => choose(other, path), foundIn(other));
	const take = () => other.getByRole('button', { name: /^Take in all/ }).click();
	const takenIn = await timeWork(other, take, other.getByText(/jobs taken in\.$/));
	await other.close();
	return { checked, takenIn };
}

async function timeFiles(page: Page): Promise<Pick<Times, 'export' | 'lookInto' | 'checked' | 'takenIn'>> {
	await page.locator(HOME).first().click();
	await page.locator(KEEP).click();
	await page.getByRole('heading', { name: 'Job by job' }).waitFor();
	await page.waitForTimeout(1000);
	await longestBlock(page);
	const begun = performance.now();
	const waiting = page.waitForEvent('download', { timeout: 600_000 });
	await page.getByRole('button', { name: 'Save everything to a file' }).click();
	const download = await waiting;
	const seconds = (performance.now() - begun) / 1000;
	const longest = await longestBlock(page);
	const path = await download.path();
	const lookInto = await timeWork(page, () => choose(page, path), foundIn(page));
	const megabytes = (await stat(path)).size / 1e6;
	return { export: { seconds, longest, megabytes }, lookInto, ...(await timeTakeIn(page, path)) };
}

async function watched(page: Page): Promise<void> {
	// tsx names inner functions by a helper that the page does not have.
	await page.addInitScript('globalThis.__name = (one) => one');
	await page.addInitScript(watchWrites);
	await page.addInitScript(watchBlocks);
}

async function timeAll(page: Page, address: string, pattern: Pattern): Promise<Times> {
	await watched(page);
	await page.goto(address);
	await page.getByText('No job in this browser yet').waitFor();
	await seedJobs(page, pattern);
	await page.goto(address);
	await page.locator(LIST).first().waitFor({ timeout: 120_000 });
	const opening = await timeOpening(page);
	const search = await timeSearches(page);
	const kept = await timeWrites(page);
	return { ...opening, search, kept, ...(await timeFiles(page)) };
}

const ms = (time: number) => `${time.toFixed(0)} ms`;

function timeRow(what: string, times: readonly number[], goal: number): Row {
	const middle = median(times);
	return {
		id: '',
		what,
		figure: ms(middle),
		interval: `${(middle / goal).toFixed(2)} of the goal; slowest of ${times.length} ${ms(Math.max(...times))}`,
		goal: `at most ${goal} ms`,
		met: middle <= goal
	};
}

const EXPORT_GOAL = 20;

const workRow = (what: string, { seconds, longest }: Work): Row => ({
	id: '',
	what,
	figure: `${seconds.toFixed(1)} s`,
	interval: `${((1000 * seconds) / JOBS).toFixed(1)} ms a job; page held up ${ms(longest)} at most`,
	goal: ''
});

function fileRows({ export: out, lookInto, checked, takenIn }: Times): Row[] {
	const share = (out.seconds / EXPORT_GOAL).toFixed(2);
	return [
		{
			id: '',
			what: 'all jobs to one file',
			figure: `${out.seconds.toFixed(1)} s`,
			interval: `${share} of the goal; ${out.megabytes.toFixed(0)} MB, page held up ${ms(out.longest)} at most`,
			goal: `at most ${EXPORT_GOAL} s`,
			met: out.seconds <= EXPORT_GOAL
		},
		workRow('the same file read and checked, against what is here', lookInto),
		workRow('read and checked on a device without a job', checked),
		workRow('taken in there', takenIn)
	];
}

/** The rows of the table; one that says so where no app is built or no browser is found. */
export async function storageRows(library: Library, flow: ResolvedFlow, root: string): Promise<Row[]> {
	const build = join(root, 'build');
	const found = existsSync(join(build, 'index.html')) ? await readyBrowser() : undefined;
	const what = `${JOBS} jobs of ${EVENTS} entries`;
	if (!found?.ok) return [{ id: '', what, figure: '-', interval: 'no built app, or no browser', goal: '' }];
	const pattern = await patternJob(library, flow);
	const browser = await chromium.launch({ executablePath: found.path, args: launchArgs() });
	const page = await browser.newPage();
	const times = await served(build, (address) => timeAll(page, address, pattern)).finally(() =>
		browser.close()
	);
	return [
		timeRow(`${what}: the list opens`, times.list, 200),
		...(times.search.length > 0 ? [timeRow('a search answers', times.search, 200)] : []),
		timeRow('a job opens, to its step', times.opened, 150),
		timeRow('one entry on disk', times.kept, 50),
		...fileRows(times)
	];
}
