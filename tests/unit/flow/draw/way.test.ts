import { beforeAll, describe, expect, test } from 'vitest';
import { drawWay } from '../../../../src/lib/flow/draw/layout.ts';
import { outlineOf, printOutline } from '../../../../src/lib/flow/draw/outline.ts';
import { qualityOf, timesOf } from '../../../../src/lib/flow/draw/quality.ts';
import { svgOf } from '../../../../src/lib/flow/draw/svg.ts';
import { after, followWay, LEAST_CHANCE, type Way } from '../../../../src/lib/flow/draw/way.ts';
import { repairAdvice, suggest } from '../../../../src/lib/flow/advice.ts';
import { resolveFlow, type ResolvedFlow } from '../../../../src/lib/flow/resolve.ts';
import { trace } from '../../../../src/lib/flow/trace.ts';
import { lookAheadFully } from '../../../../src/lib/suspects/index.ts';
import { flowOf, sampleLibrary, samplePlan } from '../small.ts';

const flow = flowOf({
	title: 'Distorts & hums <loudly>',
	symptom: { all: 'distorted' },
	suspects: {
		'cc-leak': 'common',
		'ov-gas': { common: 'common', in: ['output'] },
		'socket@output': 'occasional'
	},
	opening: ['rock-valves'],
	uses: ['rock-valves', 'output-grid-volts', 'lift-coupling', 'listen-fm']
});

/** The small library with repairs that take long enough for checks to be worth their while. */
function slowToMend() {
	const library = sampleLibrary();
	for (const suspect of Object.values(library.suspects)) suspect.repair.minutes = 90;
	return library;
}

let resolved: ResolvedFlow;
let way: Way;
beforeAll(async () => {
	resolved = resolveFlow(slowToMend(), flow, samplePlan());
	way = await followWay(resolved, lookAheadFully);
});

describe('the way of the advice', () => {
	test('begins with the step that the flow asks first, and all traces come by it', () =>
		expect(way.stops[0]).toMatchObject({ kind: 'step', step: 'rock-valves', chance: 1, minutes: 0 }));

	test('of the traces that come by a step none is lost: followed, or told to be too rare', () => {
		for (const stop of way.stops) {
			if (stop.kind !== 'step') continue;
			const followed = after(way, stop.id).reduce((sum, { chance }) => sum + chance, 0);
			expect(followed + stop.left.chance).toBeCloseTo(stop.chance, 6);
		}
	});

	test('no way is followed that fewer than 3 in 100 traces take', () =>
		expect(way.stops.every(({ chance }) => chance >= LEAST_CHANCE)).toBe(true));

	test('each stop is what the job page would say after the same answers', () => {
		const [first] = way.stops;
		if (first?.kind !== 'step') throw new Error('The way begins with a step.');
		const answered = [{ step: first.step, outcome: 'quiet' }];
		const here = trace(resolved, { answers: answered, mended: [] });
		const situation = { power: 'live' as const, answered, skipped: [], unavailable: [] };
		const said = suggest(here, situation);
		const next = after(way, first.id).find(({ from }) => from?.answer === 'Nothing changes');
		expect(repairAdvice(here, said, 'live').stop).toBe(false);
		expect(next).toMatchObject({ kind: 'step', step: said[0]?.id, takes: said[0]?.minutes });
	});

	test('it ends where one repair is worth its while, with the suspects that it mends', () => {
		const ends = way.stops.filter((stop) => stop.kind === 'repair');
		expect(ends.length).toBeGreaterThan(0);
		for (const { names, standing } of ends) {
			expect(names.length).toBeGreaterThan(0);
			expect(standing).toBeGreaterThan(0);
			expect(standing).toBeLessThanOrEqual(1);
		}
	});

	test('a search that is called off leaves the rest of the picture off, and says where', async () => {
		let asked = 0;
		const part = await followWay(resolved, (question) =>
			asked++ < 2 ? lookAheadFully(question) : undefined
		);
		expect(part.stops.filter(({ kind }) => kind === 'step')).toHaveLength(2);
		expect(part.stops.some(({ kind }) => kind === 'left off')).toBe(true);
	});
});

