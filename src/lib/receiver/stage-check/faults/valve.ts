import { type Amplifier, AT, cold, names, read, type Row } from './shared.ts';

const WORN = names({
	'triode-audio': ['af-weak'],
	'output-pentode': ['ov-weak'],
	'if-pentode': ['ifv-weak'],
	'triode-heptode': ['mix-weak']
});
/** Faults of the valve itself, but for its grid. */
export function valveRows(stage: Amplifier): Row[] {
	const suspects = WORN[stage];
	return [
		{
			id: 'valve-worn',
			sizes: { from: 0.04, to: 0.78 },
			set: (sound, size) => ({ ...sound, emission: size }),
			pins: ['emission'],
			causes: [
				{
					fault: 'valve-worn',
					part: 'valve',
					common: stage === 'output-pentode' ? 'common' : 'occasional',
					suspects,
					value: { unit: '%', scale: 100 },
					says: (value) => `The valve is worn; left of the current on its sheet: ${value}.`
				}
			],
			partBy: '',
			proofs: [
				...cold('cathode-resistor', 'anode-load', 'screen-feed', 'primary'),
				...read(stage === 'triode-audio' ? 'grid' : 'anode-drop')
			]
		},
		{
			id: 'valve-dead',
			set: (sound) => ({ ...sound, emission: 1e-6, oscillatorEmission: 1e-6, swing: 0 }),
			pins: ['emission', 'oscillatorEmission', 'swing'],
			causes: [
				{
					fault: 'valve-dead',
					part: 'valve, its heater or its socket',
					common: 'occasional',
					suspects: [`valve-htr@${AT[stage]}`, `socket@${AT[stage]}`, ...suspects],
					says: () =>
						'The valve draws no current: cold heater, bad contact in the socket, or no emission left.'
				}
			],
			partBy: ''
		}
	];
}
