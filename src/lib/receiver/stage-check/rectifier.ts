import type { Prepared } from './prepared.ts';
import type { Spread } from './comparison.ts';
import type { Probe } from './circuit.ts';
import { rectifierFaults } from './faults/rectifier.ts';
import { toleranceOf } from './part-value.ts';
import { rectifierAt, type Supply, supplyReader, usualVolts } from './supply-circuit.ts';
import type { PartId, PartValue, RectifierQuestion } from './types.ts';

const UNIFORM = 0.58;
/** As a logarithm, of a part that is not known. */
const UNKNOWN = 0.6;
const USUAL_MAINS = 50;
const USUAL: Readonly<Partial<Record<PartId, number>>> = {
	winding: 250,
	smoothing: 1.2e3,
	'reservoir-capacitor': 40e-6
};
const TOLERANCE: Readonly<Partial<Record<PartId, number>>> = { winding: 15, 'reservoir-capacitor': 25 };
/** Of a sound rectifier, of what a set draws, and of the two halves of a winding; as logarithms. Our own choice. */
const SPREAD = { rectifier: 0.2, load: 0.12, halves: 0.01, mains: 0.03 };

function part(given: PartValue | undefined, id: PartId): { value: number; sigma: number } {
	if (given === undefined) return { value: USUAL[id] ?? 1, sigma: UNKNOWN };
	const tolerance = toleranceOf(given, TOLERANCE[id]);
	return {
		value: typeof given === 'number' ? given : given.value,
		sigma: UNIFORM * Math.log1p(tolerance / 100)
	};
}

/** The larger of the two halves, where one was read: the other may be open. */
function readWinding({ readings }: RectifierQuestion): number | undefined {
	const read = [readings['winding-1'], readings['winding-2']].filter((volts) => volts !== undefined);
	return read.length > 0 ? Math.max(...read) : undefined;
}

export function prepareRectifier(question: RectifierQuestion): Prepared<Supply> {
	const { rectifier, parts = {}, load, direct = 0, mains = USUAL_MAINS, windingVolts } = question;
	const halfWave = rectifier.halfWave === true;
	const { ohms, peak } = rectifierAt(rectifier, mains);
	const winding = part(parts.winding, 'winding');
	const smoothing = part(parts.smoothing, 'smoothing');
	const reservoir = part(parts['reservoir-capacitor'], 'reservoir-capacitor');
	const sound: Supply = {
		winding: windingVolts ?? readWinding(question) ?? rectifier.windingVolts,
		second: 1,
		windingOhms: winding.value,
		firstOhms: ohms,
		secondOhms: ohms,
		reservoir: reservoir.value,
		smoothing: Math.max(smoothing.value, 1),
		load,
		direct,
		reservoirLeak: 0,
		smoothedLeak: 0,
		meterScale: 1
	};
	const read = supplyReader(usualVolts(sound, { mains, halfWave, peak }));
	const spreads: Spread<Supply>[] = [
		{ key: 'winding', sigma: windingVolts === undefined ? 0.12 : SPREAD.mains },
		...(halfWave
			? []
			: ([
					{ key: 'second', sigma: SPREAD.halves },
					{ key: 'secondOhms', sigma: SPREAD.rectifier }
				] as const)),
		{ key: 'windingOhms', sigma: winding.sigma },
		{ key: 'firstOhms', sigma: SPREAD.rectifier },
		{ key: 'reservoir', sigma: reservoir.sigma },
		{ key: 'smoothing', sigma: smoothing.sigma },
		{ key: 'load', sigma: SPREAD.load },
		{ key: 'direct', sigma: SPREAD.load },
		{ key: 'meterScale', sigma: (UNIFORM * (question.meter?.accuracy ?? 2)) / 100 }
	];
	let asked: readonly Probe[] = [];
	const readAll = (supply: Supply): number[] => {
		const reading = read(supply);
		return asked.map((probe) => reading(probe.reading));
	};
	return {
		sound,
		spreads,
		figureOf: { winding: 'windingOhms', smoothing: 'smoothing', 'reservoir-capacitor': 'reservoir' },
		faults: rectifierFaults(sound, { winding: windingVolts !== undefined, halfWave }),
		foretell: (supply, probes) => {
			asked = probes;
			return readAll(supply);
		},
		nudged: readAll
	};
}
