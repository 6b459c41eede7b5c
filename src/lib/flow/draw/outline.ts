import { percent } from './percent.ts';
import { STEP_POWER_WORDS } from './words.ts';
import { after, stopTitle, type Way, type WayStop } from './way.ts';

/** The same way as a numbered list: each entry says where its answers lead. */
export interface OutlineEntry {
	number: number;
	stop: WayStop;
	title: string;
	/** "Unplugged, 3 min"; or how sure the end is. */
	facts: string;
	/** 100 at the first entry: of a hundred traces so many come by here. */
	share: string;
	answers: { label: string; share: string; to: number }[];
	/** What the answers come to that are too rare to follow; empty where there are none. */
	left: string;
}

/** Depth first, the likeliest answer first: the main road reads straight down. */
function inOrder(way: Way, stop: WayStop | undefined): WayStop[] {
	return stop ? [stop, ...after(way, stop.id).flatMap((next) => inOrder(way, next))] : [];
}

export function outlineOf(way: Way): OutlineEntry[] {
	const order = inOrder(way, way.stops[0]);
	const numbers = new Map(order.map(({ id }, place) => [id, place + 1]));
	return order.map((stop) => ({
		number: numbers.get(stop.id) ?? 0,
		stop,
		title: stopTitle(stop),
		facts: factsOf(stop),
		share: percent(stop.chance),
		answers: after(way, stop.id).map(({ id, from, chance }) => ({
			label: from?.answer ?? '',
			share: percent(chance),
			to: numbers.get(id) ?? 0
		})),
		left: leftWords(stop)
	}));
}

const minutes = (time: number) => `${Math.round(time)} min`;

export function factsOf(stop: WayStop): string {
	if (stop.kind === 'step') return `${STEP_POWER_WORDS[stop.power]}, ${minutes(stop.takes)}`;
	if (stop.kind === 'repair')
		return `Prove and change, ${percent(stop.standing)} sure, after ${minutes(stop.minutes)}`;
	return `After ${minutes(stop.minutes)}`;
}

function leftWords(stop: WayStop): string {
	if (stop.kind !== 'step' || stop.left.answers.length === 0) return '';
	const { answers, chance } = stop.left;
	return `Too rare to follow (${percent(chance)}): ${answers.join('; ')}`;
}

/** The outline as text, one entry after another. */
export function printOutline(way: Way): string {
	const entries = outlineOf(way).map(({ number, title, facts, share, answers, left }) =>
		[
			`${number}. ${title} (${facts}; ${share} of traces)`,
			...answers.map(({ label, share, to }) => `     ${share.padStart(4)}  ${label} -> ${to}`),
			...(left ? [`     ${left}`] : [])
		].join('\n')
	);
	return [`${way.title}: ${way.plan}`, ...entries].join('\n\n');
}
