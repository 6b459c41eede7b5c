import { pathToFileURL } from 'node:url';
import { repairAdvice, suggest } from '../lib/flow/advice.ts';
import { apart } from '../lib/flow/checks/separation.ts';
import { powerSuits } from '../lib/flow/compile.ts';
import { normalOf } from '../lib/flow/evidence.ts';
import type { Library } from '../lib/flow/library.ts';
import { loadLibrary } from '../lib/flow/load.ts';
import type { Power } from '../lib/flow/machine-types.ts';
import { flowFits, resolveFlow, type ResolvedFlow } from '../lib/flow/resolve.ts';
import { standings, trace } from '../lib/flow/trace.ts';
import type { EventData, EventKind, JobEvent } from '../lib/job/events.ts';
import { replay } from '../lib/job/replay.ts';
import { situationIn, traceIn } from '../lib/job/shared-evidence.ts';
import { takeSnapshot, type Snapshot } from '../lib/job/snapshot.ts';
import { nextEvent } from '../lib/job/store.ts';
import { describe } from '../lib/job/summary.ts';
import { entropy, informationGain } from '../lib/suspects/index.ts';
import { stepTable } from '../lib/flow/evidence.ts';
import { readFlowFiles } from './flow-files.ts';
import { benchPage } from './bench-page.ts';
import { processIo, type Io } from './io.ts';
import { openLibrary } from './library.ts';

/** What one answer may take before the page seems to wait. Our own choice. */
const GOAL_MS = 50;
const LENGTHS = [5, 20, 60];
const ROUNDS = 9;

interface Row {
	what: string;
	figure: string;
	/** Against the goal, or against the shortest job. */
	ratio: string;
	goal: string;
}

/** Proved dead, as a played history has it. */
const DEAD: [number, number] = [0, 0];

/** The log of one job, written as a page writes it. */
class Log {
	readonly events: JobEvent[] = [];

	add<Kind extends EventKind>(kind: Kind, data: EventData[Kind]): void {
		const stamp = { job: 'job', bench: 'bench', seq: this.events.length + 1, now: 0 };
		this.events.push(nextEvent(this.events, stamp, kind, data) as JobEvent);
	}

	/** Steps that need no connection made beforehand, answered by what a sound set shows; then again from the first. */
	answer({ flow, steps }: ResolvedFlow, count: number): void {
		const plain = Object.entries(steps).filter(([, step]) => !step.prepare);
		let power: Power = 'off';
		for (let index = 0; index < count; index++) {
			const [id, step] = plain[index % plain.length] ?? plain[0]!;
			if (!powerSuits(step, power)) {
				power = step.power;
				this.add('power', power === 'unplugged' ? { to: power, volts: DEAD } : { to: power });
			}
			this.add('took', { flow: flow.id, step: id });
			this.add('answered', { flow: flow.id, step: id, outcome: normalOf(step), sure: true });
		}
	}
}

function jobOf(resolved: ResolvedFlow, kept: Snapshot, answers: number): JobEvent[] {
	const { flow, plan } = resolved;
	const log = new Log();
	log.add('started', {});
	const symptom = Object.fromEntries(Object.keys(plan.bands).map((band) => [band, 'weak' as const]));
	log.add('intake', { title: 'Bench', plan: plan.id, symptom, history: [], instruments: [], playing: true });
	log.add('flow-opened', { flow: flow.id, plan: plan.id, hash: kept.hash });
	log.answer(resolved, answers);
	return log.events;
}

/** All that the page works out when an answer has been kept. */
function workOut(events: readonly JobEvent[], flow: string, kept: Snapshot): void {
	const state = replay(events, { snapshots: { [kept.hash]: kept.library } });
	if (state.warnings[0]) throw new Error(state.warnings[0].message);
	const now = traceIn(state, flow);
	const situation = situationIn(state, flow);
	if (!now || !situation) throw new Error(`The flow "${flow}" is not open.`);
	const suggestions = suggest(now, situation);
	standings(now);
	repairAdvice(now, suggestions, situation.power);
	describe(state);
}

function median(times: number[]): number {
	return times.sort((a, b) => a - b)[times.length >> 1] ?? Number.NaN;
}

function timed(work: () => void): number {
	const start = performance.now();
	work();
	return performance.now() - start;
}

/** Milliseconds for the last answer of a job of so many. */
function timeOfAnswer(resolved: ResolvedFlow, kept: Snapshot, answers: number): number {
	const events = jobOf(resolved, kept, answers);
	const play = (upTo: number) => workOut(events.slice(0, upTo), resolved.flow.id, kept);
	return median(
		Array.from({ length: ROUNDS }, () => {
			play(events.length - 2);
			return timed(() => play(events.length));
		})
	);
}

const ms = (time: number) => `${time.toFixed(1)} ms`;

