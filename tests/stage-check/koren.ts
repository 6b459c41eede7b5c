import type { OscillatorPoint, WorkingPoint } from '../../src/lib/receiver/stage-check/index.ts';

/**
 * Valves for the simulator by another law than the check's own: that of Koren (exponential transition from the cut-off, a power
 * other than three halves, an arc tangent for the knee; form from memory), with constants that meet the published point.
 */
export interface Koren {
	mu: number;
	/** Power of the law. */
	power: number;
	/** How sharp the cut-off is. */
	kp: number;
	/** Volts of the knee. */
	knee: number;
	/** Divisors of anode (or space) current. */
	kg1: number;
	/** Screen current over anode current with ample anode volts; 0 for a triode. */
	screenRatio: number;
	/** Part of the current which an anode without volts refuses and the screen takes up instead. */
	returned: number;
	/** Grid volts at which 0.3 uA of grid current flows. */
	gridStart: number;
}

const TRIODE_KNEE = 300;

/** Koren's E1 for grid and pulling volts. */
function drive({ mu, kp }: Koren, grid: number, pull: number, triode: boolean): number {
	const scale = triode ? Math.sqrt(TRIODE_KNEE + pull * pull) : pull;
	return (pull / kp) * Math.log1p(Math.exp(Math.min(60, kp * (1 / mu + grid / scale))));
}

/** Anode current, A. */
export function anodeCurrent(
	valve: Koren,
	grid: number,
	pull: number,
	anode: number,
	triode: boolean
): number {
	const main = drive(valve, grid, pull, triode) ** valve.power / valve.kg1;
	return triode ? main : main * (2 / Math.PI) * Math.atan(anode / valve.knee);
}

/** The value between `low` and `high` (in equal ratios) at which a rising or falling figure meets what is wanted, as nearly as it can. */
function meet(low: number, high: number, wanted: number, figure: (x: number) => number): number {
	const rising = figure(high) > figure(low);
	let [from, to] = [low, high];
	for (let i = 0; i < 60; i++) {
		const middle = Math.sqrt(from * to);
		if (figure(middle) < wanted === rising) from = middle;
		else to = middle;
	}
	return Math.sqrt(from * to);
}

/** Meets current and slope of the point, the slope by the figure named `by`. */
function fitted(start: Koren, point: WorkingPoint, by: 'mu' | 'kp', range: readonly [number, number]): Koren {
	const triode = point.screenVolts === undefined;
	const pull = point.screenVolts ?? point.anodeVolts;
	const current = (valve: Koren, grid: number) => anodeCurrent(valve, grid, pull, point.anodeVolts, triode);
	const steepness = (x: number): number => {
		const valve = { ...start, [by]: x };
		const now = current(valve, point.gridVolts);
		return (current(valve, point.gridVolts + 0.02) - current(valve, point.gridVolts - 0.02)) / 0.04 / now;
	};
	const shaped =
		point.slope === undefined
			? start
			: { ...start, [by]: meet(range[0], range[1], point.slope / point.anodeCurrent, steepness) };
	return { ...shaped, kg1: current({ ...shaped, kg1: 1 }, point.gridVolts) / point.anodeCurrent };
}

interface Shape {
	power: number;
	kp: number;
	knee: number;
	returned: number;
	gridStart: number;
}

export function korenTriode(point: WorkingPoint, shape: Shape): Koren {
	const start = { ...shape, mu: point.mu ?? 70, kg1: 1, screenRatio: 0 };
	return fitted(start, point, 'kp', [15, 3000]);
}

export function korenPentode(point: WorkingPoint, shape: Shape & { mu: number }): Koren {
	const screenRatio = (point.screenCurrent ?? 0) / point.anodeCurrent;
	return fitted({ ...shape, kg1: 1, screenRatio }, point, 'mu', [4, 80]);
}

/** A triode whose current over a cycle of the swing has the mean of the sheet. */
export function korenOscillator(
	point: OscillatorPoint,
	shape: Shape & { mu: number },
	amplitude: number
): Koren {
	const start = { ...shape, kg1: 1, screenRatio: 0 };
	const bias = point.gridCurrent * point.gridLeak;
	const sum = PHASES.reduce(
		(all, phase) =>
			all + anodeCurrent(start, -bias + amplitude * phase, point.anodeVolts, point.anodeVolts, true),
		0
	);
	return { ...start, kg1: sum / PHASES.length / point.anodeCurrent };
}

