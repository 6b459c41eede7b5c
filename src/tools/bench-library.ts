import { loadLibrary, type SourceText } from '../lib/flow/load.ts';
import { checkFiles } from './flow-check.ts';

/** What it costs to check many flows, and one: the shipped ones stand for all, over and over under new ids. */

export const MANY = 500;
const GOAL_MANY_S = 10;
const GOAL_ONE_S = 2;

const FLOW = /^flows\/([^/]+)\.yaml$/;

/** A flow under another id, its own parts too, so that none stands twice. */
function copyOf({ path, text }: SourceText, number: number): SourceText {
	const own = /\nown:\n[\s\S]*/.exec(text)?.[0] ?? '';
	const ids = [...own.matchAll(/^ {4}([a-z][a-z0-9-]*):/gm)].map(([, id = '']) => id);
	const renamed = ids.reduce(
		(all, id) => all.replace(new RegExp(`(?<![\\w-])${id}(?![\\w-])`, 'g'), `${id}-${number}`),
		text.replace(/^id: *([a-z0-9-]+)/m, `id: $1-${number}`)
	);
	return { path: path.replace('.yaml', `-${number}.yaml`), text: renamed };
}

/** The library with so many flows in all. */
export function multiplied(files: readonly SourceText[], flows: number): SourceText[] {
	const shipped = files.filter(({ path }) => FLOW.test(path));
	const more = Array.from({ length: flows - shipped.length }, (_, i) => {
		const source = shipped[i % shipped.length] as SourceText;
		return copyOf(source, 1 + Math.floor(i / shipped.length));
	});
	return [...files, ...more];
}

interface Cost {
	what: string;
	/** By the clock, and of the processor: they differ where the machine has other work. */
	seconds: number;
	processor: number;
	goal: number;
}

function costOf(what: string, goal: number, work: () => boolean): Cost {
	const [clock, used] = [performance.now(), process.cpuUsage()];
	if (!work()) throw new Error(`${what}: the library does not hold together.`);
	const spent = process.cpuUsage(used);
	return {
		what,
		seconds: (performance.now() - clock) / 1000,
		processor: (spent.user + spent.system) / 1e6,
		goal
	};
}

const sound = (findings: readonly { level: string }[]) => findings.every(({ level }) => level === 'advice');

/** @param files the shipped library */
export function libraryCosts(files: readonly SourceText[]): Cost[] {
	const many = multiplied(files, MANY);
	const one = files.find(({ path }) => FLOW.test(path))?.path ?? '';
	return [
		costOf('checking one flow', GOAL_ONE_S, () => sound(checkFiles(files, [one]).findings)),
		costOf(`checking ${MANY} flows`, GOAL_MANY_S, () => loadLibrary(many).ok)
	];
}
