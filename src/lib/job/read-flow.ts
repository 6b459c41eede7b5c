import './no-jit.ts';
import { z } from 'zod';
import type { Library } from '../flow/library.ts';
import { Caution, Flow, History, Source, Step, Suspect } from '../flow/schema.ts';
import { checkPlan } from '../receiver/index.ts';
import { Plan } from '../receiver/plan.ts';
import { AGAIN, refuse } from './file-refused.ts';
import type { Digest } from './hash.ts';
import { firstIssue } from './read-events.ts';
import { matchesHash } from './snapshot.ts';

const Id = z.string().regex(/^[a-z][a-z0-9-]*$/);
const Kept = z.strictObject({
	suspects: z.record(Id, Suspect),
	steps: z.record(Id, Step),
	cautions: z.record(Id, Caution),
	sources: z.record(z.string(), Source),
	plans: z.record(Id, Plan),
	flows: z.record(Id, Flow),
	/** Files from before there was one have none. */
	history: z.record(Id, History).optional()
});

/** The flow as it was kept: what the schema adds of its own would change its hash. */
export async function readFlow(hash: string, raw: unknown, digest: Digest): Promise<Library> {
	const place = `flow ${hash.slice(0, 18)}`;
	const parsed = Kept.safeParse(raw);
	if (!parsed.success) {
		const { path, message } = firstIssue(parsed.error);
		return refuse(`${place}, ${path}`, `The flow kept with this job cannot be read: ${message}`);
	}
	for (const plan of Object.values(parsed.data.plans)) {
		const [problem] = checkPlan(plan);
		if (problem)
			refuse(`${place}, plans.${plan.id}.${problem.path.join('.')}`, `${problem.message} ${problem.remedy}`);
	}
	const library = raw as Library;
	if ((await matchesHash({ hash, library }, digest)) === false)
		refuse(
			place,
			`This flow is not the one that the job was worked with: it has been changed since. ${AGAIN}`
		);
	return library;
}
