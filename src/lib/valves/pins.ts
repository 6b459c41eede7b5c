import { bases } from './data.ts';
import { findValve } from './find.ts';
import type { PinEvidence, Valve } from './types.ts';

export type PinFinding =
	| {
			named: true;
			/** Counted clockwise from the gap, seen from the wiring side. */
			pin: number;
			/** Every pin of that electrode: both ends of a heater, a grid brought out twice. */
			pins: readonly number[];
			base: string;
			evidence: PinEvidence;
	  }
	| { named: false; /** What to do instead. */ advice: string; base?: string };

/** Words that a page or a plan may use for the codes of the data. */
const CODES: Readonly<Record<string, string>> = {
	anode: 'a',
	cathode: 'k',
	grid: 'g1',
	screen: 'g2',
	suppressor: 'g3',
	heater: 'f',
	filament: 'f'
};

/** A triode has one grid, written g; the screens of a heptode are one electrode, g2g4. */
const ALSO: Readonly<Record<string, readonly string[]>> = {
	g: ['g', 'g1'],
	g1: ['g1', 'g'],
	g2: ['g2', 'g2g4'],
	g4: ['g4', 'g2g4'],
	g2g4: ['g2g4', 'g2']
};

interface Place {
	pin: number;
	system: string;
}

/** Every pin that carries one of the spellings of an electrode. */
function placesOf({ pins }: Valve, spellings: readonly string[]): Place[] {
	return Object.entries(pins).flatMap(([pin, text]) => {
		const [system = '', codes = ''] = text.split(':');
		return codes.split('+').some((code) => spellings.includes(code)) ? [{ pin: Number(pin), system }] : [];
	});
}

/** A system's own electrode goes before one that it shares. */
function ofSystem(places: readonly Place[], system: string): Place[] {
	const own = places.filter((place) => place.system === system);
	return own.length > 0 ? own : places.filter((place) => place.system === 'common');
}

/** The first spelling that is on the base counts: a heptode's g1 is not the g of its triode. */
function placesByCode(valve: Valve, electrode: string, system: string | undefined): Place[] {
	const code = CODES[electrode] ?? electrode;
	for (const spelling of ALSO[code] ?? [code]) {
		const places = placesOf(valve, [spelling]);
		const chosen = system === undefined ? places : ofSystem(places, system);
		if (chosen.length > 0) return chosen;
	}
	return [];
}

/** Whether the evidence allows a pin to be named: a maker's sheet, or two independent sources. */
export const trusted = (evidence: PinEvidence): boolean =>
	evidence.startsWith('maker_sheet') || evidence.startsWith('two_sources');

const unnamed = (valve: Valve, advice: string): PinFinding => ({
	named: false,
	advice,
	base: bases[valve.base].name
});

/**
 * The pin of an electrode (`g1`, `a`, `k`, `g2g4`, or a word such as `grid`), with the system where a valve has several. A pin
 * is named only where a maker's sheet or two independent sources were read; else the finding says what to do instead.
 */
export function pinOf(type: string, electrode: string, system?: string): PinFinding {
	const found = findValve(type);
	if (!found.ok) return { named: false, advice: found.hint };
	const { valve } = found;
	if (!trusted(valve.evidence))
		return unnamed(
			valve,
			`The pins of the ${valve.type} were not checked well enough: find it on the maker's sheet first.`
		);
	const places = placesByCode(valve, electrode, system);
	const [first] = places;
	if (!first)
		return unnamed(
			valve,
			`No pin of the ${valve.type} is known as ${electrode}: find it on the maker's sheet first.`
		);
	const systems = [...new Set(places.map((place) => place.system))];
	if (systems.length > 1)
		return unnamed(
			valve,
			`${electrode} of the ${valve.type} stands at ${places.map(({ pin }) => `pin ${pin}`).join(' and ')}: take the one of this stage, by the drawing.`
		);
	return {
		named: true,
		pin: first.pin,
		pins: places.map(({ pin }) => pin),
		base: bases[valve.base].name,
		evidence: valve.evidence
	};
}