/** Sines of a whole cycle. */
export const PHASES = Array.from({ length: 12 }, (_, i) => Math.sin((2 * Math.PI * (i + 0.5)) / 12));

interface Pins {
	anode: string;
	grid: string;
	cathode: string;
	screen?: string;
}

const E1 = ({ mu, kp }: Koren, grid: string, pull: string, scale: string): string =>
	`(${pull}/${kp})*ln(1+exp(min(60,${kp}*(${1 / mu}+(${grid})/${scale}))))`;

/** A diode with 1 nA and 4.5 times 26 mV behind a battery, so that 0.3 uA flows at the start volts; and the bulk of the grid wire. */
const gridDiode = (name: string, grid: string, cathode: string, start: number): string[] => [
	`Vg${name} ${grid} gs${name} ${start - 0.667}`,
	`Rg${name} gs${name} gd${name} 1.5k`,
	`Dg${name} gd${name} ${cathode} griddiode`
];
export const GRID_DIODE = '.model griddiode D(IS=1e-9 N=4.5)';

/** Lines of a triode or pentode; `name` is different for each valve of a netlist. */
export function netlistOf(valve: Koren, name: string, { anode, grid, cathode, screen }: Pins): string[] {
	const vgk = `v(${grid})-v(${cathode})`;
	const vak = `max(v(${anode})-v(${cathode}),0)`;
	if (screen === undefined) {
		return [
			`Be${name} e${name} 0 V=${E1(valve, vgk, vak, `sqrt(${TRIODE_KNEE}+(${vak})**2)`)}`,
			`Ba${name} ${anode} ${cathode} I=(uramp(v(e${name})))**${valve.power}/${valve.kg1}`,
			...gridDiode(name, grid, cathode, valve.gridStart)
		];
	}
	const vsk = `max(v(${screen})-v(${cathode}),0.01)`;
	const knee = `${2 / Math.PI}*atan((${vak})/${valve.knee})`;
	const full = `(uramp(v(e${name})))**${valve.power}/${valve.kg1}`;
	return [
		`Be${name} e${name} 0 V=${E1(valve, vgk, `(${vsk})`, `(${vsk})`)}`,
		`Ba${name} ${anode} ${cathode} I=${full}*${knee}`,
		`Bs${name} ${screen} ${cathode} I=${full}*(${valve.screenRatio}+${valve.returned}*(1-${knee}))`,
		...gridDiode(name, grid, cathode, valve.gridStart)
	];
}

/** Mean anode and grid current of a triode whose grid swings about its DC volts, in proportion to the anode volts. */
export function oscillatorNetlist(
	valve: Koren,
	name: string,
	{ anode, grid, cathode }: Pins,
	swing: { amplitude: number; anodeVolts: number }
): string[] {
	const vak = `max(v(${anode})-v(${cathode}),0)`;
	const height = swing.amplitude / swing.anodeVolts;
	const lines = PHASES.map(
		(phase, i) =>
			`Be${name}p${i} e${name}p${i} 0 V=${E1(valve, `v(${grid})-v(${cathode})+${height * phase}*(${vak})`, vak, `sqrt(${TRIODE_KNEE}+(${vak})**2)`)}`
	);
	const mean = PHASES.map((_, i) => `(uramp(v(e${name}p${i})))**${valve.power}`).join('+');
	// The grid draws on the crests: the sum of what each phase lets through a grid of 1.2 kohm.
	const crest = PHASES.map(
		(phase) => `uramp(v(${grid})-v(${cathode})+0.5+${height * phase}*(${vak}))/${1.2e3 * PHASES.length}`
	).join('+');
	return [
		...lines,
		`Ba${name} ${anode} ${cathode} I=(${mean})/${valve.kg1 * PHASES.length}`,
		`Bg${name} ${grid} ${cathode} I=${crest}`
	];
}
