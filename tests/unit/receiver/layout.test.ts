import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { describe, expect, test } from 'vitest';
import { TEXT, textWidth } from '../../../src/lib/receiver/drawing/label.ts';
import {
	layout,
	wrapNote,
	type Box,
	type Drawing,
	type DrawnStage
} from '../../../src/lib/receiver/layout.ts';
import { Plan } from '../../../src/lib/receiver/plan.ts';

const NOTES = ['almost certainly over 95 %', 'in question 25 %', 'under 1 in 20'];
const shipped = (name: string) => Plan.parse(parse(readFileSync(`flows/shared/plans/${name}.yaml`, 'utf8')));

const stage = (title: string, section = 'if') => ({ title, section });
const sketch = (paths: Record<string, string[]>, more: object = {}): Plan => {
	const ids = [...new Set(Object.values(paths).flat())];
	const names = ids.filter((id) => !id.includes('.'));
	return Plan.parse({
		id: 'sketch',
		title: 'Sketch',
		about: 'Drawn for a test',
		source: 'from memory',
		traits: {},
		bands: Object.fromEntries(Object.keys(paths).map((band) => [band, { title: band.toUpperCase() }])),
		valves: {},
		stages: Object.fromEntries(names.map((id) => [id, stage(`The stage ${id}`)])),
		lines: {},
		points: Object.fromEntries(
			ids.filter((id) => id.includes('.')).map((id) => [id, { title: id, stage: id.split('.')[0] ?? '' }])
		),
		paths,
		...more
	});
};

const PLANS: Record<string, Plan> = {
	'AM/FM set with shared valves': shipped('am-fm-shared'),
	'AC/DC set with five valves': shipped('am-acdc-five'),
	'set of a single stage': sketch({ am: ['crystal'] }),
	'reflex set, one valve twice on the path': sketch({
		am: ['aerial', 'valve', 'valve.anode', 'detector', 'valve', 'phones']
	}),
	'two wave ranges through the same stages': sketch({
		mw: ['rf', 'rf.grid', 'af'],
		lw: ['rf', 'rf.grid', 'af']
	}),
	'ranges that share by turns': sketch({
		sw: ['coil-sw', 'rf', 'det'],
		fm: ['tuner', 'fm-det', 'af'],
		mw: ['coil-mw', 'rf', 'det', 'af'],
		gram: ['pick-up.socket', 'pre', 'af']
	}),
	'two points on one joint': sketch({ am: ['rf', 'rf.anode', 'af.grid', 'af'] }),
	'a point before the first stage and one after the last': sketch({ am: ['set.in', 'set', 'set.out'] }),
	'bands that go through two stages in opposite order': sketch({
		am: ['one', 'two', 'end'],
		fm: ['two', 'one', 'end']
	}),
	'line and lamp that no band passes': sketch(
		{ am: ['rf', 'af'] },
		{
			stages: { rf: stage('RF'), af: stage('AF'), lamp: stage('Lamp', 'indicator') },
			lines: {
				ht: { kind: 'supply', section: 'power-supply', title: 'HT', feeds: ['rf', 'af'] },
				'lamp-feed': { kind: 'supply', section: 'heaters', title: 'Feed to the lamp', feeds: ['lamp'] }
			},
			points: {
				'lamp.tag': { title: 'Tag of the lamp', stage: 'lamp' },
				'ht.out': { title: 'HT', stage: 'ht' }
			}
		}
	)
};
const SIZES = [
	{ shape: 'tall', width: 288 },
	{ shape: 'tall', width: 560 },
	{ shape: 'wide', width: 880 },
	{ shape: 'wide', width: 1180 }
] as const;
const drawn = (plan: Plan, size: (typeof SIZES)[number]) => layout(plan, { ...size, notes: NOTES });
const CASES = Object.entries(PLANS).flatMap(([name, plan]) =>
	SIZES.map((size) => ({ name, plan, size, is: `${size.shape}, ${size.width}`, drawing: drawn(plan, size) }))
);

const boxesOf = ({ stages, lines }: Drawing): Box[] => [...stages, ...lines.flatMap(({ bars }) => bars)];
const meet = (a: Box, b: Box) =>
	a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
const box = ({ stages }: Drawing, id: string): DrawnStage => {
	const found = stages.find((one) => one.id === id);
	if (!found) throw new Error(`"${id}" is not drawn.`);
	return found;
};
const point = ({ points }: Drawing, id: string) => {
	const found = points.find((one) => one.id === id);
	if (!found) throw new Error(`"${id}" is not drawn.`);
	return found;
};

