import adapter from '@sveltejs/adapter-static';

// Pages find each other under any path; only the fallback page has to be told of a sub-path: BASE_PATH=/radio.
const basePath = /** @type {'' | `/${string}`} */ (process.env['BASE_PATH'] ?? '');

const site = adapter({ fallback: '200.html', strict: true });

/** @type {import('@sveltejs/kit').Config} */
export default {
	compilerOptions: { runes: true },
	kit: {
		adapter: {
			...site,
			async adapt(builder) {
				await site.adapt(builder);
				// Some hosts know no fallback but this one.
				builder.copy('build/200.html', 'build/404.html');
			}
		},
		paths: { relative: true, base: basePath },
		prerender: {
			handleUnseenRoutes({ routes, message }) {
				// A library without a flow has no flow pages, and that is no fault.
				if (routes.some((route) => route !== '/flow/[id]')) throw new Error(message);
			},
			handleMissingId({ path, id, message }) {
				// There the fragment carries what was typed or chosen, or the name of a job: no place on the page.
				const typed = /^\/(sums|try)\//.test(path) && id.includes('=');
				const carriesData = /^\/(job|parts|diagram)\//.test(path) || typed;
				if (!carriesData) throw new Error(message);
			}
		},
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
