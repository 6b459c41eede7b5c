import type { Circuit } from '../circuit.ts';
import { type Amplifier, type Cause, type Row, names, ohms, set } from './shared.ts';

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

function gridCauses(stage: Amplifier): Cause[] {
	const coupled = stage === 'triode-audio' || stage === 'output-pentode';
	const leak: Cause = {
		fault: 'coupling-leak',
		part: coupled ? 'coupling capacitor' : 'insulation from a positive point to the grid or its AVC line',
		common: stage === 'output-pentode' ? 'very common' : coupled ? 'occasional' : 'rare',
		suspects: LEAK[stage],
		value: ohms(({ size, before, resting }) => Math.max(before - resting('grid'), 1) / size),
		says: (value) =>
			coupled
				? `The coupling capacitor leaks: ${value}.`
				: `A leak of ${value} from a positive point lifts the grid.`
	};
	const gas: Cause = {
		fault: 'grid-current',
		part: 'valve, grid current',
		common: stage === 'triode-audio' ? 'not listed' : 'occasional',
		suspects: GAS[stage],
		value: { unit: 'A', amount: ({ size }) => size },
		says: (value) => `The valve is gassy or its grid emits: ${value} of grid current.`
	};
	return coupled ? [leak, gas] : [gas, leak];
}

/** What lifts a grid, or lets it float. */
export function gridRows(stage: Amplifier, { gridLeak }: Circuit): Row[] {
	return [
		{
			id: 'grid-raised',
			sizes: { from: 0.04 / gridLeak, to: 150 / gridLeak },
			set: set('gridFeed'),
			pins: ['gridFeed'],
			causes: gridCauses(stage),
			partBy:
				stage === 'if-pentode' || stage === 'triode-heptode'
					? 'Change the valve for a sound one: volts that stay come from a leak, volts that go came from the valve.'
					: 'Unplugged, lift the grid end of the coupling capacitor, then read the grid again: volts that go came through the capacitor, volts that stay and grow come from the valve.'
		},
		{
			id: 'grid-floating',
			set: set('gridLeak', 3e9),
			pins: ['gridLeak'],
			causes: [
				{
					fault: 'grid-leak-open',
					part: stage === 'if-pentode' || stage === 'triode-heptode' ? 'grid return' : 'grid leak',
					accuses: 'grid-leak',
					common: stage === 'if-pentode' || stage === 'triode-heptode' ? 'rare' : 'occasional',
					suspects: FLOATING[stage],
					says: () => 'The grid floats: its leak, a stopper or a joint on the way to it is open.'
				}
			],
			partBy: ''
		}
	];
}