describe.each(CASES)('$name, $is', ({ plan, size, drawing }) => {
	test('every stage, line and test point stands in it once', () => {
		const ids = (some: readonly { id: string }[]) => some.map(({ id }) => id).sort();
		expect(ids(drawing.stages)).toEqual(Object.keys(plan.stages).sort());
		expect(ids(drawing.lines)).toEqual(Object.keys(plan.lines).sort());
		expect(ids(drawing.points)).toEqual(Object.keys(plan.points).sort());
		expect(drawing.lines.filter(({ bars }) => bars.length === 0)).toEqual([]);
	});

	test('no two boxes meet, and a finger finds each', () => {
		const boxes = boxesOf(drawing);
		for (const [index, a] of boxes.entries())
			for (const b of boxes.slice(index + 1)) expect(meet(a, b)).toBe(false);
		for (const { width, height } of boxes) expect(Math.min(width, height)).toBeGreaterThanOrEqual(44);
	});

	test('no two test points cover each other', () => {
		const { points } = drawing;
		for (const [index, a] of points.entries())
			for (const b of points.slice(index + 1)) expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThan(20);
	});

	test('nothing lies outside', () => {
		expect(drawing.width).toBeLessThanOrEqual(size.width + 0.5);
		for (const { x, y, width, height } of boxesOf(drawing)) {
			expect(Math.min(x, y)).toBeGreaterThanOrEqual(0);
			expect(x + width).toBeLessThanOrEqual(drawing.width);
			expect(y + height).toBeLessThanOrEqual(drawing.height);
		}
		const corners = [
			...drawing.points,
			...drawing.wires.flatMap((wire) => wire.corners),
			...drawing.captions
		];
		for (const { x, y } of corners) {
			expect(Math.min(x, y)).toBeGreaterThanOrEqual(0);
			expect(x).toBeLessThanOrEqual(drawing.width);
			expect(y).toBeLessThanOrEqual(drawing.height);
		}
	});

	test('label and the longest standing fit into each box', () => {
		for (const { label, textWidth: room, noteLines, foot, height } of boxesOf(drawing)) {
			for (const line of label) expect(textWidth(line)).toBeLessThanOrEqual(room);
			for (const note of NOTES) expect(wrapNote(note, room).length).toBeLessThanOrEqual(noteLines);
			expect((label.length + noteLines) * TEXT.line + foot).toBeLessThan(height);
		}
	});

	test('each band has its name where its signal comes in', () => {
		for (const { title } of Object.values(plan.bands))
			expect(drawing.captions.some(({ text }) => text.split(', ').includes(title))).toBe(true);
	});
});

const FORWARD = CASES.filter(({ drawing }) => drawing.wires.every(({ back }) => !back));

test('only a valve that serves twice, or bands in opposite order, lead a wire back', () => {
	const back = CASES.filter((one) => !FORWARD.includes(one)).map(({ name }) => name);
	expect([...new Set(back)]).toEqual([
		'reflex set, one valve twice on the path',
		'bands that go through two stages in opposite order'
	]);
});

/** Rows of a wide drawing are read like lines of text: where two boxes stand side by side, the left one comes first. */
const comesBefore = (shape: string, a: DrawnStage, b: DrawnStage) => {
	if (shape === 'tall') return a.y + a.height <= b.y;
	return a.x + a.width <= b.x || a.y + a.height <= b.y;
};

describe.each(FORWARD)('signal order of $name, $is', ({ plan, size, drawing }) => {
	test.each(Object.keys(plan.bands))('the stages of %s follow each other from the aerial on', (band) => {
		const path = (plan.paths[band] ?? []).filter((id) => plan.stages[id]);
		path.slice(1).forEach((id, index) => {
			expect(comesBefore(size.shape, box(drawing, path[index] ?? id), box(drawing, id))).toBe(true);
		});
	});
});

