import { printFinding } from '../src/lib/flow/finding.ts';
import type { Library } from '../src/lib/flow/library.ts';
import { readLibrary } from '../src/lib/flow/load.ts';
import { flowFits, resolveFlow, type ResolvedFlow } from '../src/lib/flow/resolve.ts';
import { readFlowFiles } from '../src/tools/flow-files.ts';

let loaded: Library | undefined;

/** The shipped library, read but not checked: that takes seconds, and has a test of its own. */
export function shippedLibrary(): Library {
	if (loaded) return loaded;
	const { library, findings } = readLibrary(readFlowFiles(process.cwd()));
	if (findings.length) throw new Error(findings.map(printFinding).join('\n\n'));
	return (loaded = library);
}

/** A shipped flow on a shipped plan. */
export function shipped(flowId: string, planId: string): ResolvedFlow {
	const library = shippedLibrary();
	const [flow, plan] = [library.flows[flowId], library.plans[planId]];
	if (!flow || !plan) throw new Error(`There is no flow "${flowId}" or no plan "${planId}".`);
	return resolveFlow(library, flow, plan);
}

/** Every shipped flow on every plan that it fits. */
export function allShipped(): ResolvedFlow[] {
	const library = shippedLibrary();
	return Object.values(library.flows).flatMap((flow) =>
		Object.values(library.plans)
			.filter((plan) => flowFits(flow, plan))
			.map((plan) => resolveFlow(library, flow, plan))
	);
}
