import { at, normalise, placeOfLargest, sum } from './numbers.ts';

/** An answer counts as explained by a part that was bad where that part shows it at least this often. */
const EXPLAINED = 0.5;

/**
 * After a repair that did not cure, of a part that proved good (or was not tested): that suspect is out, the others keep
 * their ratios and every answer stands. The list keeps its length; it is all zeros where nobody else had any standing.
 */
export function withoutSuspect(standings: readonly number[], suspect: number): number[] {
	const rest = standings.map((standing, place) => (place === suspect ? 0 : standing));
	// normalise would bring the suspect back where nothing else is left.
	return sum(rest) > 0 ? normalise(rest) : rest;
}

/**
 * The answer to repeat after a part proved good: the one that spoke for it most.
 *
 * @param rows one row for each answer: P(that answer | suspect)
 * @param prior weights of the suspects before the answers
 * @returns place of the answer; -1 where none spoke for the part
 */
export function strongestFor(
	prior: readonly number[],
	rows: readonly (readonly number[])[],
	suspect: number
): number {
	const shares = normalise(prior);
	const support = rows.map((row) => {
		const mean = sum(row.map((chance, place) => chance * at(shares, place)));
		return mean > 0 ? at(row, suspect) / mean : 0;
	});
	const place = placeOfLargest(support);
	return place >= 0 && at(support, place) > 1 ? place : -1;
}

/** An answer as far as a second fault is concerned. */
export interface JudgedAnswer {
	/** Whether it was any outcome but the normal one. */
	bad: boolean;
	/** P(any outcome but the normal one | suspect). */
	badGiven: readonly number[];
}

/**
 * After a repair that did not cure, of a part that proved bad: a second fault is at work. Bad answers that the part
 * explains (it shows a bad outcome at least half the time) say nothing of the second fault: they go, and their checks
 * may be done again. Good answers stay.
 */
export function withoutExplained(
	answers: readonly JudgedAnswer[],
	suspect: number
): { kept: number[]; dropped: number[] } {
	const explained = ({ bad, badGiven }: JudgedAnswer) => bad && at(badGiven, suspect) >= EXPLAINED;
	const places = answers.map((_, place) => place);
	return {
		kept: places.filter((place) => !explained(at(answers, place))),
		dropped: places.filter((place) => explained(at(answers, place)))
	};
}

/**
 * Puts one hypothesis at a share, whatever it had; the others keep their ratios. So "something not listed" goes back to
 * where it began when a second fault is taken up, and work just done enters as a suspect.
 *
 * @param place its place in the list
 * @param share 0 to 1
 */
export function atShare(standings: readonly number[], place: number, share: number): number[] {
	const others = withoutSuspect(standings, place);
	const own = sum(others) > 0 ? share : 1;
	return others.map((standing, index) => (index === place ? own : standing * (1 - own)));
}
