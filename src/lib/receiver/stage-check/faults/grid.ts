import type { Circuit } from '../circuit.ts';
import { type Amplifier, type Cause, cold, leaking, names, OHMS, read, type Row, set } from './shared.ts';

const GAS = names({
	'triode-audio': ['af-gas'],
	'output-pentode': ['ov-gas'],
	'if-pentode': ['avc-ge@if-valve'],
	'triode-heptode': ['avc-ge@mixer']
});
const LEAK = names({
	'triode-audio': ['af-leak'],
	'output-pentode': ['cc-leak'],
	'if-pentode': ['ift-cap-leak@if-can-1-am'],
	'triode-heptode': []
});
const FLOATING = names({
	'triode-audio': ['af-gleak'],
	'output-pentode': ['gleak-out', 'stopper-open'],
	'if-pentode': ['if-gret'],
	'triode-heptode': ['mix-gret']
});

/** Ohm; insulation of a socket. */
const FLOATING_OHMS = 3e9;

function gridCauses(stage: Amplifier): { leak: Cause; gas: Cause } {
	const coupled = stage === 'triode-audio' || stage === 'output-pentode';
	const leak: Cause = {
		fault: 'coupling-leak',
		part: coupled ? 'coupling capacitor' : 'insulation from a positive point to the grid or its AVC line',
		common: stage === 'output-pentode' ? 'very common' : coupled ? 'occasional' : 'rare',
		suspects: LEAK[stage],
		value: OHMS,
		says: (value) =>
			coupled
				? `The coupling capacitor leaks: ${value}.`
				: `A leak from a positive point lifts the grid: ${value}.`
	};
	const gas: Cause = {
		fault: 'grid-current',
		part: 'valve, grid current',
		common: stage === 'triode-audio' ? 'not listed' : 'occasional',
		suspects: GAS[stage],
		value: { unit: 'A' },
		says: (value) => `The valve is gassy or its grid emits: grid current of ${value}.`
	};
	return { leak, gas };
}

/** What lifts a grid, or lets it float. */
export function gridRows(stage: Amplifier, { gridLeak }: Circuit): Row[] {
	const { leak, gas } = gridCauses(stage);
	const controlled = stage === 'if-pentode' || stage === 'triode-heptode';
	const raised = {
		family: 'grid-raised',
		parted: read('coupling-end', 'lifted-grid', 'grid-shunted'),
		partBy: controlled
			? 'Change the valve for a sound one: volts that stay come from a leak, volts that go came from the valve.'
			: 'Unplugged, lift the grid end of the coupling capacitor, then read the grid again: volts that go came through the capacitor, volts that stay and grow come from the valve.'
	};
	const floating = {
		family: 'grid-floating',
		parted: cold('grid-leak', 'avc-line'),
		partBy: 'Unplugged: measure from the grid pin to chassis, then across the leak alone.'
	};
	return [
		{
			...raised,
			id: 'coupling-leak',
			sizes: { from: 0.1 * gridLeak, to: 1000 * gridLeak },
			set: leaking('couplingLeak'),
			pins: ['couplingLeak'],
			causes: [leak],
			proofs: controlled ? read('grid-no-avc', 'coupling-end') : read('before', 'coupling-end')
		},
		{
			...raised,
			id: 'grid-current',
			sizes: { from: 0.04 / gridLeak, to: 150 / gridLeak },
			set: set('gridFeed'),
			pins: ['gridFeed'],
			causes: [gas],
			proofs: controlled
				? [...read('grid-no-avc', 'lifted-grid', 'grid-shunted'), ...cold('avc-line')]
				: [...read('lifted-grid', 'grid-shunted'), ...cold('grid-leak')]
		},
		{
			...floating,
			id: 'grid-leak-open',
			set: set('gridLeak', FLOATING_OHMS),
			pins: ['gridLeak'],
			causes: [
				{
					fault: 'grid-leak-open',
					part: controlled ? 'grid return' : 'grid leak',
					common: controlled ? 'rare' : 'occasional',
					suspects: FLOATING[stage],
					says: () => 'The grid floats: its leak, a stopper or a joint on the way to it is open.'
				}
			]
		},
		{
			...floating,
			id: 'grid-joint-open',
			set: set('gridJoint', FLOATING_OHMS),
			pins: ['gridJoint'],
			causes: [
				{
					fault: 'grid-joint-open',
					part: 'joint or stopper at the grid',
					common: 'rare',
					suspects: FLOATING[stage],
					says: () => 'The grid floats: a stopper or a joint between it and its leak is open.'
				}
			]
		}
	];
}
