import { printOutline } from '../lib/flow/draw/outline.ts';
import { percent } from '../lib/flow/draw/percent.ts';
import { qualityOf, timesOf } from '../lib/flow/draw/quality.ts';
import { svgOf } from '../lib/flow/draw/svg.ts';
import { followWay, type Way } from '../lib/flow/draw/way.ts';
import type { Library } from '../lib/flow/library.ts';
import { flowFits, resolveFlow, type ResolvedFlow } from '../lib/flow/resolve.ts';
import { lookAheadFully } from '../lib/suspects/index.ts';
import type { Io } from './io.ts';

/** What `draw` was asked: `FLOW [--plan PLAN] [--outline]`. */
export interface DrawQuestion {
	flow: string;
	plan?: string;
	/** The outline alone, where no picture is wanted. */
	outline: boolean;
}

/** Nothing where the words cannot be read. */
export function readDraw(words: readonly string[]): DrawQuestion | undefined {
	const [flow, ...rest] = words;
	const outline = rest.includes('--outline');
	const [option, plan, ...more] = rest.filter((word) => word !== '--outline');
	if (flow === undefined || flow.startsWith('--') || more.length > 0) return undefined;
	if (option === undefined) return { flow, outline };
	return option === '--plan' && plan !== undefined ? { flow, plan, outline } : undefined;
}

type Found = { ok: true; resolved: ResolvedFlow } | { ok: false; message: string };

/** The flow on the plan that was named, or on the first that it fits. */
function find(library: Library, question: DrawQuestion): Found {
	const flow = library.flows[question.flow];
	if (!flow)
		return {
			ok: false,
			message: `There is no flow "${question.flow}". Known: ${Object.keys(library.flows).join(', ')}.`
		};
	const fitting = Object.values(library.plans).filter((plan) => flowFits(flow, plan));
	const plan = question.plan === undefined ? fitting[0] : fitting.find(({ id }) => id === question.plan);
	if (plan) return { ok: true, resolved: resolveFlow(library, flow, plan) };
	const plans = fitting.map(({ id }) => id).join(', ') || 'none yet';
	return { ok: false, message: `"${flow.id}" does not fit that plan. It fits: ${plans}.` };
}

function qualityWords(resolved: ResolvedFlow, way: Way): string {
	const { suspects, entropy, asHardAs, together } = qualityOf(resolved);
	const { expected, ended } = timesOf(way);
	return [
		`${suspects} suspects; ${entropy.toFixed(1)} bits open at the start, as hard as ${Math.round(asHardAs)} equally likely ones.`,
		expected === undefined ? '' : `About ${Math.round(expected)} min until the set is expected to work.`,
		`${percent(ended.share)} of traces are followed to a verdict, after ${Math.round(ended.minutes)} min on average.`,
		...together.map(
			({ names, oneRepair }) =>
				`No step parts: ${names.join('; ')}${oneRepair ? ' (one repair mends all)' : ''}`
		)
	]
		.filter(Boolean)
		.join('\n');
}

/** The picture as SVG goes out; its outline and figures go beside it, so that the picture can be sent to a file. */
export async function draw(library: Library, question: DrawQuestion, io: Io): Promise<number> {
	const found = find(library, question);
	if (!found.ok) return (io.err(found.message), 2);
	const way = await followWay(found.resolved, lookAheadFully);
	const outline = `${printOutline(way)}\n\n${qualityWords(found.resolved, way)}`;
	if (question.outline) return (io.out(outline), 0);
	io.out(svgOf(way));
	io.err(outline);
	return 0;
}
