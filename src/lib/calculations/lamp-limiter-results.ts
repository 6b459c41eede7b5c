import type { Given, Inputs, Problem } from './define.ts';
import { choice, column, number, optional, rows } from './inputs.ts';
import {
	COLD_SHARES,
	CURRENT_EXPONENT,
	type Lamp,
	lampCurrent,
	lampLight,
	lampLooks,
	lampVolts,
	lampVoltsAgainst,
	LIGHT_EXPONENT
} from './lamp.ts';
import { numbersBetween, type Picture } from './picture.ts';

const GLOWS = [
	'flash, then dim',
	'steady dull red',
	'stays dark',
	'slowly brightens after half a minute',
	'bright and stays bright'
] as const;

/** What may be known of lamp and set. */
export const inputs = {
	lamp: optional(number('W_lamp', 'watts of the lamp', 5, 500)),
	ratedVolts: optional(number('V_rated', 'volts of the lamp, if not those of the mains', 1, 260)),
	ratedCurrent: optional(number('I_rated_A', 'current of the lamp by its data', 0.01, 5)),
	mains: optional(number('V_mains', 'volts at the wall', 100, 260)),
	setPower: optional({
		...number('W_set_normal', 'watts of the set, from its back plate', 3, 500),
		alsoKeys: ['W_set']
	}),
	resistance: optional(number('R_set_ohm', 'the set as a resistance', 0, 1e6)),
	setVolts: optional(number('V_set', 'volts measured at the set', 0, 260)),
	lampRead: optional(number('V_lamp', 'volts measured on the lamp', 0, 260)),
	currentRead: optional(number('I_A', 'current measured', 0, 5)),
	series: optional(
		rows('series_min_V', 'volts at the set in the first minutes', {
			time: column('t_min', 'time', 0, 7200),
			volts: column('V_set', 'volts at the set', 0, 260)
		})
	),
	glow: optional(choice('glow', 'how the lamp behaves in the first minutes', GLOWS)),
	lowPower: optional(number('W_low', 'watts of a lamp, dimmed', 0.1, 500)),
	lowLight: optional(number('light_low_cp', 'its light then', 0.01, 1e4)),
	highPower: optional(number('W_high', 'watts of a lamp, brighter', 0.1, 500)),
	highLight: optional(number('light_high_cp', 'its light then', 0.01, 1e4))
} satisfies Inputs;

type LampGiven = Given<typeof inputs>;

/** The lamp by what is known of it; undefined where that does not reach. */
function lampOf({ lamp, ratedVolts, ratedCurrent, mains }: LampGiven): Lamp | undefined {
	const volts = ratedVolts ?? mains;
	if (volts === undefined) return undefined;
	const current = ratedCurrent ?? (lamp === undefined ? undefined : lamp / volts);
	return current === undefined ? undefined : { volts, current };
}

const lastVolts = ({ series }: LampGiven): number | undefined => series?.at(-1)?.volts;

/** Volts at the set as measured, or reckoned from another measurement. */
function setVoltsSeen(given: LampGiven, lamp: Lamp): number | undefined {
	const { mains, setVolts, lampRead, currentRead } = given;
	if (mains === undefined) return undefined;
	if (lampRead !== undefined) return mains - lampRead;
	if (currentRead !== undefined) return mains - lampVolts(lamp, currentRead);
	return setVolts ?? lastVolts(given);
}

interface Seen {
	/** Volts at the set as a share of the mains, and those that its plate promises. */
	ofMains: number;
	promised: number | undefined;
	/** Volts on the lamp as a share of its rating. */
	lampShare: number;
	/** Watts at full mains as a share of the plate. */
	ofPlate: number | undefined;
}

/** What the volts at the set say, in a word; undefined where nothing can be said without the watts of the plate. */
function findingOf({ ofMains, promised, lampShare, ofPlate }: Seen): string | undefined {
	if (ofMains < 0.15) return 'short';
	// A lamp far too large for the set leaves it nearly the whole mains anyway.
	if (ofMains > 0.97 && (promised ?? 0) < 0.95) return 'open';
	if (lampShare < 0.2) return 'lamp hardly lit';
	if (ofPlate === undefined) return undefined;
	if (ofPlate < 0.6) return 'light load';
	if (ofPlate <= 1.3) return 'normal load';
	return ofPlate <= 2 ? 'heavy load' : 'overload';
}

