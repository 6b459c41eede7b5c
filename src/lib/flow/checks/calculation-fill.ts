import { calculationOf, type Input, keysOf } from '../../calculations/index.ts';
import { limitsOf } from '../../valves/index.ts';
import { parseFill } from '../fill.ts';
import type { Plan } from '../../receiver/index.ts';
import type { Library } from '../library.ts';
import { allSteps, knownNames, type Check, type Complaint, type WrittenStep } from './types.ts';

const GRAMMAR =
	'Write a number, "reading", "reading of STEP", "volts at POINT", "value of PART", "limit of VALVE: FIELD", "heater volts of VALVE", "heater amps of VALVE", "mains" or "meter".';

/** Words that the input itself offers (a kind of valve, a side). */
const offers = (input: Input | undefined, word: string): boolean =>
	input !== undefined && 'options' in input && input.options.includes(word);

function limitNowhere(plans: Plan[], valve: string, field: string): string | undefined {
	const types = plans.flatMap((plan) => plan.valves[valve]?.type ?? []);
	if (!types.length) return `There is no valve "${valve}" in any plan.`;
	const known = types.some((type) => limitsOf(type).some(({ block }) => Object.hasOwn(block.figures, field)));
	return known ? undefined : `No valve data give a limit "${field}" for ${[...new Set(types)].join(' or ')}.`;
}

/** Whether the source of a fill exists somewhere in the library. */
function leadsNowhere(library: Library, steps: Set<string>, text: string): string | undefined {
	const source = parseFill(text);
	const plans = Object.values(library.plans);
	if (!source) return `"${text}" does not say where the value comes from.`;
	if (source.kind === 'reading' && source.of !== undefined && !steps.has(source.of))
		return `There is no step "${source.of}" to read.`;
	if (source.kind === 'volts' && !plans.some((p) => p.points[source.at]))
		return `There is no test point "${source.at}".`;
	if (source.kind === 'value' && !plans.some((p) => p.values[source.of]))
		return `No plan has a value for "${source.of}".`;
	if (source.kind === 'heater' && !plans.some((p) => p.valves[source.valve]))
		return `There is no valve "${source.valve}" in any plan.`;
	return source.kind === 'limit' ? limitNowhere(plans, source.valve, source.field) : undefined;
}

type Fill = NonNullable<WrittenStep['step']['calculation']>['fill'][string];
type Path = readonly (string | number)[];

/** What was said, each with its place; the keys of a table's cells are columns. */
function saidIn(key: string, fill: Fill): { path: Path; column?: string; said: string | number }[] {
	if (!Array.isArray(fill)) return [{ path: [key], said: fill }];
	return fill.flatMap((entry, i) =>
		typeof entry === 'object'
			? Object.entries(entry).map(([column, said]) => ({ path: [key, i, column], column, said }))
			: [{ path: [key, i], said: entry }]
	);
}

function complaints(library: Library, steps: Set<string>, { step, at }: WrittenStep): Complaint[] {
	const use = step.calculation;
	const calculation = use && calculationOf(use.id);
	if (!calculation) return [];
	const rows = Object.values(calculation.inputs).flatMap((input) => keysOf(input));
	const verdicts = (calculation.verdicts ?? []).map(({ verdict }) => verdict);
	const foreign = Object.keys(use.outcome ?? {}).filter((verdict) => !verdicts.includes(verdict));
	const wrongVerdicts = foreign.map((verdict) => ({
		...at(['calculation', 'outcome', verdict], true),
		message: `"${use.id}" never gives the verdict "${verdict}".`,
		remedy: knownNames(verdict, verdicts)
	}));
	const wrongRows = Object.entries(use.fill).flatMap(([key, fill]): Complaint[] => {
		const place = at(['calculation', 'fill', key]);
		const input = Object.values(calculation.inputs).find((one) => keysOf(one).includes(key));
		if (!input)
			return [{ ...place, message: `"${use.id}" has no input "${key}".`, remedy: knownNames(key, rows) }];
		const columns = input.kind === 'rows' ? Object.values(input.columns).map((one) => one.key) : [];
		return saidIn(key, fill).flatMap(({ path, column, said }): Complaint[] => {
			const here = at(['calculation', 'fill', ...path]);
			if (column !== undefined && !columns.includes(column))
				return [
					{ ...here, message: `"${key}" has no column "${column}".`, remedy: knownNames(column, columns) }
				];
			if (typeof said === 'number' || offers(input, said)) return [];
			const message = leadsNowhere(library, steps, said);
			return message === undefined ? [] : [{ ...here, message, remedy: GRAMMAR }];
		});
	});
	return [...wrongRows, ...wrongVerdicts];
}

export const calculationFill: Check = {
	code: 'calculation-fill',
	description: 'What fills a calculation is one of its inputs and comes from somewhere that exists.',
	level: 'error',
	scope: 'library',
	check(library, origins) {
		const written = allSteps(library, origins);
		const steps = new Set(written.map(({ id }) => id));
		return written.flatMap((step) => complaints(library, steps, step));
	}
};
