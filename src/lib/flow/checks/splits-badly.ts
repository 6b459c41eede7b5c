import type { Library } from '../library.ts';
import type { ResolvedFlow } from '../resolve.ts';
import type { Flow } from '../schema.ts';
import { atStart, gainAt, onPlans, writtenSteps } from './rows.ts';
import type { Check, Complaint } from './types.ts';

/**
 * An opening is worth its place where one of its questions tells this share of what the best step of the flow would tell.
 * Half of the starting entropy, the usual measure, is out of reach of any one question: every part of the set is suspected,
 * some six bits, and a question with three answers tells one and a half at most. Our own choice.
 */
const WORTH = 0.25;
/** Where the author leaves the first question open, the best there is should tell this many bits. Our own choice. */
const LEAST = 0.25;

interface Judged {
	/** Bits of the most telling question of the opening, if there is one. */
	opening: number | undefined;
	best: { id: string; bits: number };
}

function judge(library: Library, resolved: ResolvedFlow): Judged {
	const start = atStart(resolved);
	const gains = writtenSteps(library, resolved).map(([id, step]) => ({
		id,
		bits: gainAt(resolved, step, start)
	}));
	const best = gains.reduce((a, b) => (b.bits > a.bits ? b : a), { id: '', bits: 0 });
	const asked = gains.filter(({ id }) => resolved.flow.opening.includes(id)).map(({ bits }) => bits);
	return { opening: asked.length ? Math.max(...asked) : undefined, best };
}

const splits = ({ opening, best }: Judged): boolean =>
	opening === undefined ? best.bits >= LEAST : opening >= WORTH * best.bits;

const bits = (value: number) => `${value.toFixed(2)} bit`;

function complaint(library: Library, flow: Flow): Omit<Complaint, 'file' | 'line' | 'column'> | undefined {
	let last: Judged | undefined;
	for (const resolved of onPlans(library, flow)) {
		last = judge(library, resolved);
		if (splits(last)) return undefined;
	}
	if (!last) return undefined;
	const { opening, best } = last;
	return opening === undefined
		? {
				message: `No step of this flow parts its suspects at the start: the best tells ${bits(best.bits)}.`,
				remedy:
					'Add an opening question whose answers share the suspects out: ask when, where or how it shows.'
			}
		: {
				message: `No question of the opening tells more than ${bits(opening)}; "${best.id}" would tell ${bits(best.bits)}.`,
				remedy: `Ask "${best.id}" first, or a question whose answers share the suspects out.`
			};
}

export const splitsBadly: Check = {
	code: 'splits-badly',
	description: 'One of the first questions parts the suspects.',
	level: 'advice',
	scope: 'flow',
	check: (library, origins) =>
		Object.values(library.flows).flatMap((flow) => {
			const said = complaint(library, flow);
			return said ? [{ ...origins.at('flows', flow.id, ['opening'], true), ...said }] : [];
		})
};
