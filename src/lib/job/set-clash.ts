import type { Power } from '../flow/machine-types.ts';
import type { Fit } from '../valves/index.ts';
import type { SetData, SetValve } from './set-data.ts';

/** A valve in a place where another belongs, which nobody has settled yet. */
export interface Clash {
	valve: SetValve;
	fit: Fit;
}

/** Why the set gets no power yet, as far as its valves are concerned. */
export function clashGate(clashes: readonly Clash[], to: Power): string | undefined {
	const [first] = to === 'limiter' || to === 'live' ? clashes : [];
	return (
		first &&
		`${first.fit.fitted} is fitted where ${first.fit.listed} belongs (${first.valve.role}). Settle that first, then power may go on.`
	);
}

/** The right valve is in its place again. */
export const putRight = (data: SetData, id: string): SetData => ({
	...data,
	valves: data.valves.map((valve) => {
		if (valve.id !== id) return valve;
		const { kept: _, ...rest } = valve;
		return { ...rest, fitted: valve.listed };
	})
});

/** It stays, and why: kept with the set as a fact. */
export const keptSo = (data: SetData, id: string, why: string): SetData => ({
	...data,
	valves: data.valves.map((valve) => (valve.id === id ? { ...valve, kept: why } : valve)),
	differs: [
		...data.differs.filter(({ what }) => !what.startsWith(`${id}: `)),
		...data.valves.flatMap(({ id: of, fitted, listed }) =>
			of === id && fitted !== undefined ? [{ what: `${id}: ${fitted} in place of ${listed}`, why }] : []
		)
	]
});
