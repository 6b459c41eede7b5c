import type { Expectation } from './expected.ts';

/** A reading that is questioned before it is taken: in words, with what else it may have been meant to be. */
export interface Question {
	says: string;
	/** The other value, volts. */
	instead: number;
}

const near = (value: number, { from, to }: Expectation) => value >= from && value <= to;
const plain = (value: number) => String(Number(value.toPrecision(6))).replace('-', '−');

/** Asks after a wrong sign or a lost decimal; nothing where the reading can stand as it is. */
export function questionReading(value: number, expected: Expectation | undefined): Question | undefined {
	if (!expected || Math.abs(expected.value) < 1 || near(value, expected)) return undefined;
	if (value !== 0 && Math.sign(value) !== Math.sign(expected.value) && Math.abs(value) >= 0.3)
		return {
			says: `${plain(value)} V where about ${plain(Math.round(expected.value * 10) / 10)} V belong: are the leads the wrong way round? The black one goes to ${expected.value < 0 ? 'the chassis' : 'HT negative'}.`,
			instead: -value
		};
	for (const factor of [10, 100, 1000, 0.1, 0.01, 0.001]) {
		const instead = Number((value * factor).toPrecision(6));
		if (value !== 0 && near(instead, expected))
			return {
				says: `${plain(value)} V where about ${plain(Math.round(expected.value))} V belong: has a decimal point slipped?`,
				instead
			};
	}
	return undefined;
}
