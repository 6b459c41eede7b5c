import { describe, expect, test } from 'vitest';
import { placeSuspects } from '../../../../src/lib/flow/resolve.ts';
import { prepareAmplifier } from '../../../../src/lib/receiver/stage-check/amplifier.ts';
import { prepareRectifier } from '../../../../src/lib/receiver/stage-check/rectifier.ts';
import { shippedLibrary } from '../../../library.ts';
import { mixer, output, supply, triode, ifStage } from './stages.ts';

const library = shippedLibrary();
const known = new Set(
	Object.values(library.plans).flatMap((plan) => placeSuspects(library, undefined, plan).map(({ id }) => id))
);

const STAGES = {
	'triode-audio': prepareAmplifier(triode({})).faults,
	'output-pentode': prepareAmplifier(output({})).faults,
	'if-pentode': prepareAmplifier(ifStage({})).faults,
	'triode-heptode': prepareAmplifier(mixer({})).faults,
	rectifier: prepareRectifier(supply({})).faults
};

describe.each(Object.entries(STAGES))('the faults of a stage: %s', (_, faults) => {
	const causes = faults.flatMap((row) => row.causes.map((cause) => cause));

	test('every suspect that they name is in the library, at that place', () => {
		const strangers = causes.flatMap(({ suspects }) => suspects).filter((id) => !known.has(id));
		expect(strangers).toEqual([]);
	});

	test('where the library has suspects for a fault, the commonest is at least nearly as common there', () => {
		const ORDER = ['not listed', 'rare', 'occasional', 'common', 'very common'];
		const apart = causes.flatMap(({ fault, common, suspects }) => {
			const words = suspects.map((id) => library.suspects[id.replace(/@.*/, '')]?.common ?? 'not listed');
			const most = Math.max(...words.map((word) => ORDER.indexOf(word)));
			return suspects.length > 0 && Math.abs(ORDER.indexOf(common) - most) > 1
				? [`${fault}: ${common}, ${words.join()}`]
				: [];
		});
		expect(apart).toEqual([]);
	});

	test('causes that DC volts cannot part say what does', () => {
		expect(faults.filter(({ causes: all, partBy }) => all.length > 1 && partBy === '')).toEqual([]);
	});
});
