/** Words for the parts of a set. Ids stand in stored jobs: never renamed. */

/** Kinds of part as they look and as they age; `of` tells what is measured on them. */
export const PART_LOOKS = {
	electrolytic: { title: 'Electrolytic', of: 'capacitor' },
	paper: { title: 'Paper or wax capacitor', of: 'capacitor' },
	foil: { title: 'Plastic foil capacitor', of: 'capacitor' },
	ceramic: { title: 'Ceramic capacitor', of: 'capacitor' },
	mica: { title: 'Mica capacitor', of: 'capacitor' },
	capacitor: { title: 'Capacitor of unknown kind', of: 'capacitor' },
	resistor: { title: 'Carbon resistor', of: 'resistor' },
	wirewound: { title: 'Wirewound resistor', of: 'resistor' },
	control: { title: 'Control', of: 'resistor' },
	coil: { title: 'Coil', of: 'other' },
	'if-can': { title: 'IF can', of: 'other' },
	transformer: { title: 'Transformer', of: 'other' },
	choke: { title: 'Choke or field coil', of: 'other' },
	valve: { title: 'Valve', of: 'other' },
	rectifier: { title: 'Metal or silicon rectifier', of: 'other' },
	switch: { title: 'Switch', of: 'other' },
	lamp: { title: 'Dial lamp', of: 'other' },
	loudspeaker: { title: 'Loudspeaker', of: 'other' },
	lead: { title: 'Lead or plug', of: 'other' },
	fuse: { title: 'Fuse', of: 'other' },
	other: { title: 'Other part', of: 'other' }
} as const;
export type PartLook = keyof typeof PART_LOOKS;

/** What a part does where it stands. */
export const DUTIES = {
	'output-coupling': { title: 'coupling to the output grid', of: 'capacitor' },
	coupling: { title: 'coupling', of: 'capacitor' },
	cathode: { title: 'cathode by-pass', of: 'capacitor' },
	screen: { title: 'screen by-pass', of: 'capacitor' },
	avc: { title: 'AVC line', of: 'capacitor' },
	decoupling: { title: 'HT decoupling', of: 'capacitor' },
	reservoir: { title: 'reservoir', of: 'capacitor' },
	smoothing: { title: 'smoothing', of: 'capacitor' },
	'bias-by-pass': { title: 'across the bias resistor', of: 'capacitor' },
	'across-mains': { title: 'across the mains', of: 'capacitor' },
	'mains-chassis': { title: 'mains to chassis', of: 'capacitor' },
	isolating: { title: 'aerial, earth or gram isolating', of: 'capacitor' },
	rectifier: { title: 'across the rectifier', of: 'capacitor' },
	'output-anode': { title: 'at the output anode', of: 'capacitor' },
	tone: { title: 'tone or feedback', of: 'capacitor' },
	'rf-filter': { title: 'RF filter or de-emphasis', of: 'capacitor' },
	'if-can': { title: 'across an IF winding', of: 'capacitor' },
	'oscillator-grid': { title: 'oscillator grid or feedback', of: 'capacitor' },
	tuned: { title: 'tuned circuit or padder', of: 'capacitor' },
	'ratio-detector': { title: 'stabilising in the ratio detector', of: 'capacitor' },
	'anode-load': { title: 'anode load', of: 'resistor' },
	'anode-feed': { title: 'HT feed', of: 'resistor' },
	'screen-feed': { title: 'screen feed', of: 'resistor' },
	'cathode-bias': { title: 'cathode bias', of: 'resistor' },
	'back-bias': { title: 'bias in the HT negative lead', of: 'resistor' },
	'grid-leak': { title: 'grid leak or return', of: 'resistor' },
	'grid-stopper': { title: 'in series with a grid', of: 'resistor' },
	'avc-feed': { title: 'AVC feed', of: 'resistor' },
	'detector-load': { title: 'detector load', of: 'resistor' },
	'ht-smoothing': { title: 'HT smoothing', of: 'resistor' },
	surge: { title: 'surge limiting', of: 'resistor' },
	dropper: { title: 'mains or heater dropper', of: 'resistor' },
	bleeder: { title: 'bleeder or across aerial and earth', of: 'resistor' }
} as const;
export type Duty = keyof typeof DUTIES;

export const VERDICTS = { change: 'Change', measure: 'Measure', leave: 'Leave' } as const;
export type Verdict = keyof typeof VERDICTS;

/** What a new part has to bear beside value and volts. */
export const FITS = {
	X: 'class X (X2)',
	Y: 'class Y (Y2)',
	'high volts': '1,000 to 1,600 V DC film, or class Y'
} as const;
export type FitWord = keyof typeof FITS;

export const isCapacitor = (look: PartLook): boolean => PART_LOOKS[look].of === 'capacitor';
export const isResistor = (look: PartLook): boolean => PART_LOOKS[look].of === 'resistor';
