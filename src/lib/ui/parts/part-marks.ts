import { STATES, type StateOfPart } from '$lib/job/parts.ts';

/** How the state of a part looks: a shape, a letter and a colour, so that two of the three can be missed. */
export interface Look {
	letter: string;
	/** Outline in a square of 28, as an SVG path. */
	path: string;
	tone: 'plain' | 'good' | 'bad' | 'new';
	word: string;
}

const CIRCLE = 'M14 2a12 12 0 1 1 0 24a12 12 0 1 1 0-24z';
const SQUARE = 'M4 4h20v20H4z';
const DIAMOND = 'M14 1L27 14L14 27L1 14z';
const HEXAGON = 'M8 3h12l7 11l-7 11H8L1 14z';
const HOUSE = 'M14 2l11 9v14H3V11z';
const SHIELD = 'M3 3h22v12c0 6-6 9-11 11C9 24 3 21 3 15z';
const BARREL = 'M9 2h10a9 12 0 0 1 0 24H9A9 12 0 0 1 9 2z';

const SHAPES: Readonly<Record<StateOfPart, Omit<Look, 'word'>>> = {
	untouched: { letter: 'U', path: CIRCLE, tone: 'plain' },
	continuity: { letter: 'C', path: BARREL, tone: 'plain' },
	value: { letter: 'V', path: SQUARE, tone: 'plain' },
	good: { letter: 'G', path: SHIELD, tone: 'good' },
	bad: { letter: 'B', path: DIAMOND, tone: 'bad' },
	changed: { letter: 'N', path: HEXAGON, tone: 'new' },
	left: { letter: 'L', path: HOUSE, tone: 'plain' }
};

export const lookOf = (state: StateOfPart): Look => ({ ...SHAPES[state], word: STATES[state] });

export const LOOKS: readonly Look[] = (Object.keys(SHAPES) as StateOfPart[]).map(lookOf);
