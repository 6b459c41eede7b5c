import type { WorkingPoint } from './types.ts';

/**
 * Valve laws that go through the published point: space current by the power of three halves of the volts that work on the
 * cathode, shared between anode and screen.
 *
 *     I_k = strength * P * (V_g + V_s / mu + CONTACT)^1.5        A; V_s: screen, in a triode anode
 *
 * P and mu follow from current and slope of the point. Fair near it; far below it valves with a variable mu draw more.
 */

/** Contact potential and initial velocity of the electrons, V: with it the law meets current and slope of triode sheets. From memory. */
const CONTACT = 0.55;
/** Volts over which the current bends to nought. */
const BEND = 0.12;
/** Share of the screen where a sheet does not give its current (common practice). */
const USUAL_SCREEN_SHARE = 0.2;
/** mu from grid to screen or anode where the sheet gives neither slope nor mu. */
const USUAL_MU = 18;
/** Anode volts, as a share of the screen's, over which the anode takes up its share. */
const KNEE = 0.12;

export interface ValveLaw {
	/** A/V^1.5. */
	perveance: number;
	mu: number;
	contact: number;
	/** Part of the space current that reaches the anode at the published point; 1 in a triode. */
	anodeShare: number;
}

const isPentode = ({ screenVolts }: WorkingPoint): boolean => screenVolts !== undefined;

/** The law that meets a published point. */
export function lawOf(point: WorkingPoint): ValveLaw {
	const screenCurrent = isPentode(point)
		? (point.screenCurrent ?? (point.anodeCurrent * USUAL_SCREEN_SHARE) / (1 - USUAL_SCREEN_SHARE))
		: 0;
	const space = point.anodeCurrent + screenCurrent;
	const pull = point.screenVolts ?? point.anodeVolts;
	// The slope of the sheet is that of the anode current; the whole space current moves with it.
	const working = point.slope === undefined ? undefined : (1.5 * point.anodeCurrent) / point.slope;
	const mu =
		point.mu ??
		(working === undefined ? USUAL_MU : pull / Math.max(working - point.gridVolts - CONTACT, pull / 150));
	const contact = working === undefined ? CONTACT : working - point.gridVolts - pull / mu;
	const drive = Math.max(point.gridVolts + pull / mu + contact, 0.3);
	return {
		perveance: space / drive ** 1.5,
		mu,
		contact,
		anodeShare: point.anodeCurrent / space
	};
}

/** Space current, A, for grid volts and the volts of the electrode that pulls, both against the cathode. */
export function spaceCurrent(law: ValveLaw, grid: number, pull: number): number {
	const x = (grid + pull / law.mu + law.contact) / BEND;
	const drive = BEND * (x > 30 ? x : Math.log1p(Math.exp(x)));
	return law.perveance * drive * Math.sqrt(drive);
}

/** Part of the space current that the anode takes up, against its part with ample volts: 0 without volts, 1 well above the knee. */
export const anodeTakes = (anode: number, screen: number): number =>
	anode <= 0 ? 0 : 1 - Math.exp(-anode / (KNEE * Math.max(screen, 20)));

/** Grid current in A that flows at `start` volts, and over how many volts it grows e-fold. From memory of sheets. */
const GRID_START = 0.3e-6;
const GRID_FOLD = 0.14;

/** Current into a grid that is near its cathode, A; `start`: grid volts at which 0.3 uA flows, about -0.9. */
export function gridCurrent(grid: number, start: number): number {
	const x = (grid - start) / GRID_FOLD;
	const bent = x < 6 ? Math.exp(x) : Math.exp(6) * (x - 5);
	return GRID_START * bent;
}