describe.each(SIZES.filter(({ shape }) => shape === 'tall'))('tall, $width', (size) => {
	const drawing = drawn(shipped('am-fm-shared'), size);

	test('AM and FM windings of an IF can stand side by side, the valves that both use across both lanes', () => {
		const [am, fm] = [box(drawing, 'if-can-1-am'), box(drawing, 'if-can-1-fm')];
		expect(am.y).toBe(fm.y);
		for (const shared of ['mixer', 'if-valve', 'output']) {
			const { x, width } = box(drawing, shared);
			expect(x).toBe(Math.min(am.x, fm.x));
			expect(x + width).toBeCloseTo(Math.max(am.x + am.width, fm.x + fm.width));
		}
	});

	test('a test point on the path lies between the stages that it parts', () => {
		const at = point(drawing, 'if.grid');
		expect(at.onPath).toBe(true);
		expect(at.y).toBeGreaterThan(box(drawing, 'if-can-1-fm').y + box(drawing, 'if-can-1-fm').height);
		expect(at.y).toBeLessThan(box(drawing, 'if-valve').y);
	});

	test('the gram input joins at the volume control', () => {
		const caption = drawing.captions.find(({ text }) => text === 'Gram input');
		expect(Math.abs((caption?.y ?? 0) - point(drawing, 'volume.top').y)).toBeLessThan(10);
	});

	test('the rail of each line touches the height of every stage that it feeds and ends at its box', () => {
		for (const { feeds, taps, rail, bars } of drawing.lines) {
			expect(taps.map(({ y }) => y).sort((a, b) => a - b)).toEqual(
				feeds
					.map((id) => box(drawing, id))
					.map(({ y, height }) => y + height / 2)
					.sort((a, b) => a - b)
			);
			const [bar, end] = [bars[0], rail.at(-1)];
			expect(end?.y).toBe((bar?.y ?? 0) + (bar?.height ?? 0) / 2);
		}
	});
});

describe.each(SIZES.filter(({ shape }) => shape === 'wide'))('wide, $width', (size) => {
	const drawing = drawn(shipped('am-fm-shared'), size);

	test('the HT bars span the stages that HT feeds, one bar for each row', () => {
		const ht = drawing.lines.find(({ id }) => id === 'ht');
		for (const id of ht?.feeds ?? []) {
			const { x, width, y, height } = box(drawing, id);
			const middle = x + width / 2;
			const above = (ht?.bars ?? []).filter(
				(bar) => bar.y >= y + height && bar.x <= x && bar.x + bar.width >= x + width
			);
			expect(above.length).toBeGreaterThan(0);
			expect(ht?.taps.some((tap) => tap.x === middle && above.some((bar) => bar.y === tap.y))).toBe(true);
		}
	});

	test('the reservoir and the smoothed HT are measured on the first HT bar', () => {
		const bar = drawing.lines.find(({ id }) => id === 'ht')?.bars[0];
		for (const id of ['ht.reservoir', 'ht.smoothed']) {
			const { x, y, onPath } = point(drawing, id);
			expect(onPath).toBe(false);
			expect(bar && x > bar.x && x < bar.x + bar.width && y > bar.y && y < bar.y + bar.height).toBe(true);
		}
	});

	test('a wire that goes on in the next row is marked so', () => {
		expect(drawing.wires.some(({ goesOn }) => goesOn)).toBe(true);
	});
});

test('lanes that share stages stand next to each other', () => {
	const plan = sketch({ am: ['coil', 'af'], fm: ['tuner', 'end-fm'], gram: ['pre', 'af'] });
	const drawing = layout(plan, { shape: 'tall', width: 400 });
	const [af, tuner] = [box(drawing, 'af'), box(drawing, 'tuner')];
	expect(tuner.x >= af.x + af.width || tuner.x + tuner.width <= af.x).toBe(true);
});

describe('labels', () => {
	const plan = (title: string) => sketch({ am: ['one'] }, { stages: { one: stage(title) } });
	const label = (title: string, width: number) =>
		box(layout(plan(title), { shape: 'tall', width }), 'one').label;

	test('a title that fits stays whole', () => {
		expect(label('AM oscillator (triode of the triode-heptode)', 400)).toEqual([
			'AM oscillator (triode of the triode-heptode)'
		]);
	});

	test('a long title loses its brackets first, then its second clause', () => {
		expect(label('AM oscillator (triode of the triode-heptode, seen from below)', 130).join(' ')).toBe(
			'AM oscillator'
		);
		expect(label('Detector diode, its load, the filter and the capacitor', 120).join(' ')).toBe(
			'Detector diode'
		);
	});

	test('a word wider than its box is cut with a hyphen', () => {
		expect(label('Radiogramophone', 90)).toEqual(['Radiogra-', 'mophone']);
	});

	test('a number stays with its unit', () => {
		expect(wrapNote('in question 25\u00a0%', 90)).toEqual(['in question', '25\u00a0%']);
	});
});
