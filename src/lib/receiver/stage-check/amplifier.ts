import { amplifierFaults } from './faults/amplifier.ts';
import { type Circuit, type Layout, oscillatorLaw, Solver } from './circuit.ts';
import type { Spread } from './comparison.ts';
import { markedOf, toleranceOf } from './part-value.ts';
import { lawOf, TAIL } from './laws.ts';
import type { Prepared } from './prepared.ts';
import type { MixerQuestion, PartId, ValveQuestion } from './types.ts';
import { isControlled } from './unseen.ts';

type Question = ValveQuestion | MixerQuestion;

/** Standard error of a part that lies anywhere within its tolerance, and of one that is not known at all; as logarithms. */
const UNIFORM = 0.58;
const UNKNOWN = 0.6;
/** Of sound valves against their sheets, as logarithms. Our own choice, near the scatter of new valves. */
const VALVE = { emission: 0.12, mu: 0.04, screenRatio: 0.12 };
/** Of contact potentials, V. Our own choice. */
const CONTACT = 0.1;
/** Of a meter, per cent. */
const USUAL_ACCURACY = 2;
/** Where the far side of the coupling capacitor was not read: an anode behind its load, as a share of HT. */
const USUAL_BEFORE = 0.4;
/** Ohm behind that anode: its load beside the valve. Our own choice. */
const BEFORE_OHMS = 100e3;
/** Least resistance, ohm: a wire. */
const WIRE = 0.5;

/** Ohm. */
const USUAL_SCREEN_STOPPER = 1e3;

interface Part {
	key: keyof Circuit;
	id: PartId;
	usual: (question: Question, ht: number) => number;
}

const spaceCurrent = ({ valve }: Question): number => valve.anodeCurrent + (valve.screenCurrent ?? 0);

const PARTS: readonly Part[] = [
	{ key: 'anodeFeed', id: 'anode-load', usual: () => 220e3 },
	{ key: 'anodeFeed', id: 'primary', usual: ({ stage }) => (stage === 'output-pentode' ? 400 : 30) },
	{
		key: 'screenFeed',
		id: 'screen-feed',
		usual: (question, ht) => {
			const { screenVolts = ht, screenCurrent } = question.valve;
			const drop = ht - screenVolts;
			// An output valve has its screen on HT, unless the screen reads lower.
			if (question.stage === 'output-pentode')
				return (question.readings.screen ?? ht) < 0.98 * ht ? USUAL_SCREEN_STOPPER : 0;
			if (drop < 0.1 * ht || !screenCurrent) return 0;
			return drop / screenCurrent;
		}
	},
	{
		key: 'cathodeResistor',
		id: 'cathode-resistor',
		usual: (question) => Math.abs(question.valve.gridVolts) / spaceCurrent(question)
	},
	{ key: 'gridLeak', id: 'grid-leak', usual: ({ stage }) => (stage === 'output-pentode' ? 470e3 : 1e6) },
	{ key: 'gridLeak', id: 'avc-line', usual: () => 1.5e6 },
	{ key: 'oscillatorFeed', id: 'oscillator-feed', usual: () => 33e3 },
	{
		key: 'oscillatorLeak',
		id: 'oscillator-grid-leak',
		usual: (question) => ('oscillator' in question ? question.oscillator.gridLeak : 47e3)
	}
];

const PARTS_OF: Readonly<Record<Question['stage'], readonly PartId[]>> = {
	'triode-audio': ['anode-load', 'cathode-resistor', 'grid-leak'],
	'output-pentode': ['primary', 'screen-feed', 'cathode-resistor', 'grid-leak'],
	'if-pentode': ['primary', 'screen-feed', 'cathode-resistor', 'avc-line'],
	'triode-heptode': [
		'primary',
		'screen-feed',
		'cathode-resistor',
		'avc-line',
		'oscillator-feed',
		'oscillator-grid-leak'
	]
};

/** Marked values of the parts with their spread; a usual value where one is not known. */
function partsOf(question: Question, ht: number) {
	const values: Partial<Record<keyof Circuit, number>> = {};
	const spreads: Spread<Circuit>[] = [];
	const figureOf: Partial<Record<PartId, keyof Circuit>> = {};
	for (const { key, id, usual } of PARTS.filter((part) => PARTS_OF[question.stage].includes(part.id))) {
		const given = question.parts?.[id];
		const value = given === undefined ? usual(question, ht) : markedOf(given);
		values[key] = Math.max(value, WIRE);
		figureOf[id] = key;
		const sigma = given === undefined ? UNKNOWN : UNIFORM * Math.log1p(toleranceOf(given) / 100);
		if (value > WIRE) spreads.push({ key, sigma });
	}
	return { values, spreads, figureOf };
}

