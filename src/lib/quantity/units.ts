/**
 * The units that values are kept in, always without a prefix: volts, not millivolts. `S` is mutual conductance (1 mA/V is
 * 1 mS), `''` a bare number such as a ratio.
 */
export type Unit =
	| 'V'
	| 'A'
	| 'ohm'
	| 'W'
	| 'F'
	| 'H'
	| 'Hz'
	| 's'
	| '%'
	| ''
	| 'dB'
	| 'degC'
	| 'S'
	| 'm'
	| 'VA'
	| 'deg'
	| 'ohm/V'
	| 'F/m'
	| 'A/V^1.5';

export interface UnitRow {
	/** As printed after a number. */
	symbol: string;
	/** As spoken, in the plural; also used in hints. */
	spoken: string;
	/** What is measured in it, with its article. */
	quantity: string;
	/** A value as somebody would type it. */
	example: string;
}

export const units: Readonly<Record<Unit, UnitRow>> = {
	V: { symbol: 'V', spoken: 'volts', quantity: 'a voltage', example: '12 V' },
	A: { symbol: 'A', spoken: 'amps', quantity: 'a current', example: '43 mA' },
	ohm: { symbol: 'Ω', spoken: 'ohms', quantity: 'a resistance', example: '4k7' },
	W: { symbol: 'W', spoken: 'watts', quantity: 'a power', example: '2 W' },
	F: { symbol: 'F', spoken: 'farads', quantity: 'a capacitance', example: '0.05 µF' },
	H: { symbol: 'H', spoken: 'henries', quantity: 'an inductance', example: '160 µH' },
	Hz: { symbol: 'Hz', spoken: 'hertz', quantity: 'a frequency', example: '455 kHz' },
	s: { symbol: 's', spoken: 'seconds', quantity: 'a time', example: '12 min' },
	'%': { symbol: '%', spoken: 'per cent', quantity: 'a percentage', example: '5 %' },
	'': { symbol: '', spoken: 'a number alone', quantity: 'a bare number', example: '45' },
	dB: { symbol: 'dB', spoken: 'decibels', quantity: 'a level', example: '6 dB' },
	degC: { symbol: '°C', spoken: 'degrees Celsius', quantity: 'a temperature', example: '70 °C' },
	S: { symbol: 'A/V', spoken: 'amps per volt', quantity: 'a mutual conductance', example: '2 mA/V' },
	m: { symbol: 'm', spoken: 'metres', quantity: 'a length', example: '30 mm' },
	VA: { symbol: 'VA', spoken: 'volt-amps', quantity: 'an apparent power', example: '60 VA' },
	deg: { symbol: '°', spoken: 'degrees', quantity: 'an angle', example: '45 deg' },
	'ohm/V': { symbol: 'Ω/V', spoken: 'ohms per volt', quantity: 'a meter sensitivity', example: '500 ohm/V' },
	'F/m': {
		symbol: 'F/m',
		spoken: 'farads per metre',
		quantity: 'a capacitance per length',
		example: '80 pF/m'
	},
	'A/V^1.5': {
		symbol: 'A/V^1.5',
		spoken: 'amps per volt to the power of one and a half',
		quantity: 'a perveance',
		example: '15 µA/V^1.5'
	}
};
