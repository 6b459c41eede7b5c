import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { dirname, join, relative, resolve, sep } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';

/** The import rule of the layout: who may know of whom. Each folder names its neighbours and its packages. */

interface Rule {
	folders: readonly string[];
	/** Prefixes of packages and virtual modules; `node:` stands for what Node itself brings. */
	packages: readonly string[];
}

const CORE = ['quantity', 'suspects', 'calculations', 'valves', 'receiver', 'flow', 'job'];
const inLib = (names: readonly string[]) => names.map((name) => `src/lib/${name}`);
const FACE = ['svelte', '$app/', '$lib/', 'virtual:'];

const RULES: Record<string, Rule> = {
	'src/lib/quantity': { folders: [], packages: ['zod'] },
	'src/lib/suspects': { folders: [], packages: [] },
	'src/lib/calculations': { folders: inLib(['quantity']), packages: [] },
	'src/lib/valves': { folders: inLib(['quantity']), packages: ['zod'] },
	'src/lib/receiver': { folders: inLib(['quantity', 'valves']), packages: ['zod'] },
	'src/lib/flow': {
		folders: inLib(CORE.slice(0, 5)),
		packages: ['zod', 'yaml', 'xstate', '@dagrejs/dagre', 'minisearch']
	},
	'src/lib/job': { folders: inLib(CORE.slice(0, 6)), packages: ['zod', 'xstate', 'dexie'] },
	'src/lib/ui': { folders: inLib(CORE), packages: [...FACE, 'marked', 'd3-scale', 'd3-shape', 'minisearch'] },
	'src/routes': { folders: ['src/lib'], packages: [...FACE, '@sveltejs/kit', '@fontsource-variable/'] },
	'src/service-worker': { folders: [], packages: ['$service-worker'] },
	'src/tools': {
		folders: inLib(CORE),
		packages: ['node:', 'vite', '@playwright/test', 'marked', 'prettier', 'yaml', 'zod']
	}
};

interface Import {
	file: string;
	line: number;
	/** As written, and as a path from the top of the project where it names a file. */
	name: string;
	target: string | undefined;
}

/** Svelte's markup becomes blanks of the same length, so that lines stay where they are. */
const scriptOf = (text: string): string =>
	text.replace(/(<script[^>]*>)([\s\S]*?)<\/script>|[^\n]/g, (all, open: string, code: string) =>
		code === undefined
			? ' '
			: ' '.repeat(open.length) + code + ' '.repeat(all.length - open.length - code.length)
	);

function targetOf(file: string, name: string): string | undefined {
	if (name.startsWith('$lib/'))
		return relative('.', resolve('src/lib', name.slice(5)))
			.split(sep)
			.join('/');
	if (!name.startsWith('.') || name === './$types') return undefined;
	return relative('.', resolve(dirname(file), name))
		.split(sep)
		.join('/');
}

function importsIn(file: string, text: string): Import[] {
	const code = file.endsWith('.svelte') ? scriptOf(text) : text;
	return ts.preProcessFile(code, true, true).importedFiles.map(({ fileName, pos }) => ({
		file,
		line: code.slice(0, pos).split('\n').length,
		name: fileName,
		target: targetOf(file, fileName)
	}));
}

const folderOf = (path: string) =>
	Object.keys(RULES).find((folder) => path === folder || path.startsWith(`${folder}/`));
const isWithin = (path: string, folder: string) => path === folder || path.startsWith(`${folder}/`);
const isNode = (name: string) => name.startsWith('node:') || builtinModules.includes(name);
const isNamed = (name: string, prefix: string) =>
	/[:/]$/.test(prefix) ? name.startsWith(prefix) : name === prefix || name.startsWith(`${prefix}/`);

function complaintAbout({ file, line, name, target }: Import): string[] {
	const folder = folderOf(file);
	const rule = folder === undefined ? undefined : RULES[folder];
	if (!folder || !rule || name === './$types') return [];
	const at = `${file}:${line} imports "${name}"`;
	if (target === undefined) {
		const named = isNode(name) ? 'node:' : name;
		return rule.packages.some((prefix) => isNamed(named, prefix))
			? []
			: [`${at}: ${folder} may not know of it`];
	}
	if (folder !== 'src/lib/ui' && folder !== 'src/routes' && !/\.(ts|mjs)$/.test(name))
		return [`${at}: write the path with its .ts extension`];
	return [folder, ...rule.folders].some((allowed) => isWithin(target, allowed))
		? []
		: [`${at}: ${folder} may import ${rule.folders.join(', ') || 'nothing but its own files'}`];
}

const sources = readdirSync('src', { recursive: true, encoding: 'utf8' })
	.filter((name) => /\.(ts|mjs|svelte)$/.test(name) && !name.endsWith('.d.ts'))
	.map((name) => join('src', name).split(sep).join('/'));

const complaints = (file: string, text: string) => importsIn(file, text).flatMap(complaintAbout);

describe('the import rule', () => {
	test('every folder of the core and above imports only from those below it', () => {
		expect(sources.flatMap((file) => complaints(file, readFileSync(file, 'utf8')))).toEqual([]);
	});

	test('every folder with code has a rule', () => {
		const loose = sources.filter((file) => !folderOf(file));
		expect(loose).toEqual([]);
	});

	test.each([
		[
			'src/lib/quantity/x.ts',
			"import { a } from '../valves/a.ts';",
			'src/lib/quantity/x.ts:1 imports "../valves/a.ts"'
		],
		[
			'src/lib/flow/x.ts',
			"\nexport type { J } from '../job/j.ts';",
			'src/lib/flow/x.ts:2 imports "../job/j.ts"'
		],
		['src/lib/job/x.ts', "const now = await import('node:fs');", 'src/lib/job/x.ts:1 imports "node:fs"'],
		['src/lib/job/x.ts', "import { readFile } from 'fs';", 'src/lib/job/x.ts:1 imports "fs"'],
		['src/lib/suspects/x.ts', "import { z } from 'zod';", 'src/lib/suspects/x.ts:1 imports "zod"'],
		[
			'src/lib/valves/x.ts',
			"import '../quantity/index';",
			'src/lib/valves/x.ts:1 imports "../quantity/index"'
		],
		['src/tools/x.ts', "import '../lib/ui/count.ts';", 'src/tools/x.ts:1 imports "../lib/ui/count.ts"'],
		[
			'src/lib/ui/X.svelte',
			'<b>a</b>\n<script lang="ts">\n\timport \'$lib/../tools/io.ts\';\n</script>',
			'src/lib/ui/X.svelte:3'
		],
		['src/routes/x.ts', "import '../../tests/library.ts';", 'src/routes/x.ts:1']
	])('%s with %j is found, with its line', (file, text, found) => {
		expect(complaints(file, text)[0]).toContain(found);
	});

	test('a neighbour below, a package of the folder and a file beside it are no fault', () => {
		const text = "import '../quantity/index.ts';\nimport { z } from 'zod';\nimport './plan.ts';";
		expect(complaints('src/lib/receiver/x.ts', text)).toEqual([]);
	});
});