/** Everything about the valve and its surroundings that no part list gives. */
function valveSpreads(question: Question): Spread<Circuit>[] {
	const shared =
		question.stage === 'triode-heptode' ? question.sharedScreenCurrent : question.sharedCathodeCurrent;
	const sharedKey = question.stage === 'triode-heptode' ? 'sharedScreen' : 'sharedCathode';
	return [
		// The HT was read, and counts among the readings; or it was not, and is only guessed.
		{ key: 'ht', sigma: question.readings.ht === undefined ? 0.15 : 0.1 },
		{ key: 'meterScale', sigma: (UNIFORM * (question.meter?.accuracy ?? USUAL_ACCURACY)) / 100 },
		{ key: 'emission', sigma: VALVE.emission },
		{ key: 'mu', sigma: VALVE.mu },
		{ key: 'contact', sigma: CONTACT, additive: true },
		...(question.stage === 'triode-audio' ? [] : [{ key: 'screenRatio' as const, sigma: VALVE.screenRatio }]),
		{ key: 'gridStart', sigma: 0.2, additive: true },
		{ key: 'gridFeed', sigma: 1 },
		{ key: 'before', sigma: question.readings.before === undefined ? 0.3 : 0.01 },
		{ key: 'beforeOhms', sigma: 0.4 },
		...(isControlled(question) ? [{ key: 'gridReturn' as const, sigma: 0.5, additive: true as const }] : []),
		...(shared ? [{ key: sharedKey, sigma: 0.15 } as const] : []),
		...(question.stage === 'triode-heptode'
			? ([
					{ key: 'swing', sigma: 0.12 },
					{ key: 'oscillatorEmission', sigma: 0.15 },
					{ key: 'stoppedShare', sigma: 0.15 }
				] as const)
			: [])
	];
}

/** From grid to anode, of oscillator triodes; from memory. */
const OSCILLATOR_MU = 20;

const tailOf = ({ stage }: Question): number =>
	stage === 'triode-audio' ? 0 : stage === 'output-pentode' ? TAIL.output : TAIL.controlled;

const layoutOf = (question: Question): Layout => ({
	law: lawOf(question.valve, tailOf(question)),
	pentode: question.stage !== 'triode-audio',
	screenVolts: question.valve.screenVolts ?? 0,
	...(question.stage === 'triode-heptode' && {
		oscillator: oscillatorLaw(question.oscillator, OSCILLATOR_MU)
	})
});

/** HT where it was not read: what the published point needs. */
const guessedHt = ({ readings, valve }: Question): number =>
	readings.ht ?? Math.max(readings.anode ?? 0, readings.screen ?? 0, valve.anodeVolts);

export function prepareAmplifier(question: Question): Prepared<Circuit> {
	const ht = Math.max(guessedHt(question), 1);
	const { values, spreads, figureOf } = partsOf(question, ht);
	const mixer = question.stage === 'triode-heptode';
	const sound: Circuit = {
		ht,
		anodeFeed: WIRE,
		screenFeed: WIRE,
		cathodeResistor: WIRE,
		gridLeak: 1e6,
		gridJoint: 0,
		gridReturn: isControlled(question) ? -0.4 : 0,
		gridFeed: 1e-8,
		anodeLeak: 0,
		screenLeak: 0,
		cathodeLeak: 0,
		oscillatorLeakage: 0,
		couplingLeak: 0,
		before: question.readings.before ?? USUAL_BEFORE * ht,
		beforeOhms: BEFORE_OHMS,
		emission: 1,
		mu: 1,
		contact: 0,
		screenRatio: 1,
		gridStart: -0.9,
		sharedCathode: mixer ? 0 : (question.sharedCathodeCurrent ?? 0),
		sharedScreen: mixer ? (question.sharedScreenCurrent ?? 0) : 0,
		oscillatorFeed: 33e3,
		oscillatorLeak: 47e3,
		swing: mixer ? 1 : 0,
		oscillatorEmission: 1,
		stoppedShare: 1.8,
		meterScale: 1,
		...values
	};
	const solver = new Solver(layoutOf(question), sound);
	return {
		sound,
		spreads: [...spreads, ...valveSpreads(question)],
		figureOf,
		faults: amplifierFaults(question.stage, sound),
		foretell: (circuit, probes) => solver.shown(circuit, probes),
		nudged: (circuit) => solver.nudged(circuit)
	};
}
