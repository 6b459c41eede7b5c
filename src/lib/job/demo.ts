import { calculationOf, runCalculation } from '../calculations/index.ts';
import type { Power } from '../flow/machine-types.ts';
import type { EventData, EventKind, Intake, Json, Reading } from './events.ts';

/**
 * A job on a set that was never built, to be looked at and played with. Every value in it is invented. It was stored
 * for years and is faint on AM. The settings, the aerial, every loose contact and the oscillator are heard or measured
 * sound, and the detector gets its signal. That leaves a dirty contact of the switch and a leaky AVC capacitor: the job
 * is left where one measurement parts the two. Each step is taken by its name, whatever the program would ask first.
 */

/** What a person entered, in the order of entering. */
export type Entry = { [Kind in EventKind]: readonly [kind: Kind, data: EventData[Kind]] }[EventKind];

const FLOW = 'weak-on-am-fine-on-fm';

const intake: Intake = {
	title: 'Demo: invented set, AM and FM',
	plan: 'am-fm-shared',
	symptom: { am: 'weak', fm: 'good' },
	history: ['stored-long'],
	mains: 231,
	meter: 10e6,
	instruments: ['meter', 'meter-10M', 'lamp-limiter', 'second-set'],
	playing: false
};

const power = (to: Power, volts?: [number, number]): Entry => ['power', volts ? { to, volts } : { to }];

const answer = (step: string, outcome: string, reading?: Reading): Entry[] => [
	['took', { flow: FLOW, step }],
	['answered', { flow: FLOW, step, outcome, sure: true, ...(reading ? { reading } : {}) }]
];

const volts = (typed: string, value: number, point: string): Reading => ({
	typed,
	value,
	unit: 'V',
	point,
	power: 'live',
	instrument: 'meter-10M'
});

/** The sum behind the second receiver: where the oscillator of a set tuned to 1,000 kHz is heard. */
function sum(): Entry {
	const done = runCalculation('dial-frequencies', { f_signal_kHz: 1000, IF_kHz: 470, side: 'above' });
	if (!done.ok) throw new Error(done.problems[0]?.message);
	const { id, sentence, verdict } = done;
	return [
		'calculated',
		{
			calculation: id,
			title: calculationOf(id)?.title ?? id,
			// Numbers and words, as every sum gives them.
			given: done.given as Record<string, Json>,
			outputs: done.outputs as Record<string, Json>,
			sentence,
			step: 'v-lo',
			...(verdict === undefined ? {} : { verdict })
		}
	];
}

export interface Demo {
	intake: Intake;
	flow: string;
	/** What follows once the set is taken in and the flow is open. */
	entries: Entry[];
}

export const demo = (): Demo => ({
	intake,
	flow: FLOW,
	entries: [
		power('unplugged', [3.4, 1.1]),
		...answer('settings', 'right'),
		power('limiter'),
		power('live'),
		...answer('bands', 'alike'),
		...answer('aer-sub', 'same'),
		...answer('tap', 'nothing'),
		...answer('v-lo', 'runs', volts('-8.6', -8.6, 'oscillator.grid')),
		sum(),
		...answer('v-det', 'healthy', volts('-4.2 V', -4.2, 'am-detector.load')),
		['noted', { step: 'v-det', text: 'Loud for a second after switching on, then faint.' }],
		power('off')
	]
});
