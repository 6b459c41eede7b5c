import { join } from 'node:path';
import { lexer } from 'marked';
import type { Plugin } from 'vite';
import { printFinding } from '../lib/flow/finding.ts';
import { loadLibrary, type LoadResult } from '../lib/flow/load.ts';
import { pageOf, summaryOf } from '../lib/flow/pages.ts';
import type { Library } from '../lib/flow/library.ts';
import type { Flow } from '../lib/flow/schema.ts';
import { readFlowFiles } from './flow-files.ts';

/**
 * Gives the pages the flows as plain data: `virtual:flows` holds a summary of each and opens the rest,
 * `virtual:flows/<id>` is one flow's page, `virtual:words` the glossary, `virtual:library` is everything. A flow that does not hold together stops the build.
 */

const NAME = 'virtual:flows';
const RESOLVED = `\0${NAME}`;

const asData = (value: unknown): string => `JSON.parse(${JSON.stringify(JSON.stringify(value))})`;

/** A flow as the first page lists it, its complaint read from Markdown already. */
function listed(library: Library, flow: Flow) {
	const summary = summaryOf(library, flow);
	return { ...summary, about: [...lexer(summary.about)] };
}

function indexModule(library: Library): string {
	const list = Object.values(library.flows);
	const openers = list.map(
		({ id }) => `${JSON.stringify(id)}: () => import(${JSON.stringify(`${NAME}/${id}`)})`
	);
	return [
		`export const flows = ${asData(list.map((flow) => listed(library, flow)))};`,
		`const openers = { ${openers.join(', ')} };`,
		'export const openFlow = async (id) => Object.hasOwn(openers, id) ? (await openers[id]()).default : undefined;'
	].join('\n');
}

const LIBRARY = 'virtual:library';
const WORDS = 'virtual:words';
const ours = (id: string) => id === NAME || id === LIBRARY || id === WORDS || id.startsWith(`${NAME}/`);

function wordsModule({ glossary = {} }: Library): string {
	const words = Object.entries(glossary).map(([id, word]) => ({ id, ...word }));
	words.sort((a, b) => a.british.localeCompare(b.british));
	return `export const words = ${asData(words)};`;
}

/** The code of a module of ours, or nothing where no flow has that id. */
function moduleFor(library: Library, id: string): string | undefined {
	if (id === RESOLVED) return indexModule(library);
	if (id === `\0${LIBRARY}`) return `export default ${asData(library)};`;
	if (id === `\0${WORDS}`) return wordsModule(library);
	const flow = library.flows[id.slice(RESOLVED.length + 1)];
	return flow && `export default ${asData(pageOf(library, flow))};`;
}

export function flowsPlugin(): Plugin {
	let root = process.cwd();
	let loaded: LoadResult | undefined;
	const load = () => (loaded ??= loadLibrary(readFlowFiles(root)));

	return {
		name: 'valvetrail-flows',
		configResolved(config) {
			root = config.root;
		},
		buildStart() {
			loaded = undefined;
		},
		resolveId: (id) => (ours(id) ? `\0${id}` : undefined),
		load(id) {
			if (!id.startsWith('\0') || !ours(id.slice(1))) return undefined;
			for (const { path } of readFlowFiles(root)) this.addWatchFile(join(root, path));
			const result = load();
			if (!result.ok) return this.error(result.findings.map(printFinding).join('\n\n'));
			if (id === RESOLVED && result.advice.length)
				this.info(`Advice on the flows: ${result.advice.length}. Read it with  npm run -s flow -- check`);
			return moduleFor(result.library, id);
		},
		configureServer(server) {
			const folder = join(root, 'flows');
			server.watcher.add(folder);
			server.watcher.on('all', (_event, file) => {
				if (!file.startsWith(folder)) return;
				loaded = undefined;
				for (const environment of Object.values(server.environments)) environment.moduleGraph.invalidateAll();
				server.ws.send({ type: 'full-reload' });
			});
		}
	};
}
