import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';
import { flowsPlugin } from './src/tools/flows-plugin.ts';

const project = (name: string) => ({
	extends: true as const,
	// Generous: a whole trace on a machine of two cores that has other work.
	test: { name, include: [`tests/${name}/**/*.test.ts`], environment: 'node' as const, testTimeout: 60_000 }
});

export default defineConfig({
	plugins: [flowsPlugin(), sveltekit()],
	// Every core: nothing else runs while the tests do.
	test: { maxWorkers: '100%', projects: ['unit', 'published', 'cases'].map(project) }
});
