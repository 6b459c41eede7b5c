import type { Given, Inputs, Problem } from './define.ts';
import { column, number, optional, rows } from './inputs.ts';
import type { Axis, Picture, Point } from './picture.ts';
import { chainBackward, chainForward, type ChainNode } from './supply-ladder.ts';

/** What may be known of an HT chain. */
export const inputs = {
	supply: number('V_supply', 'volts at the start of the chain, by the sheet or as measured', 1, 1000),
	supplySeen: optional(
		number('V_supply_seen', 'volts measured there, if those above are of the sheet', 1, 1000)
	),
	tolerance: optional(number('R_tol_pct', 'tolerance of the resistors (10 % if not given)', 0, 30)),
	sections: rows(
		'sections',
		'sections from the reservoir on',
		{
			resistance: column('R_ohm', 'resistor', 1, 10e6),
			tap: optional(column('I_mA', 'current tapped at its end', 0, 0.5)),
			bleeder: optional(column('R_tap_ohm', 'bleeder from there to chassis', 100, 100e6)),
			service: optional(column('V_service', 'volts there by the sheet', 0, 1000)),
			seen: optional(column('V_seen', 'volts measured there', 0, 1000)),
			rating: optional(column('P_rated_W', 'rating of the resistor', 0.05, 50))
		},
		{ most: 60 }
	)
} satisfies Inputs;

type ChainGiven = Given<typeof inputs>;

const TOLERANCE = 10;
const seenSupply = ({ supply, supplySeen }: ChainGiven): number => supplySeen ?? supply;
const hasSeen = ({ sections }: ChainGiven): boolean => sections.some(({ seen }) => seen !== undefined);

/** What the chain should do: by the volts of the sheet where it has them, else by the currents tapped. */
function expectedOf({ supply, sections }: ChainGiven): ChainNode[] | undefined {
	if (sections.some(({ tap, bleeder, service }) => (tap ?? bleeder ?? service) === undefined))
		return undefined;
	if (sections.every(({ service }) => service === undefined)) return chainForward(supply, sections);
	const alone = chainForward(supply, sections).map(({ tapped }) => tapped);
	const taps = sections.map(({ resistance }, i) => ({ resistance, tap: alone[i] }));
	return chainBackward(
		supply,
		taps,
		sections.map(({ service }) => service)
	);
}

/** What the volts measured say; undefined where nobody measured. */
function seenOf(given: ChainGiven, expected: readonly ChainNode[] | undefined): ChainNode[] | undefined {
	if (!hasSeen(given)) return undefined;
	const taps = given.sections.map(({ resistance, tap }, i) => ({
		resistance,
		tap: expected?.[i]?.tapped ?? tap
	}));
	return chainBackward(
		seenSupply(given),
		taps,
		given.sections.map(({ seen }) => seen)
	);
}

/** How far the current of a branch may be off by the tolerance of the two resistors that it is reckoned from, A. */
const doubtAt = ({ tolerance = TOLERANCE }: ChainGiven, nodes: readonly ChainNode[], i: number): number =>
	(tolerance / 100) * (Math.abs(nodes[i]?.through ?? 0) + Math.abs(nodes[i + 1]?.through ?? 0));

interface Branch {
	name: string;
	excess: number;
	/** Of what it should draw; undefined where that is nothing. */
	share: number | undefined;
	word: 'as expected' | 'somewhat off' | 'draws too much' | 'draws too little';
}

function wordOf(excess: number, share: number | undefined, within: number): Branch['word'] {
	if (Math.abs(excess) <= within || Math.abs(share ?? Infinity) <= 20) return 'as expected';
	if (excess < 0) return (share ?? 0) < -50 ? 'draws too little' : 'somewhat off';
	return share === undefined || share > 50 ? 'draws too much' : 'somewhat off';
}

const nodeName = (i: number): string => `node ${i + 1}`;
const RANK = ['as expected', 'somewhat off', 'draws too little', 'draws too much'] as const;

/** Branches that were measured, the worst first. */
function branchesOf(given: ChainGiven, expected: readonly ChainNode[], seen: readonly ChainNode[]): Branch[] {
	const branches = given.sections.flatMap((section, i): Branch[] => {
		const [should, does] = [expected[i], seen[i]];
		if (section.seen === undefined || !should || !does) return [];
		const excess = does.tapped - should.tapped;
		const share = should.tapped > 1e-6 ? (100 * excess) / should.tapped : undefined;
		return [{ name: nodeName(i), excess, share, word: wordOf(excess, share, doubtAt(given, seen, i)) }];
	});
	const rank = ({ word }: Branch): number => RANK.indexOf(word);
	return branches.sort((a, b) => rank(b) - rank(a) || Math.abs(b.excess) - Math.abs(a.excess));
}

/** Volts that rise along the chain, in one of the two columns. */
function uphill(given: ChainGiven, column: 'seen' | 'service', from: number): Problem | undefined {
	let [before, place] = [from, 'the start'];
	for (const [i, section] of given.sections.entries()) {
		const volts = section[column];
		if (volts === undefined) continue;
		if (volts > before) {
			const key = column === 'seen' ? 'V_seen' : 'V_service';
			const message = `sections: ${key} at ${nodeName(i)} is above that at ${place}. No current flows uphill: read both again.`;
			return { key: 'sections', message };
		}
		[before, place] = [volts, nodeName(i)];
	}
	return undefined;
}

