import { anodeTakes, gridCurrent, spaceCurrent, type ValveLaw } from './laws.ts';
import { Network } from './network.ts';
import type { OscillatorPoint, ReadingId } from './types.ts';

/** One amplifying stage as it may really be: a fault is nothing but other figures. Ohm, V, A. */
export interface Circuit {
	ht: number;
	/** Anode load, or winding with its feed resistor. */
	anodeFeed: number;
	/** From HT to the screen; 0 where the screen sits on HT. */
	screenFeed: number;
	cathodeResistor: number;
	/** From the grid to `gridReturn`, and what stands in series with it: nothing but a joint in a sound stage. */
	gridLeak: number;
	gridJoint: number;
	/** Volts at the far end of the grid leak: chassis, or the AVC line. */
	gridReturn: number;
	/** Steady current into the grid from the valve itself. */
	gridFeed: number;
	/** What leaks from a point to chassis, S; nothing does in a sound stage. */
	anodeLeak: number;
	screenLeak: number;
	cathodeLeak: number;
	oscillatorLeakage: number;
	/** From the far side of the coupling capacitor into the grid, S; the volts there, and the resistance behind them. */
	couplingLeak: number;
	before: number;
	beforeOhms: number;
	/** Of the valve against its sheet. */
	emission: number;
	/** Of the law against the sheet. */
	mu: number;
	/** Contact potential against the law's own, V. */
	contact: number;
	/** Screen current for each anode current, against the sheet. */
	screenRatio: number;
	/** Grid volts at which grid current begins. */
	gridStart: number;
	/** Through the same cathode resistor and the same screen feed, from other valves. */
	sharedCathode: number;
	sharedScreen: number;
	oscillatorFeed: number;
	oscillatorLeak: number;
	/** Amplitude against the sheet; 0 when it does not oscillate. */
	swing: number;
	oscillatorEmission: number;
	/** Share of the heptode's space current that reaches its anode while nothing swings its third grid, against the share while it does. */
	stoppedShare: number;
	/** What the meter shows for each volt. */
	meterScale: number;
}

/** Mean behaviour of an oscillator triode. */
export interface OscillatorLaw {
	perveance: number;
	mu: number;
	/** Peak grid volts, with the anode volts of the sheet. */
	amplitude: number;
	anodeVolts: number;
	/** The grid that rectifies the swing is a source of this resistance, ohm. */
	rectifying: number;
}

/** What a circuit consists of besides its figures. */
export interface Layout {
	law: ValveLaw;
	pentode: boolean;
	/** Of the sheet; 0 in a triode. */
	screenVolts: number;
	oscillator?: OscillatorLaw;
}

const [HT, ANODE, CATHODE, GRID, SCREEN, OSCILLATOR_ANODE, OSCILLATOR_GRID] = [-1, 0, 1, 2, 3, 4, 5];

/** How a reading is taken: from a node to chassis where nothing else is said. */
interface Place {
	node: number;
	/** Across this resistor, which comes from HT. */
	across?: 'anodeFeed' | 'screenFeed' | 'oscillatorFeed';
	/** Ohm to chassis, besides the meter. */
	shunt?: number;
	/** With the far end of the grid leak on chassis. */
	returned?: true;
	/** With the part lifted that leaks. */
	without?: 'anodeLeak' | 'screenLeak' | 'cathodeLeak' | 'oscillatorLeakage' | 'couplingLeak';
}

const PLACES: Readonly<Partial<Record<ReadingId, Place>>> = {
	ht: { node: HT },
	anode: { node: ANODE },
	cathode: { node: CATHODE },
	grid: { node: GRID },
	screen: { node: SCREEN },
	'oscillator-anode': { node: OSCILLATOR_ANODE },
	'oscillator-grid': { node: OSCILLATOR_GRID },
	'anode-drop': { node: ANODE, across: 'anodeFeed' },
	'screen-drop': { node: SCREEN, across: 'screenFeed' },
	'oscillator-drop': { node: OSCILLATOR_ANODE, across: 'oscillatorFeed' },
	'lifted-anode': { node: ANODE, without: 'anodeLeak' },
	'lifted-screen': { node: SCREEN, without: 'screenLeak' },
	'lifted-cathode': { node: CATHODE, without: 'cathodeLeak' },
	'lifted-grid': { node: GRID, without: 'couplingLeak' },
	'grid-no-avc': { node: GRID, returned: true },
	'grid-shunted': { node: GRID, without: 'couplingLeak', shunt: 100e3 },
	'lifted-oscillator-anode': { node: OSCILLATOR_ANODE, without: 'oscillatorLeakage' }
};

/** Resistance of a grid that rectifies the swing, as a share of the leak on the sheet. */
const RECTIFYING = 0.12;
const CONTACT = 0.55;
const PHASES = Array.from({ length: 8 }, (_, i) => Math.sin((Math.PI * (i + 0.5)) / 8 - Math.PI / 2));

const cut = (volts: number): number => (volts > 0 ? volts * Math.sqrt(volts) : 0);
/** Drive averaged over a cycle of the swing. */
function meanDrive(steady: number, amplitude: number): number {
	if (amplitude === 0) return cut(steady);
	let sum = 0;
	for (const phase of PHASES) sum += cut(steady + amplitude * phase);
	return sum / PHASES.length;
}

