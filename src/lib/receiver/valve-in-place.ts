import { findValve, type Valve } from '../valves/index.ts';
import { NO_ELECTRODE } from './no-electrode.ts';
import type { Plan } from './plan.ts';
import type { SectionId } from './sections.ts';

type Point = Plan['points'][string];

const isDiode = (system: string) => system.startsWith('diode');
const isTriode = (system: string) => system.startsWith('triode');

/** The system of a bulb that works at a place: its triode in oscillator and audio, else the other one; nothing where two would do. */
function systemFor({ systems }: Valve, section: SectionId | undefined): string | undefined {
	const names = systems.map(({ name }) => name).filter((name) => !isDiode(name));
	if (systems.length < 2) return undefined;
	const [only, second] = names;
	if (second === undefined) return only;
	const triode = section === 'oscillator' || section === 'audio';
	const fitting = names.filter((name) => isTriode(name) === triode);
	return fitting.length === 1 ? fitting[0] : undefined;
}

const isPentagrid = ({ kind }: Valve) => kind.includes('pentagrid');
const isTriodeMixer = ({ kind }: Valve) => kind === 'triode-heptode' || kind === 'triode-hexode';

const carries = ({ pins }: Valve, code: string) =>
	Object.values(pins).some((text) => (text.split(':')[1] ?? '').split('+').includes(code));

/**
 * The electrode that does the same work in another mixer: a pentagrid takes the signal at g3 or g4 and swings at g1, a triode-heptode
 * takes it at g1 and swings in its triode. Nothing where the other valve has no such electrode: then no pin is named.
 */
function electrodeIn(
	planned: Valve,
	own: Valve,
	section: SectionId | undefined,
	electrode: string
): string | undefined {
	const osc = section === 'oscillator';
	if (isPentagrid(planned) && isTriodeMixer(own)) {
		if (osc) return electrode === 'g1' ? 'g' : electrode === 'g2' ? 'a' : undefined;
		return electrode === 'g3' || electrode === 'g4' ? 'g1' : electrode;
	}
	if (!isPentagrid(own)) return electrode;
	// Of the older pentagrids g3 and g5 are the screen, g4 takes the signal and g2 is the oscillator's anode.
	const older = carries(own, 'g3g5') || carries(own, 'g4');
	if (electrode === 'g2g4') return older ? 'g3g5' : electrode;
	if (isPentagrid(planned)) return older && electrode === 'g3' ? 'g4' : electrode;
	if (!isTriodeMixer(planned)) return electrode;
	if (osc) return electrode === 'g' ? 'g1' : electrode === 'a' && older ? 'g2' : undefined;
	return electrode === 'g1' ? (older ? 'g4' : 'g3') : electrode;
}

/**
 * A point of the plan on the valve that a set has in place of the plan's: its system and its electrode, by what they do there.
 *
 * @param planned type that the plan has there
 * @param type type of the set
 */
export function pointOn(plan: Plan, point: Point, planned: string, type: string): Point {
	const [was, now] = [findValve(planned), findValve(type)];
	if (!was.ok || !now.ok) return point;
	const { system, electrode, ...rest } = point;
	const section = plan.stages[point.stage]?.section;
	const same = now.valve.systems.some(({ name }) => name === system);
	const own = same ? system : systemFor(now.valve, section);
	const code = electrode === undefined ? undefined : electrodeIn(was.valve, now.valve, section, electrode);
	return {
		...rest,
		...(electrode === undefined ? {} : { electrode: code ?? NO_ELECTRODE }),
		...(own === undefined ? {} : { system: own })
	};
}
