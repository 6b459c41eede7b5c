/** Minutes from one state (row) to another (column); states are named by the caller. */
export type Switching<State extends string> = Readonly<Record<State, Readonly<Record<State, number>>>>;

/**
 * Minutes to change the power state of a set. Common practice, no source: a bench estimate. Every way to
 * `unplugged` holds switching off, discharging and proving the discharge with a meter.
 */
export const POWER_SWITCHING = {
	unplugged: { unplugged: 0, limiter: 3, live: 4 },
	limiter: { unplugged: 3, limiter: 0, live: 1 },
	live: { unplugged: 3, limiter: 1, live: 0 }
} as const satisfies Switching<'unplugged' | 'limiter' | 'live'>;

/** What a check costs in time. */
export interface CheckTime<State extends string> {
	/** Minutes for the check itself. */
	minutes: number;
	/** State in which it is done. */
	power: State;
	/** State in which it has to be prepared first, where that is another one. */
	prepare?: State | undefined;
	/** Minutes to set up an instrument that is not yet on the bench. */
	setUp?: number | undefined;
}

/** Minutes for a check from the present state: switching (by way of its preparation), setting up, doing it. */
export function checkMinutes<State extends string>(
	check: CheckTime<State>,
	now: State,
	switching: Switching<State>
): number {
	const ready = check.prepare ?? now;
	return switching[now][ready] + switching[ready][check.power] + (check.setUp ?? 0) + check.minutes;
}
