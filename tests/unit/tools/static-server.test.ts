import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fileFor, staticServer } from '../../../src/tools/static-server.ts';

const folder = mkdtempSync(join(tmpdir(), 'valvetrail-'));
const root = join(folder, 'build');
const server = staticServer(root, '/radio/');

beforeAll(async () => {
	mkdirSync(join(root, '_app/immutable'), { recursive: true });
	mkdirSync(join(root, 'flow'));
	writeFileSync(join(folder, 'secret.txt'), 'secret');
	writeFileSync(join(root, 'index.html'), 'home');
	writeFileSync(join(root, 'flow/index.html'), 'flow');
	writeFileSync(join(root, '200.html'), 'fallback');
	writeFileSync(join(root, '_app/immutable/a.js'), 'code');
	await once(server.listen(0, '127.0.0.1'), 'listening');
});

afterAll(() => {
	server.close();
	rmSync(folder, { recursive: true });
});

/** Asks for a path exactly as written: `fetch` would tidy it first. */
async function ask(path: string, method = 'GET') {
	const { port } = server.address() as AddressInfo;
	const asked = request({ host: '127.0.0.1', port, path, method, agent: false }).end();
	const [answer] = (await once(asked, 'response')) as [IncomingMessage];
	return { status: answer.statusCode, headers: answer.headers, body: await text(answer) };
}

describe('the server of the built app', () => {
	test.each([
		['/radio/', 'home'],
		['/radio/?step=1', 'home'],
		['/radio/flow/', 'flow'],
		['/radio/job/7/', 'fallback'],
		['/radio/_app/immutable/a.js', 'code']
	])('answers %s with %s', async (path, body) => {
		expect(await ask(path)).toMatchObject({ status: 200, body });
	});

	test.each([
		'/radio/gone.js',
		'/radio/../secret.txt',
		'/radio/%2e%2e/secret.txt',
		'/radio/..%2fsecret.txt',
		'/radio/%zz'
	])('has nothing at %s', async (path) => {
		expect(await ask(path)).toMatchObject({ status: 404, body: 'There is no such page.\n' });
	});

	test('sends an address above its sub-path to the app', async () => {
		expect(await ask('/')).toMatchObject({ status: 302, headers: { location: '/radio/' } });
	});

	test('only reads', async () => {
		expect((await ask('/radio/', 'POST')).status).toBe(405);
		expect(await ask('/radio/', 'HEAD')).toMatchObject({ status: 200, body: '' });
	});

	test('lets browsers keep for ever only what is named by its content', async () => {
		expect((await ask('/radio/_app/immutable/a.js')).headers['cache-control']).toContain('immutable');
		expect((await ask('/radio/')).headers['cache-control']).toBe('no-cache');
	});
});

test('a folder whose name begins like the served one is outside it', () => {
	expect(fileFor(root, '/../build-2/a.txt')).toBeUndefined();
	expect(fileFor(root, '/a\0.txt')).toBeUndefined();
	expect(fileFor(root, '/flow')).toBe(join(root, 'flow'));
});
