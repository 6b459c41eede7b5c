import type { Power } from '$lib/flow/machine-types.ts';
import type { StepPower } from '$lib/flow/terms.ts';
import { readValue } from '$lib/ui/value.ts';
import type { CautionText, Refuse } from './types.ts';

/** What a gate asks for, one thing at a time. `open` asks for nothing; `no-meter` is where it ends. */
export type GateStage = 'switch-off' | 'no-meter' | 'prove-dead' | 'connect' | 'limiter' | 'live' | 'open';

export interface GateSituation {
	power: Power;
	/** The state that the wanted step is done in. */
	to: StepPower;
	/** Something is to be connected on the dead set first, and it is not connected yet. */
	toConnect: boolean;
	limiterPassed: boolean;
	hasMeter: boolean;
	/** Nothing of the chassis is touched: switched off is enough. */
	handsOff: boolean;
}

const isOn = (power: Power) => power === 'limiter' || power === 'live';

function towardsDead({ power, hasMeter, handsOff }: GateSituation): GateStage {
	if (!hasMeter && !handsOff) return 'no-meter';
	if (isOn(power)) return 'switch-off';
	return handsOff ? 'open' : 'prove-dead';
}

/** What is asked for now. The way to full mains leads over the limiter; the limiter goes in with the plug out. */
export function gateStage(situation: GateSituation): GateStage {
	const { power, to, toConnect, limiterPassed } = situation;
	if (toConnect) return power === 'unplugged' ? 'connect' : towardsDead({ ...situation, handsOff: false });
	if (to === 'unplugged') return power === 'unplugged' ? 'open' : towardsDead(situation);
	if (power === to && (to === 'limiter' || limiterPassed)) return 'open';
	if (to === 'live' && (limiterPassed || power === 'limiter')) return 'live';
	return isOn(power) ? 'switch-off' : 'limiter';
}

const DONE: Record<Exclude<GateStage, 'open' | 'no-meter'>, Partial<GateSituation>> = {
	'switch-off': { power: 'off' },
	'prove-dead': { power: 'unplugged' },
	connect: { toConnect: false },
	limiter: { power: 'limiter' },
	live: { power: 'live', limiterPassed: true }
};

/** All that a gate will ask for, in order, from here to the open step. */
export function gateStages(situation: GateSituation): GateStage[] {
	const stage = gateStage(situation);
	if (stage === 'open') return [];
	if (stage === 'no-meter') return [stage];
	return [stage, ...gateStages({ ...situation, ...DONE[stage] })];
}

/** The power state that a stage ends in, for the caution that belongs to it. */
const ENDS_IN: Partial<Record<GateStage, StepPower>> = {
	'switch-off': 'unplugged',
	'prove-dead': 'unplugged',
	limiter: 'limiter',
	live: 'live'
};

/** The cautions that belong to a stage: those of its power state, and those that name none; each once. */
export function cautionsAt(stage: GateStage, cautions: readonly CautionText[]): CautionText[] {
	const state = ENDS_IN[stage];
	if (!state) return [];
	const belongs = cautions.filter(({ covers }) => !covers?.length || covers.includes(state));
	return [...new Map(belongs.map((caution) => [caution.title, caution])).values()];
}

export type DeadProof =
	| { ok: true; volts: [number, number] }
	/** What is wrong with each of the two, where something is. */
	| { ok: false; errors: [string | undefined, string | undefined] };

const voltsIn = (text: string): number | undefined => {
	const reading = readValue(text, 'V');
	return reading.state === 'read' ? reading.values[0] : undefined;
};

/** What is wrong with a field as text. The field itself tells what it cannot read. */
function textError(text: string): string | undefined {
	const reading = readValue(text, 'V');
	if (reading.state === 'empty') return 'Measure here and type what the meter shows, 0 V too.';
	return reading.state === 'refused' ? reading.hint : undefined;
}

/** Two typed readings, at the reservoir and after the smoothing, as the proof of a dead set. */
export function proveDead(texts: readonly [string, string], refuse: Refuse): DeadProof {
	const [reservoir, smoothed] = [voltsIn(texts[0]), voltsIn(texts[1])];
	if (reservoir === undefined || smoothed === undefined)
		return { ok: false, errors: [textError(texts[0]), textError(texts[1])] };
	const refused = refuse('unplugged', [reservoir, smoothed]);
	if (refused === undefined) return { ok: true, volts: [reservoir, smoothed] };
	// Which of the two is refused even beside a dead one.
	const alone = [refuse('unplugged', [reservoir, 0]), refuse('unplugged', [0, smoothed])] as const;
	return { ok: false, errors: alone.some(Boolean) ? [...alone] : [refused, undefined] };
}
