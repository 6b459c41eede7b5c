import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { Plan } from '../../../src/lib/receiver/plan.ts';

const FOLDER = join(process.cwd(), 'flows/shared/plans');

/** The shipped plans, read without the loader: a test of the plans leans on nothing of the flows. */
export const shippedPlans = (): Plan[] =>
	readdirSync(FOLDER).map((file) => Plan.parse(parse(readFileSync(join(FOLDER, file), 'utf8'))));

export function shippedPlan(id: string): Plan {
	const plan = shippedPlans().find((candidate) => candidate.id === id);
	if (!plan) throw new Error(`There is no plan "${id}" in flows/shared/plans.`);
	return plan;
}