/** More current leaves a node than reaches it. */
function backwards(given: ChainGiven, seen: readonly ChainNode[] | undefined): Problem | undefined {
	const at = seen?.findIndex(({ tapped }, i) => tapped < -doubtAt(given, seen, i) - 1e-9) ?? -1;
	if (at < 0) return undefined;
	const message = `sections: by V_seen more current leaves ${nodeName(at)} than reaches it. One of the resistors beside it is not what R_ohm says, or a reading is wrong: measure both cold, and the volts again.`;
	return { key: 'sections', message };
}

function lacking({ sections }: ChainGiven): Problem | undefined {
	const bare = sections.findIndex(
		({ tap, bleeder, service, seen }) => (tap ?? bleeder ?? service ?? seen) === undefined
	);
	if (bare < 0) return undefined;
	const message = `sections: ${nodeName(bare)} has neither I_mA nor volts. Give what is tapped there (0 for nothing), V_service or V_seen.`;
	return { key: 'sections', message };
}

function lineOf(given: ChainGiven, i: number, expected: ChainNode | undefined, seen: ChainNode | undefined) {
	const section = given.sections[i];
	const through = (seen ?? expected)?.through ?? NaN;
	const heat = through ** 2 * (section?.resistance ?? NaN);
	const measured = section?.seen !== undefined;
	return {
		node: nodeName(i),
		V: expected?.volts ?? null,
		V_measured: section?.seen ?? null,
		I_R_mA: through,
		P_R_W: heat,
		I_tap_mA: expected?.tapped ?? null,
		I_tap_seen_mA: measured && seen ? seen.tapped : null,
		load_pct: section?.rating === undefined ? null : (100 * heat) / section.rating
	};
}

type Line = ReturnType<typeof lineOf>;

type Style = Picture['curves'][number]['style'];
/** For what is expected, and for what was measured. */
const LINES = ['solid', 'dashed'] as const;
const BARS = ['hollow bars', 'full bars'] as const;

/** A curve for what is expected and one for what was measured, where there is either. */
function curvesOf(
	[plain, other]: readonly [Style, Style],
	expected: readonly Point[] | undefined,
	seen: readonly Point[] | undefined
): Picture['curves'] {
	return [
		...(expected ? [{ label: 'expected', style: plain, points: expected }] : []),
		...(seen ? [{ label: 'measured', style: other, points: seen }] : [])
	];
}

function pictures(
	given: ChainGiven,
	expected?: readonly ChainNode[],
	seen?: readonly ChainNode[]
): Picture[] {
	const volts = (nodes: readonly ChainNode[], start: number): Point[] =>
		[start, ...nodes.map((node) => node.volts)].map((value, at) => [at, value]);
	const ofResistors = (title: string, y: Axis, value: (through: number, i: number) => number): Picture => {
		const points = (nodes: readonly ChainNode[]): Point[] =>
			nodes.map(({ through }, i) => [i + 1, value(through, i)]);
		const ticks = given.sections.map((_, i) => ({ at: i + 1, label: `to ${nodeName(i)}` }));
		const x = { label: 'Resistor', unit: 'number', scale: 'linear', ticks } as const;
		return { title, x, y, curves: curvesOf(BARS, expected && points(expected), seen && points(seen)) };
	};
	const ticks = ['start', ...given.sections.map((_, i) => nodeName(i))].map((label, at) => ({ at, label }));
	const along: Picture = {
		title: 'Volts along the chain',
		x: { label: 'Along the chain', unit: 'number', scale: 'linear', ticks },
		y: { label: 'Volts', unit: 'V', scale: 'linear' },
		curves: curvesOf(LINES, expected && volts(expected, given.supply), seen && volts(seen, seenSupply(given)))
	};
	return [
		along,
		ofResistors('Current through each resistor', { label: 'Current', unit: 'mA' }, (through) => through),
		ofResistors(
			'Heat in each resistor',
			{ label: 'Heat', unit: 'W' },
			(through, i) => through ** 2 * (given.sections[i]?.resistance ?? NaN)
		)
	];
}

/** Readings that cannot all be true, with the cure. */
export function chainContradiction(given: ChainGiven): Problem | undefined {
	const wrong =
		lacking(given) ?? uphill(given, 'service', given.supply) ?? uphill(given, 'seen', seenSupply(given));
	if (wrong) return wrong;
	const expected = expectedOf(given);
	const sunk = expected?.findIndex(({ volts }) => volts < 0) ?? -1;
	if (sunk >= 0) {
		const message = `sections: with these currents ${nodeName(sunk)} would stand below zero. Check I_mA (milliamps) and R_ohm.`;
		return { key: 'sections', message };
	}
	return backwards(given, seenOf(given, expected));
}

/** All that follows from what was given; base units. */
export function chainResults(given: ChainGiven) {
	const expected = expectedOf(given);
	const seen = seenOf(given, expected);
	const nodes = given.sections.map((_, i) => lineOf(given, i, expected?.[i], seen?.[i]));
	const [worst] = expected && seen ? branchesOf(given, expected, seen) : [];
	const loads = nodes.flatMap(({ load_pct }: Line) => load_pct ?? []);
	const real = seen ?? expected ?? [];
	return {
		nodes,
		total: real[0]?.through,
		end: real.at(-1)?.volts,
		finding: worst?.word,
		branch: worst?.name,
		excess: worst?.excess,
		excessShare: worst?.share,
		load: loads.length > 0 ? Math.max(...loads) : undefined
	};
}

/** Volts, currents and watts along the chain. */
export function chainPictures(given: ChainGiven): Picture[] {
	const expected = expectedOf(given);
	return pictures(given, expected, seenOf(given, expected));
}
