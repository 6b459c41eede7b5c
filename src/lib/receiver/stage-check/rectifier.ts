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
/** Of a usual rectifier that stands in, and of a winding that nobody knows. Our own choice. */
const STAND_IN = { rectifier: 0.4, winding: 0.12 };

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

/** What is told of a supply besides its readings. */
type Known = Pick<RectifierQuestion, 'rectifier' | 'parts' | 'load' | 'direct' | 'mains'>;

const partsOf = ({ parts = {} }: Pick<Known, 'parts'>) => ({
	winding: part(parts.winding, 'winding'),
	smoothing: part(parts.smoothing, 'smoothing'),
	reservoir: part(parts['reservoir-capacitor'], 'reservoir-capacitor')
});

/** The supply with nothing wrong and so many volts RMS on each anode, and how its rectifier is reckoned. */
function soundSupply(known: Known, volts: number) {
	const { rectifier, load, direct = 0, mains = USUAL_MAINS } = known;
	const { ohms, peak } = rectifierAt(rectifier, mains);
	const { winding, smoothing, reservoir } = partsOf(known);
	const supply: Supply = {
		winding: volts,
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
	return { supply, by: { mains, peak, halfWave: rectifier.halfWave === true } };
}

/** Volts RMS on each anode with which a sound supply has so many volts on its reservoir. */
export function windingFor(known: Known, reservoirVolts: number): number {
	const { supply, by } = soundSupply(known, reservoirVolts);
	let [low, high] = [0.5 * reservoirVolts, 2 * reservoirVolts];
	for (let round = 0; round < 14; round++) {
		const winding = Math.sqrt(low * high);
		if (usualVolts({ ...supply, winding }, by).reservoir < reservoirVolts) low = winding;
		else high = winding;
	}
	return Math.sqrt(low * high);
}

export function prepareRectifier(question: RectifierQuestion): Prepared<Supply> {
	const { rectifier, windingVolts, usualWinding, unsure = {} } = question;
	const spread = rectifier.usual ? STAND_IN.rectifier : SPREAD.rectifier;
	const volts = windingVolts ?? readWinding(question) ?? usualWinding ?? rectifier.windingVolts;
	const { supply: sound, by } = soundSupply(question, volts);
	const { halfWave } = by;
	const { winding, smoothing, reservoir } = partsOf(question);
	const read = supplyReader(usualVolts(sound, by));
	const spreads: Spread<Supply>[] = [
		{
			key: 'winding',
			sigma: unsure.winding ?? (windingVolts === undefined ? STAND_IN.winding : SPREAD.mains)
		},
		...(halfWave
			? []
			: ([
					{ key: 'second', sigma: SPREAD.halves },
					{ key: 'secondOhms', sigma: spread }
				] as const)),
		{ key: 'windingOhms', sigma: winding.sigma },
		{ key: 'firstOhms', sigma: spread },
		{ key: 'reservoir', sigma: reservoir.sigma },
		{ key: 'smoothing', sigma: smoothing.sigma },
		{ key: 'load', sigma: unsure.load ?? SPREAD.load },
		{ key: 'direct', sigma: unsure.direct ?? SPREAD.load },
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
