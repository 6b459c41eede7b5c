/**
 * Decimal arithmetic on the printed digits of a number, so that 0.05 times a millionth is 5e-8 and not a neighbour of it.
 */

/** Moves the decimal point: `value` times ten to the power `places`, as exact as the nearest double can be. */
export function shiftPoint(value: number, places: number): number {
	const [digits = '0', power = '0'] = String(value).split('e');
	return Number(`${digits}e${Number(power) + places}`);
}

/** Rounds to `digits` significant digits (1 to 21). */
export function roundTo(value: number, digits: number): number {
	return Number(value.toPrecision(digits));
}

/** The number of significant digits in the shortest spelling of `value`. */
export function significantDigits(value: number): number {
	const [digits = '0'] = value.toExponential().split('e');
	return digits.replace(/[-.]/g, '').length;
}

/** Digits without an exponent: 1e-7 gives `0.0000001`. The sign is kept as a hyphen; minus nought is nought. */
export function plainDigits(value: number): string {
	const [digits = '0', power = '0'] = value.toExponential().split('e');
	const sign = digits.startsWith('-') ? '-' : '';
	const [whole = '0', part = ''] = digits.replace('-', '').split('.');
	const all = whole + part;
	const point = 1 + Number(power);
	if (point <= 0) return `${sign}0.${'0'.repeat(-point)}${all}`;
	if (point >= all.length) return sign + all.padEnd(point, '0');
	return `${sign}${all.slice(0, point)}.${all.slice(point)}`;
}

/** Puts commas between thousands: `12345.678` gives `12,345.678`. */
export function withCommas(digits: string): string {
	const [whole = '', part] = digits.split('.');
	const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
	return part === undefined ? grouped : `${grouped}.${part}`;
}
