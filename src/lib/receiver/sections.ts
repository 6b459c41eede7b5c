/** The sections of a receiver, in signal order; the rest follow. Ids are stored in trails: never renamed. */
export const SECTIONS = {
	outside: 'Outside the set',
	mechanics: 'Tuning drive',
	'front-end': 'AM front end',
	oscillator: 'AM oscillator',
	mixer: 'Mixer',
	'fm-tuner': 'FM tuner',
	if: 'IF amplifier',
	detector: 'AM detector',
	'fm-detector': 'FM detector',
	avc: 'AVC line',
	switching: 'Switching',
	audio: 'Audio',
	output: 'Output',
	loudspeaker: 'Loudspeaker',
	'power-supply': 'Power supply',
	heaters: 'Heaters',
	indicator: 'Tuning indicator'
} as const;

export type SectionId = keyof typeof SECTIONS;
export const SECTION_IDS = Object.keys(SECTIONS) as SectionId[];
