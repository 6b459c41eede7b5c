/** A number with its noun: `1 step`, `12 steps`. */
export const count = (number: number, noun: string): string => `${number} ${noun}${number === 1 ? '' : 's'}`;
