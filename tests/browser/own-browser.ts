import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser, type Page } from '@playwright/test';
import { launchArgs, readyBrowser } from '../../src/tools/browser.ts';

/** A browser with a folder of its own on disk, as a restorer has one: it can be killed and started again. */
export class OwnBrowser {
	readonly #folder = mkdtempSync(join(tmpdir(), 'valvetrail-browser-'));
	#process: ChildProcess | undefined;
	#browser: Browser | undefined;

	/** Start it and open a page. */
	async start(): Promise<Page> {
		const found = await readyBrowser();
		if (!found.ok) throw new Error(found.hint);
		const started = spawn(
			found.path,
			[...launchArgs(), '--headless=new', '--remote-debugging-port=0', `--user-data-dir=${this.#folder}`],
			// A group of its own, so that all its processes die at one blow.
			{ detached: true, stdio: ['ignore', 'ignore', 'pipe'] }
		);
		this.#process = started;
		this.#browser = await chromium.connectOverCDP(await addressOf(started));
		const context = this.#browser.contexts()[0];
		if (!context) throw new Error('The browser has no window.');
		return context.newPage();
	}

	/** End all its processes at once, as a power cut would. */
	async kill(): Promise<void> {
		const { pid } = this.#process ?? {};
		if (!this.#process || pid === undefined) return;
		const gone = once(this.#process, 'exit');
		process.kill(-pid, 'SIGKILL');
		await gone;
		await this.#browser?.close().catch(() => undefined);
		this.#process = undefined;
	}

	async remove(): Promise<void> {
		await this.kill();
		rmSync(this.#folder, { recursive: true, force: true, maxRetries: 5 });
	}
}

/** The address that it tells on its error output. */
function addressOf(started: ChildProcess): Promise<string> {
	return new Promise((resolve, reject) => {
		let text = '';
		started.stderr?.on('data', (piece: Buffer) => {
			text += piece.toString();
			const address = /DevTools listening on (ws:\S+)/.exec(text)?.[1];
			if (address) resolve(address);
		});
		started.once('exit', () => reject(new Error(`The browser has ended: ${text.slice(-500)}`)));
	});
}
