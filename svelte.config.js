import adapter from '@sveltejs/adapter-static';

/** @type {'' | `/${string}`} */
const basePath = process.env['BASE_PATH']?.startsWith('/') ? /** @type {`/${string}`} */ (process.env['BASE_PATH']) : '';

/** @type {import('@sveltejs/kit').Config} */
export default {
	compilerOptions: { runes: true },
	kit: {
		adapter: adapter({ fallback: '200.html', strict: true }),
		// Pages find each other under any path. Only the fallback page has to be told of a sub-path: BASE_PATH=/x.
		paths: { relative: true, base: basePath },
		csp: {
			mode: 'hash',
			directives: {
				'default-src': ['self'],
				'script-src': ['self'],
				'style-src': ['self'],
				'style-src-elem': ['self'],
				// Prerendered pages carry style attributes; they cannot run anything.
				'style-src-attr': ['unsafe-inline'],
				'img-src': ['self', 'blob:', 'data:'],
				'connect-src': ['self'],
				'worker-src': ['self'],
				'object-src': ['none'],
				'base-uri': ['self'],
				'form-action': ['none'],
				'require-trusted-types-for': ['script'],
				'trusted-types': ['svelte-trusted-html', 'sveltekit-trusted-url', 'app-worker']
			}
		}
	}
};