async function answerRows(library: Library, resolved: ResolvedFlow): Promise<Row[]> {
	const kept = await takeSnapshot(library, resolved.flow, resolved.plan, globalThis.crypto.subtle);
	return LENGTHS.map((answers) => {
		const time = timeOfAnswer(resolved, kept, answers);
		return {
			what: `${resolved.flow.id}: answer no. ${answers}`,
			figure: ms(time),
			ratio: `${(time / GOAL_MS).toFixed(2)} of the goal`,
			goal: `${GOAL_MS} ms`
		};
	});
}

/** Suspects that no step of the flow tells apart, themselves and through others: sets of two or more. */
function groupsOf(resolved: ResolvedFlow): number[][] {
	const separated = apart(resolved);
	const groups: number[][] = [];
	for (const index of resolved.suspects.keys()) {
		const near = groups.filter((group) => group.some((other) => !separated(index, other)));
		const rest = groups.filter((group) => !near.includes(group));
		groups.splice(0, groups.length, ...rest, [...near.flat(), index]);
	}
	return groups.filter(({ length }) => length > 1);
}

/** How much there is to find out, what the best first question tells of it, and whom no question parts. */
function flowRows(resolved: ResolvedFlow): Row[] {
	const { now } = trace(resolved, { answers: [], mended: [] });
	const bits = entropy(now);
	const gains = Object.values(resolved.steps).map((step) =>
		informationGain(now, stepTable(resolved, step).table)
	);
	const best = Math.max(...gains);
	const groups = groupsOf(resolved);
	const inGroups = groups.flat().length;
	const { id } = resolved.flow;
	return [
		{
			what: `${id}: entropy at start`,
			figure: `${bits.toFixed(2)} bit`,
			ratio: `of ${Math.log2(now.length).toFixed(2)} for ${now.length} equal suspects`,
			goal: ''
		},
		{
			what: `${id}: best first step`,
			figure: `${best.toFixed(2)} bit`,
			ratio: `${(best / bits).toFixed(2)} of the entropy`,
			goal: ''
		},
		{
			what: `${id}: groups that no step parts`,
			figure: String(groups.length),
			ratio: `${inGroups} of ${now.length - 1} suspects`,
			goal: ''
		}
	];
}

function libraryRow(root: string): Row {
	const files = readFlowFiles(root);
	const time = median(Array.from({ length: 3 }, () => timed(() => loadLibrary(files))));
	const size = files.reduce((sum, { text }) => sum + text.length, 0);
	return {
		what: 'reading and checking the library',
		figure: ms(time),
		ratio: `${(time / (size / 1000)).toFixed(1)} ms per kB`,
		goal: ''
	};
}

function printTable(rows: readonly Row[]): string {
	const all: Row[] = [{ what: 'what', figure: 'figure', ratio: 'ratio', goal: 'goal' }, ...rows];
	const width = (key: keyof Row) => Math.max(...all.map((row) => row[key].length));
	const [what, figure, ratio] = [width('what'), width('figure'), width('ratio')];
	return all
		.map((row) =>
			`${row.what.padEnd(what)}  ${row.figure.padStart(figure)}  ${row.ratio.padEnd(ratio)}  ${row.goal}`.trimEnd()
		)
		.join('\n');
}

/** Each flow on the first plan that it fits. */
const shippedFlows = (library: Library): ResolvedFlow[] =>
	Object.values(library.flows).flatMap((flow) => {
		const plan = Object.values(library.plans).find((one) => flowFits(flow, one));
		return plan ? [resolveFlow(library, flow, plan)] : [];
	});

async function pageRows(root: string): Promise<Row[]> {
	const times = await benchPage(root);
	if (!times) return [{ what: 'on the page', figure: '-', ratio: 'no built app, or no browser', goal: '' }];
	const row = (what: string, all: number[]): Row => {
		const middle = median(all);
		const worst = all.at(-1) ?? Number.NaN;
		const ratio = `${(middle / GOAL_MS).toFixed(2)} of the goal; slowest of ${all.length} ${ms(worst)}`;
		return { what, figure: ms(middle), ratio, goal: `${GOAL_MS} ms` };
	};
	return [
		row('on the page: from the tap to the next question', times.shown),
		row('on the page: one entry on disk', times.kept)
	];
}

/** Print what an answer costs, what the library costs, and how well each flow asks. */
export async function main(io: Io, root = process.cwd()): Promise<number> {
	const library = openLibrary(root, io);
	if (!library) return 1;
	const flows = shippedFlows(library);
	const rows: Row[] = [];
	for (const resolved of flows) rows.push(...(await answerRows(library, resolved)));
	rows.push(...(await pageRows(root)));
	io.out(printTable([...rows, libraryRow(root), ...flows.flatMap(flowRows)]));
	return 0;
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
	process.exitCode = await main(processIo);
