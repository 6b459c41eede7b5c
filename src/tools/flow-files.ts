import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { SourceText } from '../lib/flow/load.ts';

/** Every YAML file under `flows/` with its text, in a fixed order, named as from the top of the project. */
export function readFlowFiles(root: string): SourceText[] {
	return readdirSync(join(root, 'flows'), { recursive: true, withFileTypes: true })
		.filter((entry) => entry.isFile() && entry.name.endsWith('.yaml'))
		.map((entry) => join(entry.parentPath, entry.name))
		.map((file) => ({ path: relative(root, file).split(sep).join('/'), text: readFileSync(file, 'utf8') }))
		.sort((a, b) => (a.path < b.path ? -1 : 1));
}
