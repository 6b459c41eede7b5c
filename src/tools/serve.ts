import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { staticServer } from './static-server.ts';

/**
 * Serves the built app on this machine.
 *
 *     tsx src/tools/serve.ts [--port 4173] [--host 127.0.0.1] [--base /sub/path/]
 */

const ROOT = join(import.meta.dirname, '../../build');

interface Options {
	port: number;
	host: string;
	base: string;
}

function options(): Options {
	const text = { type: 'string' } as const;
	const { values } = parseArgs({ options: { port: text, host: text, base: text } });
	return {
		port: Number(values.port ?? process.env['PORT'] ?? 4173),
		host: values.host ?? process.env['HOST'] ?? '127.0.0.1',
		base: `/${values.base ?? ''}/`.replace(/\/+/g, '/')
	};
}

function refuse(hint: string): void {
	console.error(hint);
	process.exitCode = 1;
}

function serve({ port, host, base }: Options): void {
	const server = staticServer(ROOT, base);
	server.on('error', ({ code, message }: NodeJS.ErrnoException) =>
		refuse(
			code === 'EADDRINUSE' ? `Port ${port} is taken. Choose another: PORT=${port + 1} npm start` : message
		)
	);
	server.listen(port, host, () => {
		const address = server.address();
		const bound = typeof address === 'object' && address ? address.port : port;
		console.log(`Valvetrail is ready at http://${host === '127.0.0.1' ? 'localhost' : host}:${bound}${base}`);
	});
}

const chosen = options();
if (!Number.isInteger(chosen.port) || chosen.port < 0 || chosen.port > 65535)
	refuse('A port is a whole number from 0 to 65535: PORT=4173 npm start');
else if (!existsSync(join(ROOT, '200.html'))) refuse('There is no built app yet. Run: npm run build');
else serve(chosen);
