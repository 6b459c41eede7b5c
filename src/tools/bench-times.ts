import { repairAdvice, suggest } from '../lib/flow/advice.ts';
import { powerSuits } from '../lib/flow/compile.ts';
import { normalOf } from '../lib/flow/evidence.ts';
import type { Library } from '../lib/flow/library.ts';
import { loadLibrary } from '../lib/flow/load.ts';
import type { Power } from '../lib/flow/machine-types.ts';
import type { ResolvedFlow } from '../lib/flow/resolve.ts';
import { standings } from '../lib/flow/trace.ts';
import type { EventData, EventKind, JobEvent } from '../lib/job/events.ts';
import { replay } from '../lib/job/replay.ts';
import { situationIn, traceIn } from '../lib/job/shared-evidence.ts';
import { takeSnapshot, type Snapshot } from '../lib/job/snapshot.ts';
import { nextEvent } from '../lib/job/store.ts';
import { describe } from '../lib/job/summary.ts';
import { readFlowFiles } from './flow-files.ts';
import { libraryCosts } from './bench-library.ts';
import { benchPage } from './bench-page.ts';

/** What one answer may take before the page seems to wait. Our own choice. */
const GOAL_MS = 50;
const LENGTHS = [5, 20, 60];
const ROUNDS = 9;

/** A time, as a line of the bench's table. */
export interface TimeRow {
	id: string;
	what: string;
	figure: string;
	/** Against the goal, or against the size of the work. */
	interval: string;
	goal: string;
	met?: boolean;
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

async function answerRows(library: Library, resolved: ResolvedFlow): Promise<TimeRow[]> {
	const kept = await takeSnapshot(library, resolved.flow, resolved.plan, globalThis.crypto.subtle);
	return LENGTHS.map((answers) => {
		const time = timeOfAnswer(resolved, kept, answers);
		return {
			id: '',
			what: `${resolved.flow.id}: answer no. ${answers}`,
			figure: ms(time),
			interval: `${(time / GOAL_MS).toFixed(2)} of the goal`,
			goal: `at most ${GOAL_MS} ms`,
			met: time <= GOAL_MS
		};
	});
}

function libraryRow(root: string): TimeRow {
	const files = readFlowFiles(root);
	const time = median(Array.from({ length: 3 }, () => timed(() => loadLibrary(files))));
	const size = files.reduce((sum, { text }) => sum + text.length, 0);
	return {
		id: '',
		what: 'reading and checking the library',
		figure: ms(time),
		interval: `${(time / (size / 1000)).toFixed(1)} ms per kB`,
		goal: ''
	};
}

/** What authors wait for: one flow, and a library that has grown. */
const authorRows = (root: string): TimeRow[] =>
	libraryCosts(readFlowFiles(root)).map(({ what, seconds, processor, goal }) => ({
		id: '',
		what,
		figure: `${seconds.toFixed(1)} s`,
		interval: `${(seconds / goal).toFixed(2)} of the goal; ${processor.toFixed(1)} s of the processor`,
		goal: `under ${goal} s`,
		met: seconds < goal
	}));

async function pageRows(root: string): Promise<TimeRow[]> {
	const times = await benchPage(root);
	if (!times)
		return [{ id: '', what: 'on the page', figure: '-', interval: 'no built app, or no browser', goal: '' }];
	const row = (what: string, all: number[]): TimeRow => {
		const middle = median(all);
		const worst = all.at(-1) ?? Number.NaN;
		const ratio = `${(middle / GOAL_MS).toFixed(2)} of the goal; slowest of ${all.length} ${ms(worst)}`;
		const goal = `at most ${GOAL_MS} ms`;
		return { id: '', what, figure: ms(middle), interval: ratio, goal, met: middle <= GOAL_MS };
	};
	return [
		row('on the page: from the tap to the next question', times.shown),
		row('on the page: one entry on disk', times.kept)
	];
}

/** The longest and the shortest flow stand for all. */
function ends(flows: readonly ResolvedFlow[]): ResolvedFlow[] {
	const sorted = [...flows].sort((a, b) => a.suspects.length - b.suspects.length);
	return [...new Set([sorted[0], sorted.at(-1)])].flatMap((one) => one ?? []);
}

/** What an answer costs in milliseconds, in the core and on the page, and what the library costs. */
export async function timeRows(
	library: Library,
	flows: readonly ResolvedFlow[],
	root: string
): Promise<TimeRow[]> {
	const rows: TimeRow[] = [];
	for (const resolved of ends(flows)) rows.push(...(await answerRows(library, resolved)));
	return [...rows, ...(await pageRows(root)), libraryRow(root), ...authorRows(root)];
}
