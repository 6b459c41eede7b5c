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

/** Instruments, each with the minutes to connect and set it; one that is not named takes none. */
export type SetUpMinutes = Readonly<Partial<Record<string, number>>>;

/** What a check costs in time. */
export interface CheckTime<State extends string> {
	/** Minutes for the check itself. */
	minutes: number;
	/** State in which it is done. */
	power: State;
	/** State in which it has to be prepared first, where that is another one. */
	prepare?: State | undefined;
	/** Instruments that it is done with. */
	instruments?: readonly string[] | undefined;
}

/** Where the work stands: the state of the set, and the instruments that the last check was done with. */
export interface Standpoint<State extends string> {
	power: State;
	instruments?: readonly string[] | undefined;
}

/** What the changes between checks cost. */
export interface Changeover<State extends string> {
	switching: Switching<State>;
	setUp?: SetUpMinutes | undefined;
}

/** Minutes for a check from where the work stands: switching (by way of its preparation), setting up, doing it. */
export function checkMinutes<State extends string>(
	check: CheckTime<State>,
	from: Standpoint<State>,
	{ switching, setUp = {} }: Changeover<State>
): number {
	const ready = check.prepare ?? from.power;
	const fresh = (check.instruments ?? []).filter((one) => !from.instruments?.includes(one));
	const setting = fresh.reduce((minutes, one) => minutes + (setUp[one] ?? 0), 0);
	return switching[from.power][ready] + switching[ready][check.power] + setting + check.minutes;
}
