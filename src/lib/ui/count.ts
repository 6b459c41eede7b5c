const figures = new Intl.NumberFormat('en-GB');

/** A number as it is read: `5,000`. */
export const figure = (number: number): string => figures.format(number);

/** A number with its noun: `1 step`, `12 steps`. */
export const count = (number: number, noun: string): string =>
	`${figure(number)} ${noun}${number === 1 ? '' : 's'}`;