/** The law that meets mean anode current and grid volts of an oscillator on a sheet. */
export function oscillatorLaw(
	{ anodeVolts, anodeCurrent, gridCurrent: grid, gridLeak }: OscillatorPoint,
	mu: number
): OscillatorLaw {
	const bias = grid * gridLeak;
	const amplitude = bias * (1 + RECTIFYING);
	const drive = meanDrive(anodeVolts / mu - bias + CONTACT, amplitude);
	return {
		perveance: anodeCurrent / drive,
		mu,
		amplitude,
		anodeVolts,
		rectifying: RECTIFYING * gridLeak
	};
}

export const nodesOf = ({ pentode, oscillator }: Layout): number => (oscillator ? 6 : pentode ? 4 : 3);

function network(layout: Layout, circuit: Circuit): Network {
	const net = new Network(nodesOf(layout));
	net.toFixed(ANODE, circuit.anodeFeed, circuit.ht);
	net.toFixed(CATHODE, circuit.cathodeResistor);
	net.inject(CATHODE, circuit.sharedCathode);
	net.toFixed(GRID, circuit.gridLeak + circuit.gridJoint, circuit.gridReturn);
	net.inject(GRID, circuit.gridFeed);
	leak(net, ANODE, circuit.anodeLeak);
	leak(net, CATHODE, circuit.cathodeLeak);
	leak(net, GRID, circuit.couplingLeak, circuit.before);
	net.device([GRID, CATHODE], (volts, drawn) => {
		drawn[0] = gridCurrent(volts[0]! - volts[1]!, circuit.gridStart);
		drawn[1] = -drawn[0];
	});
	if (layout.pentode) addPentode(net, layout, circuit);
	else addTriode(net, layout.law, circuit);
	if (layout.oscillator) addOscillator(net, layout.oscillator, circuit);
	return net;
}

/** A path of so many siemens from a node to fixed volts, where there is one. */
function leak(net: Network, node: number, conductance: number, volts = 0): void {
	if (conductance > 0) net.toFixed(node, 1 / conductance, volts);
}

const lawIn = (law: ValveLaw, { emission, mu, contact }: Circuit): ValveLaw => ({
	...law,
	perveance: law.perveance * emission,
	mu: law.mu * mu,
	contact: law.contact + contact
});

function addTriode(net: Network, law: ValveLaw, circuit: Circuit): void {
	const own = lawIn(law, circuit);
	net.device([ANODE, CATHODE, GRID], (volts, drawn) => {
		const across = volts[0]! - volts[1]!;
		// No current flows back, and little flows while the anode stands lower than the cathode.
		const current =
			across <= 0 ? 0 : spaceCurrent(own, volts[2]! - volts[1]!, across) * Math.min(1, across / 3);
		drawn[0] = current;
		drawn[1] = -current;
		drawn[2] = 0;
	});
}

/** Share of the anode with ample volts on it, for a screen current that differs from the sheet. */
function shareOf(law: ValveLaw, circuit: Circuit, layout: Layout): number {
	const ratio = ((1 - law.anodeShare) / law.anodeShare) * circuit.screenRatio;
	const share = 1 / (1 + ratio);
	if (!layout.oscillator) return share;
	const stopped = Math.min(0.75, share * circuit.stoppedShare);
	const swing = Math.min(1, circuit.swing);
	return swing * share + (1 - swing) * stopped;
}

function addPentode(net: Network, layout: Layout, circuit: Circuit): void {
	const { law } = layout;
	const own = lawIn(law, circuit);
	const share = shareOf(law, circuit, layout);
	net.toFixed(SCREEN, circuit.screenFeed, circuit.ht);
	leak(net, SCREEN, circuit.screenLeak);
	if (circuit.sharedScreen > 0) {
		// The screens of other valves draw by the power of three halves of their volts.
		net.device([SCREEN], (volts, drawn) => {
			drawn[0] = circuit.sharedScreen * cut(volts[0]! / layout.screenVolts);
		});
	}
	net.device([ANODE, CATHODE, GRID, SCREEN], (volts, drawn) => {
		const cathode = volts[1]!;
		const pull = volts[3]! - cathode;
		const space = pull <= 0 ? 0 : spaceCurrent(own, volts[2]! - cathode, pull) * Math.min(1, pull / 3);
		const taken = space * share * anodeTakes(volts[0]! - cathode, pull);
		drawn[0] = taken;
		drawn[1] = -space;
		drawn[2] = 0;
		drawn[3] = space - taken;
	});
}