describe('its outline', () => {
	test('numbers every stop once, and each answer leads to a number that is there', () => {
		const entries = outlineOf(way);
		const numbers = entries.map(({ number }) => number);
		expect(numbers).toEqual(way.stops.map((_, place) => place + 1));
		const led = entries.flatMap(({ answers }) => answers.map(({ to }) => to));
		expect(led.sort((a, b) => a - b)).toEqual(numbers.slice(1));
	});

	test('reads down the main road: the likeliest answer leads to the next number', () => {
		for (const { number, answers } of outlineOf(way)) if (answers[0]) expect(answers[0].to).toBe(number + 1);
	});

	test('as text it names flow, set, power and minutes', () => {
		const text = printOutline(way);
		expect(text).toMatch(/^Distorts & hums <loudly>: A set for these tests/);
		expect(text).toContain('1. Move each valve in its socket (Live, ');
	});
});

describe('its drawing', () => {
	const overlap = (a: { y: number; height: number; x: number }, b: typeof a) =>
		a.x === b.x && a.y < b.y + b.height && b.y < a.y + a.height;

	test('has a box for each stop and a line for each answer, and no two boxes overlap', () => {
		const { boxes, lines } = drawWay(way);
		expect(boxes).toHaveLength(way.stops.length);
		expect(lines).toHaveLength(way.stops.length - 1);
		for (const one of boxes)
			for (const other of boxes) if (one !== other) expect(overlap(one, other)).toBe(false);
	});

	test('for a narrow screen all stand below one another, in the order of the outline, within 324 px', () => {
		const { boxes, width } = drawWay(way, 'tall');
		expect(width).toBe(324);
		boxes.forEach((box, place) => {
			const above = boxes[place - 1];
			expect(box.number).toBe(place + 1);
			expect(box.x + box.width).toBeLessThanOrEqual(width);
			if (above) expect(box.y).toBeGreaterThan(above.y + above.height);
		});
	});

	test('the more traces go a way, the thicker its line', () => {
		const chance = new Map(outlineOf(way).map(({ number, stop }) => [number, stop.chance]));
		const lines = drawWay(way).lines.map(({ to, width }) => ({ width, chance: chance.get(to) ?? 0 }));
		const sorted = [...lines].sort((a, b) => a.chance - b.chance);
		expect(sorted.map(({ width }) => width)).toEqual(lines.map(({ width }) => width).sort((a, b) => a - b));
	});

	test('the likelier of two answers stands above the other', () => {
		const boxes = new Map(drawWay(way).boxes.map((box) => [box.number, box]));
		for (const { answers } of outlineOf(way)) {
			const heights = answers.map(({ to }) => boxes.get(to)?.y ?? NaN);
			expect(heights).toEqual([...heights].sort((a, b) => a - b));
		}
	});

	test('as a file it is plain SVG: words of the flow stay words, nothing runs or is fetched', () => {
		const svg = svgOf(way);
		expect(svg).toContain('<title>Distorts &amp; hums &lt;loudly&gt;: A set for these tests</title>');
		expect(svg.replace('http://www.w3.org/2000/svg', '')).not.toMatch(/<script|href|https?:|url\(|\son\w+=/);
	});
});

describe('its figures', () => {
	test('what is open at the start is what equal suspects would leave open', () => {
		const { entropy, asHardAs, suspects } = qualityOf(resolved);
		expect(asHardAs).toBeCloseTo(2 ** entropy, 6);
		expect(asHardAs).toBeLessThanOrEqual(suspects + 1);
	});

	test('suspects that no step parts stay together: without the grid no step tells valve from capacitor', () => {
		const blind = resolveFlow(
			sampleLibrary(),
			flowOf({ suspects: { 'cc-leak': 'common', 'ov-gas': 'common' }, uses: ['output-grid-volts'] }),
			samplePlan()
		);
		expect(qualityOf(blind).together).toEqual([
			{ names: ['Coupling capacitor: leaky', 'Output valve: gassy'], oneRepair: false }
		]);
		expect(qualityOf(resolved).together).toEqual([]);
	});

	test('the share that is followed to a verdict is what ends there, and takes its minutes', () => {
		const { expected, ended } = timesOf(way);
		const ends = way.stops.filter(({ kind }) => kind === 'repair' || kind === 'outside');
		expect(ended.share).toBeCloseTo(
			ends.reduce((sum, { chance }) => sum + chance, 0),
			9
		);
		expect(ended.minutes).toBeGreaterThan(0);
		expect(expected).toBeGreaterThan(0);
	});
});
