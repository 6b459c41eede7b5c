import { readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from '@playwright/test';

/** What a page makes the browser fetch before it can do anything: sizes are exact, so a test may hold them. */

const BUILD = join(import.meta.dirname, '../../build');

/** Budgets in kB of 1,000 bytes, gzip at its best level. Our own choice. */
const BUDGETS = [
	{ page: 'index.html', kilobytes: 60 },
	{ page: 'job/index.html', kilobytes: 110 }
];

const found = (text: string, pattern: RegExp) => [...text.matchAll(pattern)].map(([, name = '']) => name);

/** The scripts that the page names: to be fetched beforehand, and to be run. */
function namedIn(page: string): string[] {
	const html = readFileSync(join(BUILD, page), 'utf8');
	const names = [
		...found(html, /<link href="([^"]+\.js)" rel="modulepreload">/g),
		...found(html, /\bimport\("([^"]+\.js)"\)/g)
	];
	return names.map((name) => resolve(BUILD, dirname(page), name));
}

/** These scripts and whatever they import before they run. */
function withImports(files: readonly string[]): Set<string> {
	const all = new Set<string>();
	const queue = [...files];
	for (let file = queue.pop(); file !== undefined; file = queue.pop()) {
		if (all.has(file)) continue;
		all.add(file);
		const names = found(readFileSync(file, 'utf8'), /\b(?:import|from)\s*["'](\.[^"']+\.js)["']/g);
		for (const name of names) queue.push(resolve(dirname(file), name));
	}
	return all;
}

const sizeOf = (file: string) => gzipSync(readFileSync(file), { level: 9 }).length;

for (const { page, kilobytes } of BUDGETS) {
	test(`${page} starts with at most ${kilobytes} kB of scripts`, () => {
		const named = namedIn(page);
		expect(named.length).toBeGreaterThan(5);
		const files = withImports(named);
		const sizes = [...files].map((file) => ({ file, size: sizeOf(file) })).sort((a, b) => b.size - a.size);
		const total = sizes.reduce((sum, { size }) => sum + size, 0);
		const largest = sizes.slice(0, 5).map(({ file, size }) => `${size} ${file.slice(BUILD.length + 1)}`);
		expect(total, `largest: ${largest.join(', ')}`).toBeLessThanOrEqual(kilobytes * 1000);
	});
}
