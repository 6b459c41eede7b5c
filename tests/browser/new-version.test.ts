import { once } from 'node:events';
import { appendFileSync, cpSync, mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { staticServer } from '../../src/tools/static-server.ts';
import { expect, test as plain } from './bench.ts';

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
