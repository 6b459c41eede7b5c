import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';
import { flowsPlugin } from './src/tools/flows-plugin.ts';

const project = (name: string) => ({
	extends: true as const,
	test: { name, include: [`tests/${name}/**/*.test.ts`], environment: 'node' as const }
});

export default defineConfig({
	plugins: [flowsPlugin(), sveltekit()],
	test: { projects: ['unit', 'published', 'cases'].map(project) }
});
