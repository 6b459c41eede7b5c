import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Page } from '@playwright/test';
import { launchArgs, readyBrowser } from './browser.ts';
import { served } from './static-server.ts';

/** What an answer costs on the real page, in milliseconds. */
export interface PageTimes {
	/** From the tap until the next question stands there, which is after the disk. */
	shown: number[];
	/** Each write, until the browser calls it durable. */
	kept: number[];
}

/** Answers that are timed; the first ones, while the page is still cold, are not counted. */
const ANSWERS = 20;
const COLD = 4;

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

/** Says of the step in hand that it is not possible, and waits for the next one. Runs in the page. */
function answerOnce(): Promise<number> {
	const title = () => document.querySelector('.step h1')?.textContent;
	const buttons = [...document.querySelectorAll<HTMLButtonElement>('.step button')];
	const button = buttons.find(({ innerText }) => innerText.startsWith('Not possible here'));
	const before = title();
	const begun = performance.now();
	return new Promise((resolve) => {
		const watcher = new MutationObserver(() => {
			if (title() === before) return;
			watcher.disconnect();
			resolve(performance.now() - begun);
		});
		watcher.observe(document.body, { subtree: true, childList: true, characterData: true });
		button?.click();
	});
}

async function timeAnswers(page: Page, address: string): Promise<PageTimes> {
	// tsx names inner functions by a helper that the page does not have.
	await page.addInitScript('globalThis.__name = (one) => one');
	await page.addInitScript(watchWrites);
	await page.goto(address);
	await page.getByRole('button', { name: 'Open the demo' }).click();
	await page.getByRole('button', { name: 'Not possible here' }).waitFor();
	const shown: number[] = [];
	for (let asked = 0; asked < ANSWERS; asked++) {
		if (!(await page.getByRole('button', { name: 'Not possible here' }).isVisible())) break;
		if (asked === COLD)
			await page.evaluate(() => ((window as unknown as { writes: number[] }).writes.length = 0));
		const time = await page.evaluate(answerOnce);
		if (asked >= COLD) shown.push(time);
		// The row of the job list is written behind the answer.
		await page.waitForTimeout(200);
	}
	return { shown, kept: await page.evaluate(() => (window as unknown as { writes: number[] }).writes) };
}

/** Times answers in a job of the built app; `undefined` where none is built or no browser is found. */
export async function benchPage(root: string): Promise<PageTimes | undefined> {
	const build = join(root, 'build');
	const found = existsSync(join(build, 'index.html')) ? await readyBrowser() : undefined;
	if (!found?.ok) return undefined;
	const browser = await chromium.launch({ executablePath: found.path, args: launchArgs() });
	const page = await browser.newPage();
	return served(build, (address) => timeAnswers(page, address)).finally(() => browser.close());
}
