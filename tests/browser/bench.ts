import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { test as plain } from '@playwright/test';
import { staticServer } from '../../src/tools/static-server.ts';

export { expect } from '@playwright/test';

interface Watched {
	/** What the browser complained about on the page. */
	complaints: string[];
}

interface Served {
	/** Path under which the app is served. */
	under: string;
	/** Address of the app, on a port of its own. */
	served: string;
}

/** A test on the built app. Each worker serves it itself, so that runs beside each other do not meet. */
export const test = plain.extend<Watched, Served>({
	under: ['/', { option: true, scope: 'worker' }],
	served: [
		async ({ under }, use) => {
			const server = staticServer(join(import.meta.dirname, '../../build'), under).listen(0, '127.0.0.1');
			await once(server, 'listening');
			await use(`http://localhost:${(server.address() as AddressInfo).port}${under}`);
			server.closeAllConnections();
			server.close();
		},
		{ scope: 'worker' }
	],
	baseURL: async ({ served }, use) => use(served),
	complaints: async ({ page }, use) => {
		const complaints: string[] = [];
		page.on('console', (message) => {
			if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
		});
		page.on('pageerror', (error) => complaints.push(error.message));
		await use(complaints);
	}
});