/** Whether the volts, once up, sank again. */
function courseOf({ series, mains }: LampGiven): string | undefined {
	if (series === undefined || series.length < 2 || mains === undefined) return undefined;
	const peak = Math.max(...series.map(({ volts }) => volts));
	return peak - (series.at(-1)?.volts ?? peak) > mains / 4 ? 'sinks' : 'settles';
}

/** What flows through the lamp while it is as good as cold, at most. */
const coldCurrent = (lamp: Lamp, onLamp: number): number =>
	(onLamp * lamp.current) / lamp.volts / COLD_SHARES.least;

function backward(given: LampGiven, lamp: Lamp, mains: number, setVolts: number) {
	const onLamp = mains - setVolts;
	const current = given.currentRead ?? lampCurrent(lamp, onLamp);
	const lampShare = onLamp / lamp.volts;
	// Below a fifth of its volts a lamp no longer keeps to the law.
	const dark = lampShare < 0.2 && given.currentRead === undefined;
	const resistance = current > 0 ? setVolts / current : undefined;
	const atFull = dark || !resistance ? undefined : mains ** 2 / resistance;
	const ofPlate = atFull !== undefined && given.setPower ? atFull / given.setPower : undefined;
	const promised = given.setPower && 1 - lampVoltsAgainst(lamp, mains, mains ** 2 / given.setPower) / mains;
	return {
		lampVolts: onLamp,
		setVolts,
		current: dark ? undefined : current,
		currentFrom: dark ? current : undefined,
		currentTo: dark ? coldCurrent(lamp, onLamp) : undefined,
		powerNow: dark ? undefined : setVolts * current,
		resistance: dark ? undefined : resistance,
		atFull,
		ofPlate: ofPlate && 100 * ofPlate,
		light: 100 * lampLight(lamp, onLamp),
		looks: lampLooks(lampShare),
		finding: findingOf({ ofMains: setVolts / mains, promised, lampShare, ofPlate }),
		course: courseOf(given)
	};
}

function forward(lamp: Lamp, mains: number, resistance: number) {
	const onLamp = lampVoltsAgainst(lamp, mains, resistance);
	const current = lampCurrent(lamp, onLamp);
	return {
		lampVolts: onLamp,
		setVolts: mains - onLamp,
		current,
		power: (mains - onLamp) * current,
		light: 100 * lampLight(lamp, onLamp),
		looks: lampLooks(onLamp / lamp.volts)
	};
}

/** Current and light at volts read on the lamp; near to dark, where the law ends, a span. */
function byTheLaw(lamp: Lamp, onLamp: number) {
	const current = lampCurrent(lamp, onLamp);
	const light = 100 * lampLight(lamp, onLamp);
	return onLamp / lamp.volts < 0.2
		? { currentFrom: current, currentTo: coldCurrent(lamp, onLamp), light }
		: { current, light };
}

/** Exponent of the light over the watts between two readings of one lamp. */
function lightExponent({ lowPower, lowLight, highPower, highLight }: LampGiven): number | undefined {
	if (!lowPower || !lowLight || !highPower || !highLight) return undefined;
	return Math.log(highLight / lowLight) / Math.log(highPower / lowPower);
}

function picture(given: LampGiven, lamp: Lamp, mains: number, at: { x: number; y: number }): Picture {
	const volts = numbersBetween(0, mains, 80);
	const line = (resistance: number) =>
		[0, Math.min(mains, lamp.current * 1.15 * resistance)].map((v) => [v, v / resistance] as const);
	const plate = given.setPower && mains ** 2 / given.setPower;
	const seen = at.y > 0 && at.x > 0 ? at.x / at.y : undefined;
	const same = plate !== undefined && seen !== undefined && Math.abs(plate / seen - 1) < 0.01;
	return {
		title: 'What the lamp lets through against what the set takes',
		x: { label: 'Volts at the set', unit: 'V', scale: 'linear' },
		y: { label: 'Current', unit: 'mA', scale: 'linear' },
		curves: [
			{ label: 'lamp', style: 'solid', points: volts.map((v) => [v, lampCurrent(lamp, mains - v)] as const) },
			...(plate ? [{ label: 'set by its plate', style: 'dotted', points: line(plate) } as const] : []),
			...(seen && !same ? [{ label: 'set as measured', style: 'dashed', points: line(seen) } as const] : [])
		],
		marks: [{ label: 'here', ...at }],
		bands: [
			{ axis: 'x', from: 0, to: 0.15 * mains, label: 'short' },
			{ axis: 'x', from: 0.97 * mains, to: mains, label: 'open' }
		]
	};
}

/** The law of the lamp is held to end here, times its rated volts; a little room for the reading. */
const BURNS_OUT = 1.22;

