import { once } from 'node:events';
import { appendFileSync, cpSync, mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { staticServer } from '../../src/tools/static-server.ts';
import { expect, test as plain } from './bench.ts';
import { answer, events, heading, startJob } from './job-steps.ts';

/** A copy of the built app that a test may change while it is served. */
const test = plain.extend<{ copy: string }>({
	copy: async ({}, use) => {
		const root = mkdtempSync(join(tmpdir(), 'valvetrail-'));
		cpSync(join(import.meta.dirname, '../../build'), root, { recursive: true });
		await use(root);
		rmSync(root, { recursive: true });
	},
	baseURL: async ({ copy }, use) => {
		const server = staticServer(copy, '/').listen(0, '127.0.0.1');
		await once(server, 'listening');
		await use(`http://localhost:${(server.address() as AddressInfo).port}/`);
		server.closeAllConnections();
		server.close();
	}
});

test('an app that is renewed under an open job keeps every entry, and comes up at the same step', async ({
	page,
	copy
}) => {
	await startJob(page, { playing: true });
	await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
	await answer(page);
	appendFileSync(join(copy, 'service-worker.js'), '\n// A later release.\n');
	await page.evaluate(async () => (await navigator.serviceWorker.ready).update());
	const ask = page.getByRole('button', { name: 'Use it now' });
	await expect(ask).toBeVisible();
	const step = await answer(page);
	const before = await events(page);
	await Promise.all([page.waitForEvent('load'), ask.click()]);
	await expect(heading(page)).toHaveText(step);
	const after = await events(page);
	expect(after.slice(0, before.length)).toEqual(before);
	expect(after.slice(before.length).map(({ kind }) => kind)).toEqual(['power']);
});

test('a newer version waits until it is asked for', async ({ page, copy }) => {
	const controlled = () =>
		page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
	const ask = page.getByRole('button', { name: 'Use it now' });
	await page.goto('./');
	await controlled();
	await expect(ask).toBeHidden();

	appendFileSync(join(copy, 'service-worker.js'), '\n// A later release.\n');
	await page.reload();
	await expect(ask).toBeVisible();
	await page.reload();
	await expect(ask).toBeVisible();

	await Promise.all([page.waitForEvent('load'), ask.click()]);
	await controlled();
	await expect(ask).toBeHidden();
});
