import { atShare, posterior, withoutExplained } from '../suspects/index.ts';
import type { ResolvedFlow } from './resolve.ts';
import type { Evidence, Mended, WeighedAnswer } from './trace.ts';

/** Share at which the work just done enters as a suspect of its own. Reasoning reference 4.7. */
const LAST_WORK_SHARE = 0.05;

/** Place of each answer in the order in which they were given. */
const orderOf = ({ answers }: Evidence) => new Map(answers.map((answer, index) => [answer, index]));

/**
 * What still counts after repairs that did not cure. Where the part that came out was really bad, a second fault is at
 * work: the bad answers that the part explains go, and their steps may be asked again.
 */
export function stillCounting(
	weighed: readonly WeighedAnswer[],
	evidence: Evidence,
	ids: readonly string[]
): WeighedAnswer[] {
	const given = orderOf(evidence);
	const dropped = evidence.mended
		.filter(({ was }) => was === 'bad')
		.flatMap(({ suspect, after }) => {
			const before = weighed.filter(({ answer }) => (given.get(answer) ?? 0) < after);
			return withoutExplained(before.map(judged), ids.indexOf(suspect)).dropped.map((index) => before[index]);
		});
	return weighed.filter((one) => !dropped.includes(one));
}

const judged = ({ answer, table }: WeighedAnswer) => ({
	bad: answer.outcome !== table.normal,
	badGiven: table.table.map((row) => 1 - (row[table.outcomes.indexOf(table.normal)] ?? 0))
});

/** The slip of a hand at the stage of a part, or elsewhere in its section; -1 where no such suspect is left. */
function workBeside(suspects: ResolvedFlow['suspects'], suspect: string, out: ReadonlySet<string>): number {
	const part = suspects.find(({ id }) => id === suspect);
	const works = suspects.filter(
		(one) => one.suspect.kind === 'work' && one.section === part?.section && !out.has(one.id)
	);
	const beside = works.find(({ place }) => place === part?.place) ?? works[0];
	return beside ? suspects.indexOf(beside) : -1;
}

/**
 * Standings through answers and repairs in their order. After a part that was really bad, "something not listed" is back
 * at the share it began with: what it had gained spoke of the first fault. Whatever came out, the work on its stage is a
 * suspect from then on.
 *
 * @param start weights before any answer, the parts that came out at 0
 * @param answers those that still count
 * @param unlisted the share of "something not listed", which stands last
 */
export function throughRepairs(
	{ suspects }: ResolvedFlow,
	start: readonly number[],
	answers: readonly WeighedAnswer[],
	evidence: Evidence,
	unlisted: number
): number[] {
	const given = orderOf(evidence);
	const repairs = [...evidence.mended].sort((one, other) => one.after - other.after);
	const out = new Set(repairs.map(({ suspect }) => suspect));
	const between = (from: number, to: number) =>
		answers
			.filter(({ answer }) => (given.get(answer) ?? 0) >= from && (given.get(answer) ?? 0) < to)
			.map(({ likelihood }) => likelihood);
	const repaired = (standings: number[], { suspect, was }: Mended): number[] => {
		const reset = was === 'bad' ? atShare(standings, standings.length - 1, unlisted) : standings;
		const work = workBeside(suspects, suspect, out);
		return work < 0 || (reset[work] ?? 0) >= LAST_WORK_SHARE ? reset : atShare(reset, work, LAST_WORK_SHARE);
	};
	const last = repairs.at(-1)?.after ?? 0;
	const through = repairs.reduce(
		(standings, repair, index) =>
			repaired(posterior(standings, between(repairs[index - 1]?.after ?? 0, repair.after)), repair),
		[...start]
	);
	return posterior(through, between(last, Infinity));
}
