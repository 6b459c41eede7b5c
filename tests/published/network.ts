import { logEvidence, posterior } from '../../src/lib/suspects/index.ts';

/*
 * A network of yes/no variables as hypotheses: every joint state is one, and what was seen is a likelihood of 1 for the
 * states that agree with it and 0 for the others.
 */

export type State = Readonly<Record<string, boolean>>;
type Chance = (state: State) => number;

/** Every joint state of the named yes/no variables, with its prior from the chances of "yes" given the others. */
export function network(variables: Readonly<Record<string, Chance>>) {
	const names = Object.keys(variables);
	const states = Array.from({ length: 2 ** names.length }, (_, code): State =>
		Object.fromEntries(names.map((name, bit) => [name, Boolean((code >> bit) & 1)]))
	);
	const prior = states.map((state) =>
		Object.entries(variables).reduce(
			(p, [name, chance]) => p * (state[name] ? chance(state) : 1 - chance(state)),
			1
		)
	);
	const seen = (evidence: State) =>
		Object.entries(evidence).map(([name, value]) => states.map((state) => (state[name] === value ? 1 : 0)));
	const chanceOf = (name: string, evidence: State = {}) =>
		posterior(prior, seen(evidence)).reduce((sum, p, place) => (states[place]?.[name] ? sum + p : sum), 0);
	const chanceOfEvidence = (evidence: State) => 2 ** logEvidence(prior, seen(evidence));
	return { prior, seen, chanceOf, chanceOfEvidence };
}

/** One chance where a condition holds, another where it does not. */
export const given = (condition: boolean | undefined, yes: number, no: number) => (condition ? yes : no);
