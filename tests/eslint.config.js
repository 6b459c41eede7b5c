import { fileURLToPath } from 'node:url';
import svelte from 'eslint-plugin-svelte';
import { defineConfig, globalIgnores } from 'eslint/config';
import globals from 'globals';
import ts from 'typescript-eslint';
import svelteConfig from '../svelte.config.js';

const root = fileURLToPath(new URL('..', import.meta.url));

export default defineConfig(
	{ basePath: root, extends: [globalIgnores(['build/', '.svelte-kit/', '.reports/', 'test-results/'])] },
	ts.configs.recommended,
	svelte.configs.recommended,
	{
		languageOptions: { globals: { ...globals.browser, ...globals.node } },
		rules: {
			'no-undef': 'off',
			'no-console': 'off',
			eqeqeq: 'error',
			'no-implicit-coercion': 'error',
			'prefer-const': 'error',
			'@typescript-eslint/consistent-type-imports': 'error',
			'@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }]
		}
	},
	{
		files: ['**/*.svelte', '**/*.svelte.ts'],
		languageOptions: { parserOptions: { parser: ts.parser, extraFileExtensions: ['.svelte'], svelteConfig } },
		// `let` is how Svelte declares props; its own form of the rule knows.
		rules: { 'prefer-const': 'off', 'svelte/prefer-const': 'error' }
	},
	{
		// Writing in Markdown may link to the outside; it is checked where it is shown.
		files: ['src/lib/ui/MarkdownTokens.svelte'],
		rules: { 'svelte/no-navigation-without-resolve': 'off' }
	}
);
