import { describe, expect, test } from 'vitest';
import {
	downstream,
	placeOf,
	placesWith,
	pointsOn,
	reaches,
	stagesOn,
	upstream,
	type Plan
} from '../../../src/lib/receiver/index.ts';
import { shippedPlan } from './plans.ts';

const shared = shippedPlan('am-fm-shared');
const five = shippedPlan('am-acdc-five');

describe('half-splitting an AM/FM set with shared valves', () => {
	test('a signal on the top of the volume control tests the audio side alone', () => {
		const audio = ['volume', 'af', 'coupling', 'output', 'output-transformer', 'loudspeaker'];
		expect(downstream(shared, 'am', 'volume.top')).toEqual(audio);
		expect(downstream(shared, 'fm', 'volume.top')).toEqual(audio);
		expect(downstream(shared, 'gram', 'volume.top')).toEqual(audio);
	});

	test('a tracer there listens to all that comes before', () => {
		expect(upstream(shared, 'fm', 'volume.top')).toEqual([
			'fm-dipole',
			'fm-tuner',
			'fm-link',
			'mixer',
			'if-can-1',
			'if-can-1-fm',
			'if-valve',
			'if-can-2',
			'if-can-2-fm',
			'fm-detector'
		]);
		expect(upstream(shared, 'gram', 'volume.top')).toEqual([]);
	});

	test('10.7 MHz at the heptode grid goes round the tuner but through the mixer', () => {
		const stages = downstream(shared, 'fm', 'mixer.grid-10m7');
		expect(stages).not.toContain('fm-tuner');
		expect(stages[0]).toBe('mixer');
	});

	test('the IF at the mixer grid needs no oscillator; the station frequency does', () => {
		for (const plan of [shared, five]) {
			expect(downstream(plan, 'am', 'mixer.grid-if')).not.toContain('oscillator');
			expect(downstream(plan, 'am', 'mixer.grid-signal')).toContain('oscillator');
		}
	});

	test.each([
		['am', 'fm-detector.output'],
		['fm', 'mixer.grid-if'],
		['lw', 'volume.top']
	])('on %s nothing is tested from "%s": it is not a point of that path', (band, point) => {
		expect(downstream(shared, band, point)).toEqual([]);
		expect(upstream(shared, band, point)).toEqual([]);
	});

	test('what is before a point and what is behind it make up the whole path', () => {
		for (const plan of [shared, five])
			for (const band of Object.keys(plan.bands))
				for (const point of pointsOn(plan, band))
					expect([...upstream(plan, band, point), ...downstream(plan, band, point)]).toEqual(
						stagesOn(plan, band)
					);
	});

	test('AM and FM share mixer, IF valve and audio, and nothing of aerial and detector', () => {
		const fm = stagesOn(shared, 'fm');
		const both = stagesOn(shared, 'am').filter((stage) => fm.includes(stage));
		expect(both).toEqual([
			'mixer',
			'if-can-1',
			'if-valve',
			'if-can-2',
			...downstream(shared, 'am', 'volume.top')
		]);
	});
});

describe('what reaches a stage', () => {
	const am = stagesOn(shared, 'am');
	const fm = stagesOn(shared, 'fm');

	test('a stage reaches the stages listened through if it is one of them', () => {
		expect(reaches(shared, 'am-detector', 'am', am)).toBe(true);
		expect(reaches(shared, 'am-detector', 'fm', fm)).toBe(false);
		expect(reaches(shared, 'am-detector', 'am', ['output'])).toBe(false);
	});

	test('the HT line reaches every band', () => {
		for (const band of Object.keys(shared.bands))
			expect(reaches(shared, 'ht', band, stagesOn(shared, band))).toBe(true);
	});

	test('the HT line does not reach a stage that it does not feed', () => {
		expect(reaches(shared, 'ht', 'am', ['loudspeaker'])).toBe(false);
	});

	test('the AVC line acts on AM alone, though FM goes through the same valves', () => {
		expect(reaches(shared, 'avc', 'am', am)).toBe(true);
		expect(reaches(shared, 'avc', 'fm', fm)).toBe(false);
	});

	test('the drive to the FM tuner does nothing to AM', () => {
		expect(reaches(shared, 'fm-drive', 'fm', fm)).toBe(true);
		expect(reaches(shared, 'fm-drive', 'am', am)).toBe(false);
	});

	test('a place that the plan has not reaches nothing', () => {
		expect(reaches(shared, 'vibrator', 'am', am)).toBe(false);
	});
});

describe('places of a plan', () => {
	test('a stage and a line are places, a test point is not', () => {
		expect(placeOf(shared, 'output')?.section).toBe('output');
		expect(placeOf(shared, 'ht')?.section).toBe('power-supply');
		expect(placeOf(shared, 'output.grid')).toBeUndefined();
	});

	test('every place that has a socket also has a valve in it, or is a heater chain', () => {
		for (const plan of [shared, five])
			for (const id of placesWith(plan, 'socket')) {
				const place = placeOf(plan, id);
				expect(place?.valve !== undefined || place?.section === 'heaters', `${plan.id}: ${id}`).toBe(true);
			}
	});

	test('a kind of part that no stage holds has no place', () => {
		const bare: Plan = { ...five, stages: {}, lines: {} };
		expect(placesWith(bare, 'valve')).toEqual([]);
	});
});
