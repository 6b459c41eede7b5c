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
/** Volts over which the current of a triode bends to nought. */
const BEND = 0.12;
/**
 * The same for pentodes, as a share of the screen volts. Their tails are long, those of a grid of uneven pitch longer still; from
 * memory of characteristic curves.
 */
export const TAIL = { output: 1 / 150, controlled: 1 / 60 } as const;
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
	/** Volts over which the current bends to nought; `tail`: as a share of the pulling volts, where that is more. */
	bend: number;
	tail: number;
	/** Part of the space current that reaches the anode at the published point; 1 in a triode. */
	anodeShare: number;
}

const isPentode = ({ screenVolts }: WorkingPoint): boolean => screenVolts !== undefined;

/** Where the sheet gives no screen current, a usual share. */
function screenCurrentOf(point: WorkingPoint): number {
	if (!isPentode(point)) return 0;
	return point.screenCurrent ?? (point.anodeCurrent * USUAL_SCREEN_SHARE) / (1 - USUAL_SCREEN_SHARE);
}

/** The law that meets a published point; `tail` for pentodes. */
export function lawOf(point: WorkingPoint, tail = 0): ValveLaw {
	const space = point.anodeCurrent + screenCurrentOf(point);
	const pull = point.screenVolts ?? point.anodeVolts;
	const law: ValveLaw = {
		perveance: 1,
		mu: point.mu ?? USUAL_MU,
		contact: CONTACT,
		bend: BEND,
		tail,
		anodeShare: point.anodeCurrent / space
	};
	const shaped = point.slope === undefined ? law : withSlope(law, point, pull);
	return { ...shaped, perveance: space / spaceCurrent(shaped, point.gridVolts, pull) };
}

/** Slope over current, 1/V, of a law at a point; the whole space current moves with the anode current of the sheet. */
function steepness(law: ValveLaw, grid: number, pull: number): number {
	const STEP = 0.01;
	const rise = spaceCurrent(law, grid + STEP, pull) - spaceCurrent(law, grid - STEP, pull);
	return rise / (2 * STEP * spaceCurrent(law, grid, pull));
}

/** The slope is met by the contact potential where mu is known, as of triodes, else by mu. */
function withSlope(
	law: ValveLaw,
	{ slope = 0, anodeCurrent, gridVolts, mu }: WorkingPoint,
	pull: number
): ValveLaw {
	// Volts that work on the cathode; more of them make the law less steep.
	let [low, high] = [0.1, 60];
	const at = (working: number): ValveLaw =>
		mu === undefined
			? { ...law, mu: pull / Math.max(working - gridVolts - law.contact, pull / 150) }
			: { ...law, contact: working - gridVolts - pull / mu };
	for (let round = 0; round < 40; round++) {
		const middle = Math.sqrt(low * high);
		if (steepness(at(middle), gridVolts, pull) > slope / anodeCurrent) low = middle;
		else high = middle;
	}
	return at(Math.sqrt(low * high));
}

/** Space current, A, for grid volts and the volts of the electrode that pulls, both against the cathode. */
export function spaceCurrent(law: ValveLaw, grid: number, pull: number): number {
	const bend = Math.max(law.bend, law.tail * pull);
	const x = (grid + pull / law.mu + law.contact) / bend;
	const drive = bend * (x > 30 ? x : Math.log1p(Math.exp(x)));
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