/** What stands on the lamp, as measured or as it should come out. */
function voltsOnLamp(given: LampGiven, lamp: Lamp, mains: number): number | undefined {
	const seen = setVoltsSeen(given, lamp);
	if (seen !== undefined) return mains - seen;
	const load = given.resistance ?? (given.setPower && mains ** 2 / given.setPower);
	return load === undefined ? undefined : lampVoltsAgainst(lamp, mains, load);
}

/** Figures that cannot all be true, with the cure. */
export function lampContradiction(given: LampGiven): Problem | undefined {
	const { mains, setVolts, lampRead, currentRead, series } = given;
	const lamp = lampOf(given);
	const times = series?.map(({ time }) => time) ?? [];
	if (times.some((time, i) => i > 0 && time <= (times[i - 1] ?? 0)))
		return {
			key: 'series_min_V',
			message: 'series_min_V: each time must be later than the one before it.'
		};
	if (given.lowPower && given.highPower && given.highPower <= given.lowPower)
		return { key: 'W_high', message: 'W_high is not above W_low. Give the dimmer reading as W_low.' };
	if (given.lowLight && given.highLight && given.highLight <= given.lowLight)
		return {
			key: 'light_high_cp',
			message: 'light_high_cp is not above light_low_cp, though the lamp takes more watts. Read both again.'
		};
	if (lamp && mains === undefined && lampRead !== undefined && lampRead > BURNS_OUT * lamp.volts)
		return {
			key: 'V_lamp',
			message:
				'V_lamp is far above V_rated: the law of the lamp ends at 1.2 times, and a lamp soon after. Check both.'
		};
	if (mains === undefined) return undefined;
	const highest = Math.max(setVolts ?? 0, ...(series?.map(({ volts }) => volts) ?? []));
	if (highest > mains)
		return {
			key: setVolts === undefined ? 'series_min_V' : 'V_set',
			message: 'V_set is above V_mains. Measure both again, one after the other.'
		};
	if (lampRead !== undefined && lampRead > mains)
		return { key: 'V_lamp', message: 'V_lamp is above V_mains. Measure both again, one after the other.' };
	if (lamp && currentRead !== undefined && lampVolts(lamp, currentRead) > mains)
		return { key: 'I_A', message: 'I_A is more than this lamp passes on V_mains. Check I_A and W_lamp.' };
	const onLamp = lamp && voltsOnLamp(given, lamp, mains);
	if (!lamp || onLamp === undefined || onLamp <= BURNS_OUT * lamp.volts) return undefined;
	return {
		key: 'V_rated',
		message: `The lamp would get ${Math.round(onLamp)} V, far above V_rated, and burn out. Take a lamp for the volts of the mains, or two in series.`
	};
}

/** All that follows from what was given; base units. */
export function lampResults(given: LampGiven) {
	const { mains, setPower, glow, ratedCurrent, lampRead } = given;
	const lamp = lampOf(given);
	const exponent = lightExponent(given);
	const byLaw = exponent === undefined ? undefined : LIGHT_EXPONENT / (1 + CURRENT_EXPONENT);
	const rest = { glow, exponent, lawExponent: byLaw };
	if (lamp === undefined) return rest;
	if (mains === undefined && lampRead !== undefined && ratedCurrent !== undefined)
		return { ...rest, ...byTheLaw(lamp, lampRead) };
	const hot = lamp.volts / lamp.current;
	const bulb = {
		hot,
		cold: hot * COLD_SHARES.least,
		coldMost: hot * COLD_SHARES.most,
		inrush: (mains ?? lamp.volts) / (hot * COLD_SHARES.least)
	};
	if (mains === undefined) return { ...rest, ...bulb };
	const seen = setVoltsSeen(given, lamp);
	if (seen !== undefined) return { ...rest, ...bulb, ...backward(given, lamp, mains, seen) };
	const load = given.resistance ?? (setPower && mains ** 2 / setPower);
	return load === undefined ? { ...rest, ...bulb } : { ...rest, ...bulb, ...forward(lamp, mains, load) };
}

/** The lamp against the set, with the point where both agree. */
export function lampPictures(
	given: LampGiven,
	{ setVolts, current, currentFrom }: Record<string, unknown>
): Picture[] {
	const lamp = lampOf(given);
	const y = current ?? currentFrom;
	if (!lamp || given.mains === undefined || typeof setVolts !== 'number' || typeof y !== 'number') return [];
	return [picture(given, lamp, given.mains, { x: setVolts, y })];
}