function addOscillator(net: Network, law: OscillatorLaw, circuit: Circuit): void {
	net.toFixed(OSCILLATOR_ANODE, circuit.oscillatorFeed, circuit.ht);
	leak(net, OSCILLATOR_ANODE, circuit.oscillatorLeakage);
	net.between(OSCILLATOR_GRID, CATHODE, circuit.oscillatorLeak);
	const nodes = [OSCILLATOR_ANODE, CATHODE, OSCILLATOR_GRID];
	net.device(nodes, (volts, drawn) => {
		const cathode = volts[1]!;
		const grid = volts[2]!;
		const across = Math.max(volts[0]! - cathode, 0);
		const amplitude = circuit.swing * law.amplitude * (across / law.anodeVolts);
		const steady = across / law.mu + (grid - cathode) + CONTACT;
		const current =
			law.perveance * circuit.oscillatorEmission * meanDrive(steady, amplitude) * Math.min(1, across / 3);
		const rectified =
			circuit.swing > 0
				? (grid - cathode + amplitude) / law.rectifying
				: gridCurrent(grid - cathode, circuit.gridStart);
		drawn[0] = current;
		drawn[1] = -current - rectified;
		drawn[2] = rectified;
	});
}

/** V that a meter may pull a point down before the circuit is solved anew with the meter in it. */
const SMALL_PULL = 0.25;

/** A reading to be foretold, and the meter that takes it. */
export interface Probe {
	reading: ReadingId;
	ohms: number;
}

/** How a probe is read on a circuit that was solved. */
interface Read extends Probe {
	place: Place;
	/** What the meter leaves of the volts; with `own`, all volts of the circuit as it is while this reading is taken. */
	left: number;
	own?: Float64Array;
}

/** The stage while a reading is taken: the meter in it, a part lifted. */
function whileRead(
	layout: Layout,
	circuit: Circuit,
	{ node, across, without, shunt, returned }: Place,
	ohms: number
): Network {
	if (across) {
		const both = 1 / (1 / circuit[across] + 1 / ohms);
		return network(layout, { ...circuit, [across]: both });
	}
	const net = network(layout, {
		...circuit,
		...(without && { [without]: 0 }),
		...(returned && { gridReturn: 0 })
	});
	net.toFixed(node, ohms);
	if (shunt !== undefined) net.toFixed(node, shunt);
	return net;
}

/**
 * Volts of the free end of a lifted coupling capacitor: its leak and the meter divide what stands at its far side, which was read
 * while the leak still drew on it.
 */
function freeEnd({ couplingLeak, before, beforeOhms }: Circuit, grid: number, ohms: number): number {
	if (couplingLeak <= 0) return 0;
	const source = before + (before - grid) * couplingLeak * beforeOhms;
	return (source * ohms) / (ohms + 1 / couplingLeak + beforeOhms);
}

/** Solves circuits of one layout; each starts from the volts of the last one. */
export class Solver {
	readonly #layout: Layout;
	#volts: Float64Array;
	#reads: readonly Read[] = [];

	constructor(layout: Layout, start: Circuit) {
		this.#layout = layout;
		this.#volts = firstGuess(layout, start);
	}

	/** What the probes show, one after the other. */
	shown(circuit: Circuit, probes: readonly Probe[]): number[] {
		const net = network(this.#layout, circuit);
		this.#volts = net.solve(this.#volts);
		const resistances = net.resistances(this.#volts);
		this.#reads = probes.map((probe) => this.#read(circuit, probe, resistances));
		return this.#reads.map((read) => this.#show(circuit, read, this.#volts, read.own));
	}

	#read(circuit: Circuit, probe: Probe, resistances: Float64Array): Read {
		const place = PLACES[probe.reading] ?? { node: HT };
		const { node, across, without, returned } = place;
		const plain = { ...probe, place, left: 1 };
		if (node === HT) return plain;
		const left = probe.ohms / (probe.ohms + (across ? circuit[across] : resistances[node]!));
		const pull = (across ? circuit.ht - this.#volts[node]! : this.#volts[node]!) * (1 - left);
		if (!without && !returned && Math.abs(pull) < SMALL_PULL) return { ...plain, left: across ? 1 : left };
		return { ...plain, own: whileRead(this.#layout, circuit, place, probe.ohms).solve(this.#volts) };
	}

	/** The same for a circuit that differs little from the last one, near enough for a slope. */
	nudged(circuit: Circuit): number[] {
		const volts = network(this.#layout, circuit).nudge(this.#volts);
		return this.#reads.map((read) => {
			const own = read.own && whileRead(this.#layout, circuit, read.place, read.ohms).nudge(read.own);
			return this.#show(circuit, read, volts, own);
		});
	}

	#show(circuit: Circuit, read: Read, volts: Float64Array, own: Float64Array | undefined): number {
		const { reading, place, ohms, left } = read;
		if (reading === 'coupling-end') return circuit.meterScale * freeEnd(circuit, volts[GRID]!, ohms);
		if (place.node === HT) return circuit.meterScale * circuit.ht;
		const shown = own?.[place.node] ?? left * volts[place.node]!;
		return circuit.meterScale * (place.across ? circuit.ht - shown : shown);
	}
}

function firstGuess(layout: Layout, { ht, cathodeResistor }: Circuit): Float64Array {
	const cathode = cathodeResistor > 1 ? 3 : 0;
	return Float64Array.from([0.8 * ht, cathode, 0, 0.5 * ht, 0.4 * ht, cathode - 8].slice(0, nodesOf(layout)));
}
