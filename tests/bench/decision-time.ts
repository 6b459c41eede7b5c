import { playJob } from './job.ts';
import { engine, type Policy } from './policy.ts';
import { seeded, worlds } from './random.ts';
import { milliseconds, quantile, type Row } from './row.ts';
import { largeWorld } from './world.ts';

const GOAL_MS = 5;
const SETS = 20;
const JOBS = 5;

/** The engine, with a list of what each decision has taken of the processor, in milliseconds. */
function timed(times: number[]): Policy {
	return (belief) => {
		const decide = engine()(belief);
		return (position) => {
			const start = process.cpuUsage();
			const action = decide(position);
			const { user, system } = process.cpuUsage(start);
			times.push((user + system) / 1000);
			return action;
		};
	};
}

/** What one decision takes, 60 suspects by 60 checks. The other core should be free: two that share a cache slow each other. */
export function decisionRow(): Row {
	const times: number[] = [];
	worlds(SETS, 12, (next) => largeWorld(next, 60, 60)).forEach((world, set) => {
		for (let job = 0; job < JOBS; job++) playJob(world, timed(times), seeded(1e6 + set * 1000 + job));
	});
	const middle = quantile(times, 0.5);
	return {
		id: 'G12',
		what: `processor time of one decision, 60 by 60: median of ${times.length}`,
		figure: milliseconds(middle),
		interval: `99 %: ${milliseconds(quantile(times, 0.99))}`,
		goal: `at most ${milliseconds(GOAL_MS)}`,
		met: middle <= GOAL_MS
	};
}
