import type { Library } from '../flow/library.ts';
import { isFit, matchFlows } from '../flow/match.ts';
import type { Case, Given } from './case.ts';
import { give, openCase, playAll, report, type Play, type PlayProblem } from './play.ts';
import { stateOf } from './run.ts';

/** A case as `flow -- play` plays it: one complaint, two of them side by side, or none yet chosen. */

/** So many flows that differ from what is heard are shown behind those that fit. */
const BESIDE = 3;

export type CaseReport = { ok: true; report: unknown } | { ok: false; problem: PlayProblem };

/** Which flows fit what is heard and noticed, best first, as the start page offers them. */
function fits(library: Library, played: Case): CaseReport {
	const plan = library.plans[played.plan];
	if (!plan || (!Object.keys(played.heard).length && !played.signs.length))
		return {
			ok: false,
			problem: {
				path: plan ? ['flow'] : ['plan'],
				message: plan
					? 'This case names no flow, and says neither what is heard nor what is noticed.'
					: `There is no receiver plan "${played.plan}".`,
				remedy: plan
					? 'Name a flow, or write  heard: {am: none, fm: good}  or  signs: [dark].'
					: `Known: ${Object.keys(library.plans).sort().join(', ')}.`
			}
		};
	const set = { ...plan, traits: { ...plan.traits, ...played.set.traits } };
	const found = matchFlows(library, set, played.heard, played.signs);
	const fitting = found.filter(isFit).length;
	const told = found.slice(0, fitting + BESIDE).map((match) => ({
		flow: match.flow.id,
		title: match.flow.title,
		fits: isFit(match),
		agrees: match.agrees,
		differs: match.differs,
		noticed: match.noticed
	}));
	return { ok: true, report: { case: played.id, flows: told } };
}

/** Whether this answer has a place in a flow as it stands; a cured complaint asks nothing more. */
function concerns({ run }: Play, given: Given): boolean {
	if (stateOf(run) === 'cured') return false;
	if ('step' in given) return run.resolved.steps[given.step] !== undefined;
	const { flow, repair } = given;
	return (
		(flow === undefined || flow === run.resolved.flow.id) &&
		run.resolved.suspects.some(({ id }) => id === repair)
	);
}

/** Two complaints of one set, side by side: every answer goes to each flow that has its step. */
function playTwo(library: Library, played: Case, second: string): CaseReport {
	const opened = [openCase(library, played), openCase(library, { ...played, flow: second })];
	let plays: Play[] = [];
	for (const [i, result] of opened.entries()) {
		if (!result.ok)
			return i === 0 || result.problem.path[0] !== 'flow'
				? result
				: { ok: false, problem: { ...result.problem, path: ['second-flow'] } };
		plays = [...plays, result.play];
	}
	for (const [index, given] of played.answers.entries()) {
		const path = ['answers', index];
		const taking = plays.filter((play) => concerns(play, given));
		for (const play of taking.length ? taking : plays.slice(0, 1)) {
			const result = give(play, given, path);
			if (!result.ok) return result;
			plays = plays.map((one) => (one === play ? result.play : one));
		}
	}
	const complaints = plays.map((play) => ({ flow: play.run.resolved.flow.id, ...report(play) }));
	return { ok: true, report: { case: played.id, complaints } };
}

/** Play a case as it is told, and report where it stands. */
export function reportCase(library: Library, played: Case): CaseReport {
	if (played.flow === undefined) return fits(library, played);
	if (played['second-flow'] !== undefined) return playTwo(library, played, played['second-flow']);
	const result = playAll(library, played);
	return result.ok ? { ok: true, report: report(result.play) } : result;
}
