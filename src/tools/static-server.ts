import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { readFile, stat } from 'node:fs/promises';
import { createServer, type ServerResponse } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';

const TYPES: Record<string, string> = {
	'.css': 'text/css; charset=utf-8',
	'.html': 'text/html; charset=utf-8',
	'.ico': 'image/x-icon',
	'.js': 'text/javascript; charset=utf-8',
	'.json': 'application/json; charset=utf-8',
	'.png': 'image/png',
	'.svg': 'image/svg+xml',
	'.txt': 'text/plain; charset=utf-8',
	'.wasm': 'application/wasm',
	'.webmanifest': 'application/manifest+json',
	'.woff2': 'font/woff2'
};

/**
 * The file below `root` that a request path stands for; nothing where the path leads outside or cannot be
 * read as an address.
 */
export function fileFor(root: string, path: string): string | undefined {
	let plain: string;
	try {
		plain = decodeURIComponent(path);
	} catch {
		return undefined;
	}
	if (plain.includes('\0')) return undefined;
	const file = normalize(join(root, plain));
	return file === root || file.startsWith(root.endsWith(sep) ? root : root + sep) ? file : undefined;
}

async function isFile(file: string): Promise<boolean> {
	return stat(file).then(
		(found) => found.isFile(),
		() => false
	);
}

/** File and status that answer a path below the base. */
export async function answerFor(root: string, path: string): Promise<{ file?: string; status: number }> {
	const file = fileFor(root, path);
	if (!file) return { status: 404 };
	for (const candidate of [file, join(file, 'index.html')])
		if (await isFile(candidate)) return { file: candidate, status: 200 };
	return extname(path) ? { status: 404 } : { file: join(root, '200.html'), status: 200 };
}

async function send(response: ServerResponse, root: string, path: string, body: boolean): Promise<void> {
	const { file, status } = await answerFor(root, path);
	const content = file ? await readFile(file) : Buffer.from('There is no such page.\n');
	response.writeHead(status, {
		'content-type': TYPES[file ? extname(file) : '.txt'] ?? 'application/octet-stream',
		'content-length': content.length,
		'cache-control': path.includes('/_app/immutable/') ? 'public, max-age=31536000, immutable' : 'no-cache',
		'x-content-type-options': 'nosniff'
	});
	response.end(body ? content : undefined);
}

/**
 * Serves the files under `root` as any static host would, below `base` ("/" or "/sub/path/"): the exact file,
 * else the folder's index, else `200.html` for a page that only the browser knows, else 404.
 */
export const staticServer = (root: string, base: string) =>
	createServer((request, response) => {
		const path = (request.url ?? '/').replace(/[?#].*$/, '');
		if (request.method !== 'GET' && request.method !== 'HEAD') {
			response.writeHead(405, { allow: 'GET, HEAD' }).end();
		} else if (!path.startsWith(base)) {
			response.writeHead(302, { location: base }).end();
		} else {
			send(response, root, `/${path.slice(base.length)}`, request.method === 'GET').catch(
				(cause: unknown) => {
					console.error(cause);
					response.destroy();
				}
			);
		}
	});

/** Served from a port of its own while `work` looks at it. */
export async function served<Value>(root: string, work: (address: string) => Promise<Value>): Promise<Value> {
	const server = staticServer(root, '/').listen(0, '127.0.0.1');
	await once(server, 'listening');
	try {
		return await work(`http://localhost:${(server.address() as AddressInfo).port}/`);
	} finally {
		server.closeAllConnections();
		server.close();
	}
}
